import { HOUR_MS } from '../../units/time/index.ts';

export type FreshnessWord = 'fresh' | 'ageing' | 'stale';

/**
 * How far a value may be trusted as "now", by its source's own interval. Common practice, no source:
 *
 * | interval | fresh up to (2 intervals + 1 h) | ageing up to (4 intervals + 6 h) |
 * |---|---|---|
 * | 15 min | 1.5 h | 7 h |
 * | 1 h | 3 h | 10 h |
 * | 6 h (issues of a forecast) | 13 h | 30 h |
 * | 24 h | 49 h | 102 h |
 *
 * Older is stale: shown with its date, feeding no rule. An instant more than an hour ahead is a wrong clock: stale.
 *
 * @param atMs instant of the value, of a forecast its issue; epoch ms
 * @param asOfMs the instant it is judged at; epoch ms
 * @param intervalS the source's usual interval, s, 0 or more (0 counts as continuous)
 * @throws RangeError for an interval that is negative or not finite
 */
export function freshness(atMs: number, asOfMs: number, intervalS: number): FreshnessWord {
  if (!(intervalS >= 0 && Number.isFinite(intervalS)))
    throw new RangeError(`interval must be 0 s or more, not ${intervalS}`);
  const ageMs = asOfMs - atMs;
  const intervalMs = intervalS * 1000;
  if (!(ageMs >= -HOUR_MS)) return 'stale';
  if (ageMs <= 2 * intervalMs + HOUR_MS) return 'fresh';
  return ageMs <= 4 * intervalMs + 6 * HOUR_MS ? 'ageing' : 'stale';
}

/**
 * The usual interval of a series: median step of its newest values, so that a gap does not stretch it.
 *
 * @param atMs instants in ascending order, epoch ms
 * @param fallbackS what to assume with fewer than three values, s
 * @returns s
 */
export function usualIntervalS(atMs: readonly number[], fallbackS = 3600): number {
  const newest = atMs.slice(-50);
  const steps = newest
    .slice(1)
    .map((at, i) => at - (newest[i] ?? at))
    .filter((step) => step > 0)
    .sort((a, b) => a - b);
  const middle = steps[Math.floor(steps.length / 2)];
  return steps.length < 2 || middle === undefined ? fallbackS : middle / 1000;
}
