/** Two values for one instant of one series: which of them is the lake's, nobody can tell. */
import type { Observation, Variable } from '../record/index.ts';
import { groupRuns } from '../record/observations/index.ts';

/**
 * How far two values for one instant may lie apart and still say the same, SI; share of the larger one for all other
 * variables. Common practice, no source.
 */
const ALIKE: Partial<Record<Variable, number>> = { level: 0.03, water_temp: 0.5, air_temp: 0.5, rain: 0.3 };
const ALIKE_SHARE = 0.05;

/** Whether two values say the same of an instant. */
export function areAlike(variable: Variable, one: number, other: number): boolean {
  const most = ALIKE[variable] ?? ALIKE_SHARE * Math.max(Math.abs(one), Math.abs(other));
  return Math.abs(one - other) <= most;
}

/** Observations, each instant of a measured series once: where its values differ, the last of them is doubted. */
export function onePerInstant(observations: readonly Observation[]): Observation[] {
  return [...groupRuns(observations, seriesOf, isOfSeries).values()].flatMap((rows) => {
    const last = new Map<number, Observation>();
    for (const row of rows) {
      const before = last.get(row.atMs);
      last.set(row.atMs, before === undefined ? row : doubted(before, row));
    }
    return last.size === rows.length ? rows : [...last.values()];
  });
}

const seriesOf = ({ variable, source, station, kind, periodS, datum, issuedMs }: Observation): string =>
  JSON.stringify([variable, source, station, kind, periodS, datum, issuedMs]);

const isOfSeries = (a: Observation, b: Observation): boolean =>
  a.variable === b.variable &&
  a.source === b.source &&
  a.station === b.station &&
  a.kind === b.kind &&
  a.periodS === b.periodS &&
  a.datum === b.datum &&
  a.issuedMs === b.issuedMs;

function doubted(before: Observation, row: Observation): Observation {
  if (before.doubt?.code === 'doubt.twoValues') return { ...row, doubt: before.doubt };
  if (row.doubt !== undefined || areAlike(row.variable, before.value, row.value)) return row;
  return { ...row, doubt: { code: 'doubt.twoValues', apart: Math.abs(before.value - row.value) } };
}
