import type { Observation } from '../types.ts';
import { HOUR_MS } from '../../units/time/index.ts';
import { doubtAll, NO_DOUBTS, type Check } from './check.ts';
import type { Doubt } from './doubt.ts';

/** Values to and fro that are looked at together. */
const WINDOW = 12;
const ZIGZAG_SHARE = 0.75;
export const SMALLEST_STEP_K = 0.8;
const CLOSE_MS = 3 * HOUR_MS;

/** Whether a value is far from its neighbour but near the one before that. */
function alternates(rows: readonly Observation[], i: number): boolean {
  const [a, b, c] = [rows[i - 2], rows[i - 1], rows[i]];
  if (a === undefined || b === undefined || c === undefined || c.atMs - a.atMs > CLOSE_MS) return false;
  const step = Math.abs(c.value - b.value);
  return step > SMALLEST_STEP_K && Math.abs(c.value - a.value) < 0.4 * step;
}

/** A water thermometer series that changes between two levels at every value: two depths written as one. */
export const twoDepths: Check = (rows) => {
  if (rows[0]?.variable !== 'water_temp') return NO_DOUBTS;
  const doubts: [Observation, Doubt][] = [];
  const flags = rows.map((_, i) => alternates(rows, i));
  let inWindow = 0;
  for (let end = 0; end < rows.length; end += 1) {
    inWindow += Number(flags[end]) - Number(flags[end - WINDOW] ?? false);
    if (end + 1 >= WINDOW && inWindow >= ZIGZAG_SHARE * WINDOW)
      doubts.push(...doubtAll(rows.slice(end + 1 - WINDOW, end + 1), { code: 'doubt.twoDepths' }));
  }
  return new Map(doubts);
};
