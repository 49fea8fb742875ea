import type { Observation, Variable } from '../types.ts';
import { HOUR_MS } from '../../units/time/index.ts';
import { doubtAll, NO_DOUBTS, type Check } from './check.ts';
import type { Doubt } from './doubt.ts';

/**
 * Hours of one unchanging value after which a sensor counts as stuck. Common practice, no source; the form is the flat
 * line test of the IOOS QARTOD manuals. Level, discharge and release may rest for days, cloud and rain too.
 */
export const STUCK_H: Partial<Record<Variable, number>> = {
  air_temp: 18,
  dew_point: 18,
  humidity: 36,
  pressure: 24,
  wind_speed: 24,
  wind_dir: 48,
  water_temp: 96,
  turbidity: 96,
};

const FEWEST_VALUES = 8;

/** Values at which weather really rests: calm, its direction, and saturated air. */
function mayRest(variable: Variable, value: number): boolean {
  if (variable === 'humidity') return value >= 99;
  if (variable === 'air_temp' || variable === 'dew_point') return false;
  return value === 0;
}

/** Runs of exactly one value for longer than nature keeps it. */
export const stuck: Check = (rows) => {
  const variable = rows[0]?.variable;
  const hours = variable === undefined ? undefined : STUCK_H[variable];
  if (variable === undefined || hours === undefined) return NO_DOUBTS;
  const doubts: [Observation, Doubt][] = [];
  for (let start = 0; start < rows.length;) {
    let end = start + 1;
    while (end < rows.length && rows[end]?.value === rows[start]?.value) end += 1;
    const [first, last] = [rows[start], rows[end - 1]];
    if (first !== undefined && last !== undefined) {
      const longEnough = last.atMs - first.atMs >= hours * HOUR_MS && end - start >= FEWEST_VALUES;
      if (longEnough && !mayRest(variable, first.value))
        doubts.push(...doubtAll(rows.slice(start, end), { code: 'doubt.stuck', hours }));
    }
    start = end;
  }
  return new Map(doubts);
};
