import type { Observation, Variable } from '../types.ts';
import { HOUR_MS } from '../../units/time/index.ts';
import { NO_DOUBTS, type Check } from './check.ts';
import type { Doubt } from './doubt.ts';

/**
 * Size of a lone excursion that is not believed, in the variable's unit. Form of the test: IOOS QARTOD manual for
 * temperature and salinity, test 6 (spike). Sizes: common practice, no source. Discharge, wind, rain and turbidity
 * have real spikes and are not tested.
 */
export const SPIKE: Partial<Record<Variable, number>> = {
  water_temp: 3,
  air_temp: 8,
  dew_point: 8,
  pressure: 8,
  level: 0.5,
};

/**
 * Newest value only: so large a step needs a second value before it is believed. A flood or a turbine's start is such a
 * step too, and the next value, mostly within the hour, confirms it. Sizes: common practice, no source.
 */
const UNCONFIRMED_STEP: Partial<Record<Variable, number>> = { water_temp: 4, air_temp: 15, level: 1 };

const CLOSE_MS = 3 * HOUR_MS;

function sticksOut(before: Observation, row: Observation, after: Observation, limit: number): boolean {
  if (row.atMs - before.atMs > CLOSE_MS || after.atMs - row.atMs > CLOSE_MS) return false;
  const left = row.value - before.value;
  const right = row.value - after.value;
  return left * right > 0 && Math.min(Math.abs(left), Math.abs(right)) > limit;
}

/** Lone excursions against both neighbours, and a newest value that jumped and has no neighbour yet to confirm it. */
export const spike: Check = (rows) => {
  const variable = rows[0]?.variable;
  const limit = variable === undefined ? undefined : SPIKE[variable];
  if (variable === undefined || limit === undefined) return NO_DOUBTS;
  const doubts = new Map<Observation, Doubt>();
  for (let i = 1; i + 1 < rows.length; i += 1) {
    const [before, row, after] = [rows[i - 1], rows[i], rows[i + 1]];
    if (before === undefined || row === undefined || after === undefined) continue;
    if (!doubts.has(before) && sticksOut(before, row, after, limit)) doubts.set(row, { code: 'doubt.spike' });
  }
  const [last, before] = [rows.at(-1), rows.at(-2)];
  const step = UNCONFIRMED_STEP[variable];
  if (step === undefined || last === undefined || before === undefined || doubts.has(before)) return doubts;
  if (last.atMs - before.atMs <= CLOSE_MS && Math.abs(last.value - before.value) > step)
    doubts.set(last, { code: 'doubt.unconfirmed' });
  return doubts;
};
