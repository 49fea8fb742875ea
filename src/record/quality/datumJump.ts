import { DAY_MS, HOUR_MS } from '../../units/time/index.ts';
import { doubtAll, NO_DOUBTS, type Check } from './check.ts';

/** Smallest step that is looked at, m; differences between the usual datums are 0.1 m and more, noise is less. */
export const SMALLEST_M = 0.3;
/** A step is a jump when it is this many times the usual step of the series. */
const TIMES_USUAL = 20;
/** Between values further apart a lake can really have moved. */
const CLOSE_MS = 2 * HOUR_MS;

function median(values: number[]): number {
  values.sort((a, b) => a - b);
  return values[Math.floor(values.length / 2)] ?? 0;
}

/**
 * A single lasting step in a level: the gauge's zero was moved, not the water. Turbine starts come again and come back,
 * so two or more such steps are left alone, and so is one with less than a day on either side, lest a flood be hidden.
 * What lies before the step is doubted, because it cannot be compared with today.
 */
export const datumJump: Check = (rows) => {
  if (rows[0]?.variable !== 'level') return NO_DOUBTS;
  const steps = rows.slice(1).map((row, i) => Math.abs(row.value - (rows[i]?.value ?? row.value)));
  const limit = Math.max(SMALLEST_M, TIMES_USUAL * median([...steps]));
  const jumps = steps.flatMap((step, i) => (step > limit ? [i + 1] : []));
  const at = jumps[0];
  if (at === undefined || jumps.length > 1) return NO_DOUBTS;
  const [first, before, after, last] = [rows[0], rows[at - 1], rows[at], rows.at(-1)];
  if (first === undefined || before === undefined || after === undefined || last === undefined)
    return NO_DOUBTS;
  const isLasting = before.atMs - first.atMs >= DAY_MS && last.atMs - after.atMs >= DAY_MS;
  if (!isLasting || after.atMs - before.atMs > CLOSE_MS) return NO_DOUBTS;
  const stepM = Math.abs(after.value - before.value);
  return new Map(doubtAll(rows.slice(0, at), { code: 'doubt.datumJump', stepM }));
};
