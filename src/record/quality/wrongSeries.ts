import type { Observation } from '../types.ts';
import { DAY_MS } from '../../units/time/index.ts';
import { doubtAll, NO_DOUBTS, type Check } from './check.ts';
import type { Doubt } from './doubt.ts';
import { isPossible } from './impossible.ts';

/**
 * Share of impossible values, and their number, from which the rest of a model's series is not believed either: the unit
 * or the column is wrong, and what happens to look possible is as wrong. Common practice, no source.
 */
const SHARE = 0.05;
const FEWEST = 3;
/** A past is made of many replies; one reaches back about this far. */
const REPLY_MS = 7 * DAY_MS;

/** Whether many of the values are impossible, in more than one way: one number that comes again is a code for "missing". */
export function isWrongSeries(rows: readonly Observation[]): boolean {
  const wrong = rows.filter((row) => !isPossible(row));
  return (
    wrong.length >= FEWEST &&
    wrong.length >= SHARE * rows.length &&
    new Set(wrong.map(({ value }) => value)).size > 1
  );
}

/** Values of a weather model that came with many impossible ones: all of a forecast, of a past what lies within a reply. */
export const wrongSeries: Check = (rows) => {
  const wrong = rows.filter((row) => !isPossible(row));
  const [first, last] = [wrong[0], wrong.at(-1)];
  if (first === undefined || last === undefined) return NO_DOUBTS;
  const near =
    first.kind === 'forecast'
      ? rows
      : rows.filter(({ atMs }) => atMs > first.atMs - REPLY_MS && atMs < last.atMs + REPLY_MS);
  if (!isWrongSeries(near)) return NO_DOUBTS;
  const doubt: Doubt = { code: 'doubt.wrongSeries', share: wrong.length / near.length };
  return new Map(doubtAll(near, doubt));
};
