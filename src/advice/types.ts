import type { DayPlan } from './plan/types.ts';
import type { Gap, SignalId } from '../signals/types.ts';
import type { Grade, LureFamily, PhaseId } from '../vocabulary/index.ts';

export { PHASES, type LureFamily, type PhaseId } from '../vocabulary/index.ts';

export interface PhaseAdvice {
  /** Membership 0..1 over the nine phases, sum 1. */
  readonly membership: Readonly<Record<PhaseId, number>>;
  readonly leading: PhaseId;
  readonly because: string;
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
  readonly sentence: string;
  readonly grade: Grade;
  readonly source: string;
}

export interface PositionAdvice {
  readonly place: string; // one of the 17 ids
  readonly name: string; // words for people
  /** Name of a configured pocket or point of this kind, when there is one. */
  readonly named?: string;
  readonly rank: number; // 1..17
  readonly total: number;
  readonly depthM: readonly [number, number];
  readonly period: 'earlier' | 'later' | 'all_day';
  readonly periodBecause: string;
  /** Hour range of the period in local hours, when the day's hours decide it. */
  readonly hours?: readonly [number, number];
  /**
   * What else bounds the period: only the rest of the day is left, only hours outside dangerous heat, no daylight any
   * more, or none but hot hours.
   */
  readonly bound?: 'rest' | 'cool' | 'dark' | 'hot';
  readonly because: readonly string[]; // strongest two
  readonly limitedBy: string;
  readonly evidence: readonly Evidence[];
  /** Steepness of the named pocket or point, where the configuration gives it. */
  readonly bankDeg?: number;
}

export interface PresentationCard {
  readonly family?: LureFamily;
  /** False where bottom contact is not the aim or cannot be computed: `contactShare` is then 0 and means nothing. */
  readonly contactApplies?: boolean;
  /** Depth printed for a lure at a long cast on thin line; what to look for in the box. Diving and suspending only. */
  readonly ratedDepthM?: number;
  /** Fall rate of a sinking lure, m/s, and the count that brings it to its depth, s. */
  readonly fallMs?: number;
  readonly countS?: number;
  /** Set when no water temperature is known: how the pace was chosen. */
  readonly temperatureWords?: string;
  /** 0..1, and each cue's signed share of it. */
  readonly score?: number;
  readonly cues?: readonly { readonly cue: string; readonly points: number; readonly words: string }[];
  readonly place: string;
  readonly lureClass: string;
  readonly because: string;
  readonly runningDepthM: number;
  readonly retrieveMs: number;
  readonly retrieveLowMs: number;
  readonly retrieveHighMs: number;
  readonly turnsPerS: number;
  readonly reel: string; // e.g. `6.4:1 reel, 0.66 m per turn`
  readonly pauseS: number;
  readonly pauseWords: string;
  readonly lineKg: number;
  readonly lineWords: string;
  readonly boatDepthM: number;
  readonly castDepthM: number;
  readonly castLengthM: number;
  readonly castAngleDeg: number;
  readonly bankDeg: number;
  readonly contactShare: number;
  /** Metres along the retrieve from the landing point where the lure touches and leaves bottom; null when never. */
  readonly contactFromM: number | null;
  readonly contactToM: number | null;
  readonly steps: readonly string[]; // verbs first, one line each
  /** Set when lure and bank cannot work together: what is wrong and what would. */
  readonly misfit?: string;
}

export type HazardLevel = 1 | 2 | 3 | 4;

/** A stretch of time, epoch ms; the end is not part of it. */
export interface HazardHours {
  readonly fromMs: number;
  readonly toMs: number;
}

export interface Hazard {
  readonly id: string;
  readonly level: HazardLevel;
  readonly headline: string; // `COLD WATER: ...`
  readonly what: string;
  readonly where: string;
  readonly when: string;
  readonly doThis: string;
  readonly source: string;
  /** Whether its hours are closed to fishing at its level; cold water and ice raise the level and close none. */
  readonly closes?: boolean;
  /**
   * When it stands today, in order and apart; left out where it stands all day or its hours are not known, which for a
   * hazard that closes is the whole day.
   */
  readonly hours?: readonly HazardHours[];
  /** Official statements only: verbatim text, issuer, end; where more was written than a page can hold, where all of it is. */
  readonly official?: {
    readonly issuer: string;
    readonly text: string;
    readonly endsMs: number | null;
    readonly cut?: boolean;
    readonly url?: string;
  };
}

export interface SafetyAdvice {
  readonly level: HazardLevel;
  readonly levelWords: string;
  readonly hazards: readonly Hazard[]; // highest first
  /** What was not looked at, in words: unknown is never safe. */
  readonly notChecked: readonly string[];
  readonly deferTo: string;
}

export interface Tendency {
  readonly word: 'improving' | 'steady' | 'declining';
  readonly because: string;
  /** What would change it. */
  readonly trigger: string;
  readonly days: readonly {
    readonly date: string;
    readonly word: 'improving' | 'steady' | 'declining';
    readonly firstPlace: string;
    readonly because: string;
  }[];
  readonly bestDay?: { readonly date: string; readonly because: string };
}

export interface Confidence {
  readonly word: 'high' | 'medium' | 'low';
  readonly because: string;
}

export interface Advice {
  readonly schema: 'thawline-advice/1';
  readonly phase: PhaseAdvice;
  readonly positions: readonly PositionAdvice[]; // all 17, ranked
  readonly close: boolean;
  readonly closeWords: string;
  /** Smallest change of one signal that would swap first and second; null when none within its plausible range does. */
  readonly swap: {
    readonly signal: SignalId;
    readonly from: number;
    readonly to: number;
    readonly sentence: string;
  } | null;
  readonly searchPlan: readonly {
    readonly place: string;
    readonly step: string;
    readonly minutes: number;
    readonly moveOn: string;
  }[];
  /** The day on one clock; null where nobody asked for it. */
  readonly plan: DayPlan | null;
  readonly presentations: readonly PresentationCard[]; // first class, second class
  readonly safety: SafetyAdvice;
  readonly tendency: Tendency | null;
  readonly confidence: Confidence;
  readonly gaps: readonly Gap[];
}
