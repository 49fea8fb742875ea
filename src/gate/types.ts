import type { PlanHour } from '../advice/plan/index.ts';
import type { ClosedPlaces, LeeOnly } from '../advice/safety/index.ts';
import type { PositionRules } from '../config/index.ts';
import type { PhaseId, Species, WaterBody, SignalId } from '../vocabulary/index.ts';

/** What a claim is held against: the day's own numbers and hours, not what the plan made of them. SI. */
export interface World {
  readonly waterBody: WaterBody;
  readonly species: Species;
  /** Fresh or ageing numbers of the day. */
  readonly signals: Readonly<Partial<Record<SignalId, number>>>;
  readonly hours: readonly PlanHour[];
  /** The light, or the reader's own hours (`own`): nothing is recommended outside them. */
  readonly fishing: { readonly fromMs: number; readonly toMs: number; readonly own: boolean } | null;
  readonly membership: Readonly<Record<PhaseId, number>>;
  /** Kinds of place this water has. */
  readonly places: ReadonlySet<string>;
  /** Kinds of place that the day's hazards close. */
  readonly closed: readonly ClosedPlaces[];
  /** Hazards that keep boats to sheltered water: the wind speaks for no bank while one stands. */
  readonly lee: readonly LeeOnly[];
  readonly positions: PositionRules;
  /** Which way a kind of place is open here, degrees clockwise from north; those of which it is known. */
  readonly faces?: ReadonlyMap<string, number>;
  /** Depth below which there is too little oxygen, m; left out where nothing is known of it. */
  readonly limitM?: number;
  /** Nothing is said of what comes after it, epoch ms; left out: no end. */
  readonly validUntilMs?: number;
  readonly date: string;
  readonly zone: string;
}

/** The eight kinds of check. */
export const CHECKS = ['bottom', 'clock', 'depth', 'place', 'reason', 'once', 'figures', 'dates'] as const;
export type Check = (typeof CHECKS)[number];

/** A statement that its figures do not bear out. */
export interface Fault {
  readonly check: Check;
  /** Which statement: a block by its number, and what of it. */
  readonly of: string;
  readonly found: string;
}
