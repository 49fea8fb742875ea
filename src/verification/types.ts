/** What past issues said beside what came. SI throughout. */
import type { ComparableIssue } from '../briefing/index.ts';

/** The parts of an issued document that can be compared with what came. */
export type Issue = Pick<
  ComparableIssue,
  'status' | 'demo' | 'preview' | 'date' | 'issuedMs' | 'conditions' | 'series'
>;

/** Main-lake temperature, the same three days ahead; level over the 24 h after the issue; mean air and wind of the fishing hours. */
export const ITEMS = ['water', 'waterAhead', 'level', 'air', 'wind'] as const;
export type Item = (typeof ITEMS)[number];

/** One issue's word on one item, and what came. */
export interface Outcome {
  readonly date: string;
  readonly said: number;
  readonly came: number;
  /** What somebody would have said who only knew the last value and held it. */
  readonly held: number;
  /** The stated 80 % interval, where there is one. */
  readonly range?: readonly [low: number, high: number];
  /** Change that the noise of the instrument alone explains: within it both sides count as steady. */
  readonly deadBand?: number;
}

export type Outcomes = Readonly<Record<Item, readonly Outcome[]>>;

/** How often of how often, with its 90 % interval as shares. */
export interface Tally {
  readonly hits: number;
  readonly of: number;
  readonly low: number;
  readonly high: number;
}

export interface ItemScore {
  readonly item: Item;
  readonly n: number;
  /** Mean of what was said minus what came; positive: too high. K, m, K, m/s by item. */
  readonly meanError: number;
  readonly meanAbsError: number;
  /** The same of holding the last value. */
  readonly heldMeanAbsError: number;
  /** Outcomes inside the stated 80 % interval. */
  readonly inside?: Tally;
  /** Rise, steady or fall told right. */
  readonly direction?: Tally;
  /** How often "no change" was right. */
  readonly heldDirection?: Tally;
}
