import { lureBookSchema, type LureBook } from '../../../src/config/rulesLures.ts';
import { readYaml } from '../../../src/config/yaml.ts';
import type { TackleConfig } from '../../../src/config/types.ts';
import { presentCast } from '../../../src/advice/presentation/index.ts';
import type { PositionAdvice } from '../../../src/advice/types.ts';
import { cardOf } from '../../../src/advice/cards.ts';
import { sayCast, type PresentationCard } from '../../../src/words/index.ts';
import type { Conditions, Figure, SignalId } from '../../../src/signals/types.ts';

export const book: LureBook = readYaml('config/rules/lures.yaml', lureBookSchema);

export const FT = 0.3048;
export const LB = 0.45359237;
export const toC = (f: number): number => (f - 32) / 1.8;

export const tackle: TackleConfig = {
  reels: [{ name: 'one reel', gear: 6.8, spoolM: 1.26 * 0.0254 }],
  linesKg: [10 * LB, 12 * LB, 14 * LB, 17 * LB],
  castLengthM: 75 * FT,
};

/** The casts with their sentences, as the page has them. */
export const presentCards = (...day: Parameters<typeof presentCast>): PresentationCard[] =>
  presentCast(...day).map((of) => sayCast(cardOf(of), {}));

export const figure = (value: number): Figure => ({
  value,
  kind: 'observed',
  asOfMs: 0,
  freshness: 'fresh',
  source: { code: 'configuration' },
});

export function conditions(signals: Partial<Record<SignalId, number>>): Conditions {
  return {
    asOfMs: 0,
    date: '2026-03-07',
    zone: 'America/Chicago',
    species: 'mixed',
    waterBody: 'highland-reservoir',
    gaps: [],
    signals: Object.fromEntries(Object.entries(signals).map(([id, value]) => [id, figure(value)])),
  };
}

export function place(
  id: string,
  depthM: readonly [number, number],
  more: Partial<PositionAdvice> = {},
): PositionAdvice {
  return {
    place: id,
    rank: 1,
    total: 1,
    depthM,
    period: 'all_day',
    periodBecause: { code: 'wholeDay' },
    because: [],
    limitedBy: { code: 'ownLimit', place: id },
    evidence: [],
    ...more,
  };
}
