import { groupBy } from '../observations/groupBy.ts';
import type { Observation, Variable } from '../types.ts';
import { DAY_MS } from '../../units/time/index.ts';
import { doubtAll, NO_DOUBTS, type Check } from './check.ts';
import type { Doubt } from './doubt.ts';

const FEWEST_VALUES = 8;
const FEWEST_DISTINCT = 5;
/** Weather that may really repeat to the last digit: a cloudless day, a held release. */
export const MAY_REPEAT: readonly Variable[] = [
  'cloud',
  'thunder',
  'weather_code',
  'cape',
  'release',
  'wind_dir',
];

/** A day that repeats the day before to the last digit: a copy, not a measurement. */
export const duplicateDay: Check = (rows) => {
  const variable = rows[0]?.variable;
  if (variable === undefined || MAY_REPEAT.includes(variable)) return NO_DOUBTS;
  const valueAt = new Map(rows.map((row) => [row.atMs, row.value]));
  const doubts: [Observation, Doubt][] = [];
  for (const day of groupBy(rows, (row) => Math.floor(row.atMs / DAY_MS)).values()) {
    if (day.length < FEWEST_VALUES) continue;
    if (new Set(day.map((row) => row.value)).size < FEWEST_DISTINCT) continue;
    if (day.every((row) => valueAt.get(row.atMs - DAY_MS) === row.value))
      doubts.push(...doubtAll(day, { code: 'doubt.duplicateDay' }));
  }
  return new Map(doubts);
};
