import type { RuleBook, TackleConfig } from '../../config/index.ts';
import type { Conditions } from '../../signals/index.ts';
import type { SafetyExtras } from '../safety/types.ts';
import type { PhaseAdvice, PositionAdvice, SafetyAdvice } from '../types.ts';
import type { PlanHour } from './hours.ts';
import type { Standing } from './patterns.ts';

/** Ways by water between places that have a name. */
export interface Ways {
  /** m; undefined where one of them lies on no map, or no water joins them. */
  readonly wayM: (from: string, to: string) => number | undefined;
  readonly boatMs: number;
}

/** When people fish. */
export interface Fishing {
  readonly fromMs: number;
  readonly toMs: number;
  /** Their own hours, and not the light of the day. */
  readonly own: boolean;
  /** Civil dusk does not come. */
  readonly lightAllNight?: true;
}

/** What a plan is made from. */
export interface PlanInputs {
  readonly conditions: Conditions;
  readonly rules: RuleBook;
  readonly phase: PhaseAdvice;
  /** Ranked places of this water: no other is planned. */
  readonly positions: readonly PositionAdvice[];
  readonly safety: SafetyAdvice;
  readonly extras: SafetyExtras;
  readonly tackle: TackleConfig;
  /** Hours of the local day, in order; those of which nothing is known may be left out. */
  readonly hours: readonly PlanHour[];
  /** When the reader fishes; null where neither light nor their own hours are known. */
  readonly fishing: Fishing | null;
  /** What lies before it is past. */
  readonly nowMs: number;
  /** Ways by water between the lake's own places, by name, m, and the boat's speed; left out where nobody knows them. */
  readonly ways?: Ways;
  /** No depth of the plan goes below it, m; left out where nothing is known of a limit. */
  readonly limitM?: number;
}

/** Which pattern of the day each kind of place belongs to. */
export function patternsOf({ rules }: PlanInputs): ReadonlyMap<string, Standing['pattern']> {
  return new Map(rules.positions.places.map(({ id, pattern }) => [id, pattern]));
}
