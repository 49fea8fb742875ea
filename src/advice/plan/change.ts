import { HOUR_MS } from '../../units/time/index.ts';
import type { HourRules } from '../../config/index.ts';
import type { LocalClock } from './clock.ts';
import { lightOf } from './light.ts';
import { hourReasons, standsIn, type BlockHour, type Fit } from './reasons.ts';
import type { PlanChange } from './types.ts';

/** A block as the search cut it, with its hours. */
export interface CutBlock {
  readonly place: string;
  readonly fromMs: number;
  readonly toMs: number;
  readonly fit: Fit;
  readonly hours: readonly BlockHour[];
}

/**
 * Why the plan changes between two blocks: a hazard's hours lie between them; or the light does, and the lure with it, at
 * the same place; or something begins that speaks for the
 * new place; or what spoke for the old one is over; or the old one has been fished through.
 *
 * @param closed hazards whose hours end at or before the new block
 */
export function whyChange(
  before: CutBlock,
  next: CutBlock,
  closed: readonly { readonly toMs: number; readonly fromMs: number; readonly hazard: string }[],
  rules: HourRules,
  clock: LocalClock,
): PlanChange {
  const when = { atMs: next.fromMs, at: clock.at(next.fromMs) };
  const between = closed.find(({ fromMs, toMs }) => fromMs < next.fromMs && toMs > before.toMs);
  if (between !== undefined) return { code: 'hazardEnds', ...when, hazard: between.hazard };
  const sun = next.hours[0]?.score.hour.signals.sunAltitudeDeg;
  if (before.place === next.place && before.toMs === next.fromMs && sun !== undefined)
    return { code: 'light', ...when, light: lightOf(sun) };
  const [lastHour, firstHour] = [before.hours.slice(-1), next.hours.slice(0, 1)];
  const had = new Set(
    hourReasons(next.place, before.hours, rules, next.fit).map(({ reason }) => reason.code),
  );
  // "From 06:00 the sun is high" is said of the hour that begins then, not of noon, and of no hour that was so before.
  const begins = hourReasons(next.place, next.hours, rules, next.fit).find(
    ({ reason }) => !had.has(reason.code) && standsIn(reason, firstHour) && !standsIn(reason, lastHour),
  );
  if (begins !== undefined) return { code: 'reason', ...when, reason: begins.reason };
  const stays = new Set(
    hourReasons(before.place, next.hours, rules, before.fit).map(({ reason }) => reason.code),
  );
  const over = hourReasons(before.place, before.hours, rules, before.fit).find(
    ({ reason }) => !stays.has(reason.code) && !standsIn(reason, firstHour),
  );
  if (over !== undefined) return { code: 'over', ...when, reason: over.reason };
  return { code: 'fished', ...when, hours: (before.toMs - before.fromMs) / HOUR_MS };
}
