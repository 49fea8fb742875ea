/** The day on one clock, as facts: ids and SI numbers, no sentence. `words` says them, `gate` checks them. */
import type { SignalId } from '../../signals/index.ts';
import type { CastCard, HazardLevel, LureFamily } from '../types.ts';
import type { Light } from './light.ts';

/** A stretch of the local day. `from` and `to` are the lake's own clock, `HH:MM`; the hour `to` is not part of it. */
export interface ClockSpan {
  readonly fromMs: number;
  readonly toMs: number;
  readonly from: string;
  readonly to: string;
}

/**
 * Why a place, for the hours of its block. Each holds for these hours with these numbers; the gate works it out anew.
 * A `rule` is one of the rules of places (`config/rules`), said by its own sentence.
 */
export type PlanReason =
  | {
      readonly code: 'rule';
      readonly rule: string;
      readonly signal: SignalId | 'phase' | 'species' | 'waterBody';
      /** SI value of the signal as the rule saw it in the middle of the block; null where it is not about one number. */
      readonly value: number | null;
      /** Points it gives the place, for order only. */
      readonly points: number;
    }
  /** The sun stands low, or it is only civil light: highest altitude within the block, degrees. */
  | { readonly code: 'lowLight'; readonly sunAltitudeDeg: number }
  /**
   * High sun under an open sky puts fish under shade, or deeper where there is none: highest altitude, degrees; mean
   * cloud, percent.
   */
  | {
      readonly code: 'highSun';
      readonly sunAltitudeDeg: number;
      readonly cloudPct: number;
      readonly sends?: 'deeper';
    }
  /** Cloud keeps the light low all through the block. */
  | { readonly code: 'cloudCover'; readonly cloudPct: number }
  /** Wind on it: mean of the block, m/s; direction it blows from, degrees, where known. */
  | { readonly code: 'windOnIt'; readonly windMs: number; readonly fromDeg?: number }
  /** Out of the wind: mean of the block, m/s. */
  | { readonly code: 'sheltered'; readonly windMs: number; readonly fromDeg?: number }
  | { readonly code: 'calm'; readonly windMs: number }
  /** The pocket against the main lake, mean of the block, K; above or below zero. */
  | { readonly code: 'pocketWarmer'; readonly differenceC: number }
  | { readonly code: 'pocketColder'; readonly differenceC: number }
  /** Water is released, or moves: surface current where known, m/s. */
  | { readonly code: 'release'; readonly currentMs: number | null }
  | { readonly code: 'slack' }
  /** After midday the sun has warmed rock and wood: mean air of the block, degC; mean cloud, percent. */
  | { readonly code: 'sunWarms'; readonly airC: number; readonly cloudPct: number }
  /** A front has passed: fall of the air against the day before, or since its warmest hour, K. */
  | { readonly code: 'frontPassed'; readonly fallC: number }
  /** Night: fish come up after dark. */
  | { readonly code: 'dark'; readonly sunAltitudeDeg: number }
  /** Rain falls in the block, mm in all, with the air while it falls, degC. */
  | { readonly code: 'rainFalling'; readonly rainMm: number; readonly airC: number | null }
  /** Heat of the block's air, degC. */
  | { readonly code: 'heat'; readonly airC: number }
  /** All else has been said: among this water's places it ranks at least here in every hour of the block. */
  | {
      readonly code: 'ranks';
      readonly place: string;
      readonly atLeast: number;
      readonly from: string | null;
      readonly to: string | null;
    };

/** What has changed since the block before. The same facts, at the hour of the change, or a hazard's hours. */
export type PlanChange =
  | { readonly code: 'reason'; readonly atMs: number; readonly at: string; readonly reason: PlanReason }
  /** A hazard closed the hours between, or it ended and opened these. */
  | {
      readonly code: 'hazardEnds';
      readonly atMs: number;
      readonly at: string;
      readonly hazard: string;
    }
  /** Nobody moves: the light is another from this hour, and another lure is tied on for it. */
  | { readonly code: 'light'; readonly atMs: number; readonly at: string; readonly light: Light }
  /** The place before has been fished through, for this many hours; the next one is as good. */
  | { readonly code: 'fished'; readonly atMs: number; readonly at: string; readonly hours: number }
  /** What spoke for the block before is over: the same reason, no longer true from this hour. */
  | { readonly code: 'over'; readonly atMs: number; readonly at: string; readonly reason: PlanReason };

/** When to leave a place before its time is up. */
export type GiveUp =
  /** Nothing in this many minutes of fishing: the place's own measure (`search` in the rules). */
  | { readonly code: 'noBite'; readonly minutes: number }
  /** The thermometer finds no difference to the main lake, K at least. */
  | { readonly code: 'noWarmth'; readonly leastDifferenceC: number; readonly minutes: number }
  /** The wind that spoke for it has gone below this, m/s. */
  | { readonly code: 'windGone'; readonly belowMs: number; readonly minutes: number }
  /** The water stands still. */
  | { readonly code: 'currentGone'; readonly minutes: number };

/** What is tied on. Null where the class has none (floating lures have no fall rate) or the book does not say. */
export interface BlockLure {
  readonly lureClass: string;
  readonly family: LureFamily | null;
  readonly weightG: number | null;
  /** Length of a bait that is fished without any weight, m; `weightG` is then its own. */
  readonly baitM?: number;
  /** Trade's own size, `4/0`, `treble 4`. */
  readonly hook: string | null;
  readonly line: {
    readonly material: 'fluorocarbon' | 'nylon' | 'braid';
    readonly kg: number;
    readonly leaderKg?: number;
  } | null;
  /** Colour families of the trade, first choice first. */
  readonly colours: readonly string[];
  /** On a slack line, m/s. */
  readonly fallMs: number | null;
}

/** Pace of the block's water and lure. */
export interface BlockPace {
  readonly retrieveMs: number;
  readonly lowMs: number;
  readonly highMs: number;
  readonly pauseS: number;
  /**
   * Water the pace was chosen for, degC: the lake's, blended with the pocket's where fish may have come in from it; null
   * when no temperature is known.
   */
  readonly waterC: number | null;
}

export interface PlanBlock extends ClockSpan {
  readonly place: string;
  /** The lake's own name of it, where configured. */
  readonly named?: string;
  readonly depthM: readonly [number, number];
  readonly lure: BlockLure;
  readonly pace: BlockPace;
  /** How the cast is laid; the drawing and its steps. */
  readonly cast: CastCard;
  /** Strongest first, at least one. */
  readonly because: readonly PlanReason[];
  readonly giveUp: GiveUp;
  /** It begins in likely fog, which lifts about then, local clock. */
  readonly fogTo?: string;
  /** The day's first block, in cold water: nothing is lost by starting then, local clock. */
  readonly startAt?: string;
  /** Way by water from the block before, m; left out where it is not known. */
  readonly wayM?: number;
  /** Null for the first block. */
  readonly whyChange: PlanChange | null;
  /** Mean score of the place over the block, points: for order only. */
  readonly score: number;
  /** Highest level of danger of its hours. */
  readonly level: HazardLevel;
}

/** A pattern beside the blocks. */
export interface OtherPattern {
  readonly place: string;
  readonly named?: string;
  readonly depthM: readonly [number, number];
  readonly lureClass: string;
  readonly because: readonly PlanReason[];
  /** What decides between it and the plan's own; null where they hold at the same time. */
  readonly decides: PlanReason | null;
}

/** Why there is none. */
export type NoPattern = {
  readonly code:
    /** No second place of another pattern comes near. */
    | 'noneNear'
    /** The season sends big fish and many fish to the same places. */
    | 'samePlace'
    /** No difference is known for this season. */
    | 'noTendency'
    /** Too little is known of the day. */
    | 'unknown'
    /** There is no plan. */
    | 'notPlanned';
};

export interface NotOffered {
  readonly none: NoPattern;
}

/** Hours that a hazard takes out of the fishing day. */
export interface ClosedHours extends ClockSpan {
  readonly hazard: string;
  readonly level: HazardLevel;
}

export type NotPlanned =
  /** Stay ashore: a hazard of level 4 that has no end today. */
  | { readonly code: 'ashore'; readonly hazard: string }
  /** Hazards leave less than an hour and a half in a row. */
  | {
      readonly code: 'closed';
      readonly hazards: readonly string[];
      readonly openHours: number;
      /** They come and go, and nobody told in which hours: with those the open ones could be planned. */
      readonly hoursUnknown?: true;
    }
  /** The fishing hours hold less than an hour and a half, or leave less of it to who asks during the day. */
  | { readonly code: 'tooShort' | 'over'; readonly openHours: number }
  /** No hours of light are known: neither date nor the reader's own hours. */
  | { readonly code: 'noHours' }
  /** Civil light does not come all day. */
  | { readonly code: 'noLight' }
  /** No place of this water is ranked. */
  | { readonly code: 'noPlaces' }
  | { readonly code: 'frozen' | 'nothingHolds' };

/** When to be off the water, and what sets it. */
export interface BeInBy {
  readonly atMs: number;
  readonly at: string;
  readonly because:
    | { readonly code: 'hazard'; readonly hazard: string; readonly startsMs: number; readonly starts: string }
    | { readonly code: 'dusk' }
    | { readonly code: 'fishingHours' };
}

/** Kinds of place that a standing hazard keeps out of the plan. */
export interface LeftOut {
  readonly code: 'leftOut';
  readonly hazard: string;
  /** By their points, best first. */
  readonly places: readonly { readonly place: string; readonly named?: string }[];
}

export interface DayPlan {
  readonly date: string;
  readonly zone: string;
  /** The fishing hours as asked for, before hazards. Null when they are unknown. */
  readonly fishing: ClockSpan | null;
  /** One to four, in order of time; empty when nothing is planned. */
  readonly blocks: readonly PlanBlock[];
  readonly second: OtherPattern | NotOffered;
  readonly manyFish: OtherPattern | NotOffered;
  readonly bigFish: OtherPattern | NotOffered;
  readonly closed: readonly ClosedHours[];
  readonly beInBy: BeInBy | null;
  /** Civil dusk does not come: nothing of the day's end sends anybody in. */
  readonly lightAllNight?: true;
  /** Places that would come first, were they not closed by a hazard; null where none would. */
  readonly leftOut: LeftOut | null;
  /** Null when there are blocks. */
  readonly notPlanned: NotPlanned | null;
}
