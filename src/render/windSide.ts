import { eighthOf } from '../units/index.ts';
import { HOUR_MS } from '../units/time/index.ts';
import type { BriefingPage } from '../words/index.ts';

/** Wind that ripples a bank enough to matter there, m/s (6 mph; common practice, no source). */
const REACHES_MS = 2.7;
/** A side that the wind keeps for less time is not worth going to. */
const SHORTEST_H = 2;
/** More sides than these are a turning wind, which has none. */
const MOST_SIDES = 2;
const LIGHT_DEG = -6;

/** A stretch of the day in which the wind blows onto the banks of one side. */
export interface WindSide {
  /** Eighth of the compass on which the banks lie that it reaches: 0 north, 1 north-east, ... 7 north-west. */
  readonly bank: number;
  readonly fromMs: number;
  readonly toMs: number;
}

/**
 * On which side the wind stands in the light of the day: from the south it reaches the northern banks. The shape of the
 * lake is not known, so this is the side of any open water, not of one cove. Hours before the issue are no news.
 */
export function windSides({ series, plan, issuedMs }: BriefingPage): WindSide[] {
  const fishing = plan?.fishing ?? null;
  const sides: WindSide[] = [];
  for (const { atMs, windMs, windDirDeg, sunAltitudeDeg } of series.hours) {
    if (atMs + HOUR_MS <= issuedMs) continue;
    const light =
      fishing === null ? sunAltitudeDeg > LIGHT_DEG : atMs + HOUR_MS > fishing.fromMs && atMs < fishing.toMs;
    if (!light || windMs === undefined || windDirDeg === undefined || windMs < REACHES_MS) continue;
    const bank = (eighthOf(windDirDeg) + 4) % 8;
    // An hour of another wind between two of one side does not end it.
    const before = sides.findLastIndex((side) => side.bank === bank);
    const last = sides[before];
    if (last !== undefined && atMs - last.toMs <= HOUR_MS) sides[before] = { ...last, toMs: atMs + HOUR_MS };
    else sides.push({ bank, fromMs: atMs, toMs: atMs + HOUR_MS });
  }
  const long = sides.filter(({ fromMs, toMs }) => toMs - fromMs >= SHORTEST_H * HOUR_MS);
  if (long.length > MOST_SIDES) return [];
  if (fishing === null) return long;
  return long.map(({ bank, fromMs, toMs }) => ({
    bank,
    fromMs: Math.max(fromMs, fishing.fromMs),
    toMs: Math.min(toMs, fishing.toMs),
  }));
}
