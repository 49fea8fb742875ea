import type { Observation } from '../types.ts';
import type { Doubt } from './doubt.ts';

/** What a check may look at beside the series itself. */
export interface Surroundings {
  /** Air temperature at the lake around an instant, degC; undefined where unknown. */
  readonly airC: (atMs: number) => number | undefined;
}

/** Rows that are not believed, each with the reason. */
export type Doubts = ReadonlyMap<Observation, Doubt>;

/**
 * One quality check. It sees one series in time order without the rows that an earlier check doubted, and adds its
 * own doubts. Pure; it never changes a value.
 */
export type Check = (rows: readonly Observation[], around: Surroundings) => Doubts;

export const NO_DOUBTS: Doubts = new Map();

export function doubtAll(rows: readonly Observation[], reason: Doubt): [Observation, Doubt][] {
  return rows.map((row) => [row, reason]);
}
