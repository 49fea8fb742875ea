import type { SafetyQuantity } from '../config/index.ts';
import type { Gap, SignalId } from '../signals/index.ts';
import type { DayPlan } from './plan/types.ts';
import type { Grade, LureFamily, PhaseId, WaterBody } from '../vocabulary/index.ts';
import type { PathPoint, Presentation, Presented } from './presentation/types.ts';

export { PHASES, type LureFamily, type PhaseId } from '../vocabulary/index.ts';

export interface PhaseAdvice {
  /** Membership 0..1 over the nine phases, sum 1. */
  readonly membership: Readonly<Record<PhaseId, number>>;
  readonly leading: PhaseId;
  readonly because: SeasonFact;
}

/** What the season rests on; `partly` is a second phase that the day may also belong to. */
export type SeasonFact =
  | {
      readonly code: 'byWater';
      readonly leading: PhaseId;
      readonly waterC: number;
      readonly waterChange7dC: number | null;
      readonly dayLengthH: number | null;
      readonly partly: PhaseId | null;
      /** Documents of before do not tell it. */
      readonly waterBody?: WaterBody;
      /** The light of the year tells the season: a release keeps the water colder than that. */
      readonly byDate?: true;
    }
  /** Warm or cold, warming or cooling: nothing of that can be said without the water. */
  | { readonly code: 'waterUnknown'; readonly dayLengthH: number | null; readonly partly: PhaseId | null };

/** A rule of `config/rules`, said by its own sentence. */
export interface RuleFact {
  readonly code: 'rule';
  readonly rule: string;
}

/** One rule's contribution to a position. */
export interface Evidence {
  readonly rule: string;
  readonly signal: SignalId | 'phase' | 'species' | 'waterBody';
  /** SI value of the signal as the rule saw it; null when the rule is not about one number. */
  readonly value: number | null;
  /** 0..1, how fully the rule applies. */
  readonly curve: number;
  /** Signed points added to the total. */
  readonly contribution: number;
  readonly grade: Grade;
  readonly source: string;
}

/** A reason that is true of the day; where rules speak for a place and none of their sentences is true, what always is. */
export type ReasonFact = RuleFact | { readonly code: 'timeless'; readonly place: string };

/** What limits a place today: the rule that speaks most against it, else what always does. */
export type LimitFact = RuleFact | { readonly code: 'ownLimit'; readonly place: string };

/** Why a part of the day suits a place. */
export type PeriodFact =
  | RuleFact
  | { readonly code: 'wholeDay' }
  /** A hazard takes the middle of the day out. */
  | { readonly code: 'onlyCool' }
  | { readonly code: 'noDaylight' }
  | { readonly code: 'onlyHot' }
  /** Hazards close the other hours, or all of those that would suit it. */
  | { readonly code: 'onlyOpen' }
  | { readonly code: 'onlyClosed' }
  | { readonly code: 'bestIsPast' };

export interface PositionAdvice {
  readonly place: string; // id of a kind of place
  /** Name of a configured pocket or point of this kind, when there is one. */
  readonly named?: string;
  readonly rank: number; // 1..17
  /** Hazard that closes this kind of place today: whatever its points, nobody is sent there. */
  readonly closedBy?: string;
  readonly total: number;
  readonly depthM: readonly [number, number];
  readonly period: 'earlier' | 'later' | 'all_day';
  readonly periodBecause: PeriodFact;
  /** Hour range of the period in local hours, when the day's hours decide it. */
  readonly hours?: readonly [number, number];
  /**
   * What else bounds the period: only the rest of the day is left, only hours outside dangerous heat, no daylight any
   * more, or none but hot hours; only hours that no hazard closes, or none of those.
   */
  readonly bound?: 'rest' | 'cool' | 'dark' | 'hot' | 'open' | 'closed';
  /** Strongest first; none where nothing known today speaks for it. Several rules may say one sentence. */
  readonly because: readonly ReasonFact[];
  readonly limitedBy: LimitFact;
  readonly evidence: readonly Evidence[];
  /** Steepness of the named pocket or point, where the configuration gives it. */
  readonly bankDeg?: number;
}

/** How one class is worked at one place, in numbers: each field for every family. */
export interface CastCard {
  /** What the numbers are of, with all that its sentences need. */
  readonly told: Presentation;
  readonly family: LureFamily;
  /** False where bottom contact is not the aim or cannot be computed: `contactShare` is then 0 and means nothing. */
  readonly contactApplies: boolean;
  /** Depth printed for a lure at a long cast on thin line; what to look for in the box. Diving and suspending only. */
  readonly ratedDepthM?: number;
  /** Fall rate of a sinking lure, m/s, and the count that brings it to its depth, s. */
  readonly fallMs?: number;
  readonly countS?: number;
  /** 0..1: how well the class suits the day and the place. */
  readonly score: number;
  readonly place: string;
  readonly runningDepthM: number;
  readonly retrieveMs: number;
  readonly retrieveLowMs: number;
  readonly retrieveHighMs: number;
  readonly turnsPerS: number;
  readonly pauseS: number;
  readonly lineKg: number;
  readonly boatDepthM: number;
  readonly castDepthM: number;
  readonly castLengthM: number;
  readonly castAngleDeg: number;
  readonly bankDeg: number;
  readonly contactShare: number;
  /** Metres along the retrieve from the landing point where the lure touches and leaves bottom; null when never. */
  readonly contactFromM: number | null;
  readonly contactToM: number | null;
  /** The way of the lure, corner by corner, from where it lands to the boat. */
  readonly path: readonly PathPoint[];
}

export type HazardLevel = 1 | 2 | 3 | 4;

/** A stretch of time, epoch ms; the end is not part of it. */
export interface HazardHours {
  readonly fromMs: number;
  readonly toMs: number;
}

interface HazardBase {
  /** What it is told apart by: the row of the rules, `flood`, or one an official statement. */
  readonly id: string;
  readonly level: HazardLevel;
  /** Who says so: a published source, ours, or the issuer. */
  readonly source: string;
  /** Whether its hours are closed to fishing at its level; cold water and ice raise the level and close none. */
  readonly closes?: boolean;
  /**
   * When it stands today, in order and apart; left out where it stands all day or its hours are not known, which for a
   * hazard that closes is the whole day.
   */
  readonly hours?: readonly HazardHours[];
  /**
   * Of a hazard of wind or waves: where the wind blows from in its hours, degrees clockwise from north; left out where
   * that is not known, or the wind turns.
   */
  readonly windFromDeg?: number;
  /** Milder hazards of the same thing, told in its block by their numbers. */
  readonly also?: readonly Hazard[];
}

/** A number among several that are dangerous together, SI; `to` where only the worse end of its interval is. */
export interface HazardNumber {
  readonly quantity: SafetyQuantity;
  readonly value: number;
  readonly to?: number;
}

/** Something that can hurt. */
export type Hazard = HazardBase &
  (
    | {
        /** One number in one class of its row; `to` where only the worse end of its interval reaches the class, SI. */
        readonly code: 'class';
        readonly className: string;
        readonly quantity: SafetyQuantity;
        readonly value: number;
        readonly to?: number;
      }
    /** The number is not known, which is never safe; `row` is the hazard that was not judged. */
    | { readonly code: 'unknown'; readonly row: string }
    /** Several things at once. */
    | { readonly code: 'together'; readonly numbers?: readonly HazardNumber[] }
    | { readonly code: 'flood'; readonly category: FloodCategory }
    /** An official statement, verbatim. */
    | {
        readonly code: 'official';
        readonly event: string;
        readonly headline: string;
        readonly instruction: string;
        readonly text: string;
        readonly endsMs: number | null;
        readonly zone: string;
        /** Set where more was written than a page can hold, with where all of it is. */
        readonly cut?: boolean;
        readonly url?: string;
      }
  );

export type FloodCategory = 'action' | 'minor' | 'moderate' | 'major';

/** Something that safety depends on and that was not looked at: unknown is never safe. */
export type NotChecked =
  | { readonly code: 'hazard'; readonly row: string }
  /** No service gives a chance of thunder: the weather model's own weather and its energy stood in. */
  | { readonly code: 'thunderBySigns' }
  | { readonly code: 'air' }
  | { readonly code: 'humidity' }
  | { readonly code: 'flood' }
  | { readonly code: 'alerts' };

export interface SafetyAdvice {
  readonly level: HazardLevel;
  readonly hazards: readonly Hazard[]; // highest first
  readonly notChecked: readonly NotChecked[];
}

export type TendencyWord = 'improving' | 'steady' | 'declining';

/** The change that speaks most for the word: a rule that sets in, eases or ends. */
export type TendencyFact =
  | { readonly code: 'noChange' }
  | { readonly code: 'setsIn'; readonly rule: string }
  | { readonly code: 'eases'; readonly rule: string }
  | { readonly code: 'ends'; readonly rule: string };

/** What would change the tendency; in heat other things do. */
export type TriggerFact = Coded<TendencyWord, { readonly heat: boolean }>;

/** A rise or fall of the mean air, between the day before and the day after it, of a size that may not pass unnamed. */
export type AirTurn = Coded<'airFalls' | 'airRises', Turn>;

interface Turn {
  /** Hour in which it comes, its start; null where only the days are known. */
  readonly atMs: number | null;
  readonly zone: string;
  /** Size, K, above zero. */
  readonly changeC: number;
  /** Local date by which it is complete. */
  readonly byDate: string;
}

export interface TendencyDay {
  readonly date: string;
  readonly word: TendencyWord;
  readonly firstPlace: string;
  readonly because: TendencyFact;
  /** Level of danger by the forecast, with the hazard that sets it where it is above usual care. */
  readonly level: HazardLevel;
  readonly hazard: Hazard | null;
  /** Turns of the air that come on this day. */
  readonly turns: readonly AirTurn[];
}

export interface Tendency {
  readonly word: TendencyWord;
  readonly because: TendencyFact;
  readonly trigger: TriggerFact;
  readonly days: readonly TendencyDay[];
  /** Turns of the air that come today. */
  readonly turnsToday: readonly AirTurn[];
  /** The day to choose, where one stands out and is not dangerous. */
  readonly bestDay?: { readonly date: string; readonly because: TendencyFact };
}

/** Why the ranking is sure or not, what is clear first. */
export type ConfidenceFact =
  | { readonly code: 'seasonClear' }
  | { readonly code: 'placeClear' }
  | { readonly code: 'seasonBetween' }
  | { readonly code: 'placesClose' }
  | { readonly code: 'timeOfYearUnknown' }
  /** The forecast does not reach through the day. */
  | { readonly code: 'forecastEnds' }
  /** The weightiest signals that are not known. */
  | { readonly code: 'unknown'; readonly signals: readonly SignalId[] }
  | { readonly code: 'allKnown' }
  /** Measured, and some hours old. Documents of before name only how many. */
  | { readonly code: 'ageing'; readonly count: number; readonly signals?: readonly SignalId[] };

export interface Confidence {
  readonly word: 'high' | 'medium' | 'low';
  readonly because: readonly ConfidenceFact[];
}

type Coded<C extends string, T> = C extends string ? T & { readonly code: C } : never;

/** Whether first and second lie close, or the first is ahead, and by how many points. */
export type LeadFact = Coded<'close' | 'ahead', Lead>;

interface Lead {
  readonly first: string;
  readonly second: string;
  readonly points: number;
}

/** A change of one signal, SI, that would put the second place first. */
export type SwapFact =
  /** `measured`: the day's own number is a guess for the rules alone, so only the one to find is told. */
  Coded<'changed' | 'measured', Swap>;

interface Swap {
  readonly signal: SignalId;
  readonly from: number;
  readonly to: number;
  readonly first: string;
  readonly second: string;
}

/** What to look at, for how long; the place's own words say how and when to leave. */
export interface SearchStep {
  readonly place: string;
  /** The lake's own place that it stands for. */
  readonly named?: string;
  readonly minutes: number;
}

export interface Advice {
  readonly schema: 'thawline-advice/1';
  readonly phase: PhaseAdvice;
  readonly positions: readonly PositionAdvice[]; // all of the water's kinds of place, ranked
  readonly close: boolean;
  /** First and second and the points between them; null where there is only one place. */
  readonly lead: LeadFact | null;
  /** Smallest change of one signal that would swap first and second; null when none within its plausible range does. */
  readonly swap: SwapFact | null;
  readonly searchPlan: readonly SearchStep[];
  /** The day on one clock; null where nobody asked for it. */
  readonly plan: DayPlan | null;
  /** How to fish the first place with a first and a second class, and the second place with its first. */
  readonly casts: readonly Presented[];
  readonly safety: SafetyAdvice;
  readonly tendency: Tendency | null;
  readonly confidence: Confidence;
  readonly gaps: readonly Gap[];
}
