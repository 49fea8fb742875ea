import type { Gap, Signals } from './types.ts';

/** One part of what the day is judged on: its signals at an instant, what it does not know, and what is drawn of it. */
export interface Part<Series> {
  /** At the as-of instant itself, or at the same hour of a coming day, seen through the forecast; epoch ms. */
  readonly signals: (nowMs: number) => Signals;
  readonly gaps: readonly Gap[];
  readonly series: Series;
}
