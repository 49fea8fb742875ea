import type { ClarityClass, Thermocline } from '../science/index.ts';
import type { SignalId, Species, WaterBody } from '../vocabulary/index.ts';
import type { LeadLesson } from '../water/index.ts';
import type { ClarityReason } from '../water/clarity/index.ts';
import type { GapFact, LakeFact, PocketFact, SourceFact } from './facts.ts';

export { SPECIES, WATER_BODIES } from '../vocabulary/index.ts';
export type { SignalId, Species, WaterBody } from '../vocabulary/index.ts';

export type FigureKind = 'observed' | 'forecast' | 'estimated';
export type Freshness = 'fresh' | 'ageing' | 'stale';

/** A number that may be printed: value, interval (80 %), how it is known, as of when, how fresh, from where. SI. */
export interface Figure {
  readonly value: number;
  readonly low?: number;
  readonly high?: number;
  readonly kind: FigureKind;
  readonly asOfMs: number;
  readonly freshness: Freshness;
  readonly source: SourceFact;
}

/** Signals of one instant: what is absent is unknown, never zero, never ideal. */
export type Signals = Readonly<Partial<Record<SignalId, Figure>>>;

/** A number that has no fresh source: it feeds no rule and is named in the briefing. */
export interface Gap {
  readonly id: SignalId | 'alerts' | 'flood' | 'weather' | 'gauge';
  readonly fact: GapFact;
  /** The stale figure, when there is one to show as "last ...". */
  readonly last?: Figure;
}

/**
 * What advice is a function of. A signal that is absent is unknown: never zero, never ideal.
 */
export interface Conditions {
  readonly asOfMs: number;
  /** Local calendar date of the lake, ISO. */
  readonly date: string;
  readonly zone: string;
  readonly latDeg?: number;
  readonly species: Species;
  readonly waterBody: WaterBody;
  readonly signals: Signals;
  readonly gaps: readonly Gap[];
}

/**
 * One local hour of the day ahead or behind, for the hourly chart and what is planned by hours. Rain, sunshine, gusts and
 * the chance of thunder are those of the hour; air, humidity, cloud and wind what is given for its beginning.
 */
export interface HourPoint {
  /** Start of the hour, epoch ms. */
  readonly atMs: number;
  readonly airC?: number;
  readonly humidityPct?: number;
  readonly windMs?: number;
  readonly gustMs?: number;
  readonly windDirDeg?: number;
  readonly cloudPct?: number;
  readonly rainMm?: number;
  readonly shortwaveWm2?: number;
  readonly thunderPct?: number;
  /** Where no chance of thunder is known: 1 the weather model has a storm, 0.5 near one, 0.25 the air is ready, 0 no sign. */
  readonly stormSign?: number;
  /** 1 where the weather model has fog. */
  readonly fogCode?: number;
  /** In the middle of the hour. */
  readonly sunAltitudeDeg: number;
  readonly pocketMinusMainC?: number;
  /** Whether water runs through the dam in it, 0 or 1, graded: measured, told, or how often it did on such weekdays. */
  readonly generationOn?: number;
  readonly generationBy?: 'gauge' | 'operator' | 'weekday';
  /** A release begins in it: 1 as the operator told, below 1 how often it did on such weekdays. */
  readonly releaseStart?: number;
  readonly forecast: boolean;
}

/** One local calendar day of the ten-day strip. */
export interface DayPoint {
  readonly date: string;
  readonly airMeanC?: number;
  readonly airMinC?: number;
  readonly airMaxC?: number;
  readonly rainMm?: number;
  readonly waterC?: number;
  readonly waterLowC?: number;
  readonly waterHighC?: number;
  /** The model's own figure and the half-width of its interval, before what past outlooks taught; only where they did. */
  readonly waterRawC?: number;
  readonly waterRawHalfC?: number;
  readonly levelM?: number;
  readonly windMs?: number;
  readonly cloudPct?: number;
  readonly forecast: boolean;
}

export interface PocketReport {
  readonly id: string;
  readonly name: string;
  /** `configured`: own watershed and depth; `class`: coarse class with a wide interval, named as such. */
  readonly basis: 'configured' | 'class';
  readonly surfaceC: Figure;
  readonly minusMainC: Figure;
  readonly renewedShare: number;
  readonly buoyant: boolean | null;
  readonly halfLifeH: number | null;
  readonly warmestHourMs: number | null;
  /** Its coldest hour of the same span; `surfaceC` and `minusMainC` are those of the warmest. */
  readonly coldest?: { readonly atMs: number; readonly surfaceC: number; readonly minusMainC: number };
  /**
   * The last reading taken in the pocket, and `surfaceC` as it would be without it, degC; absent when none of the last
   * week counts.
   */
  readonly lastReading?: { readonly atMs: number; readonly beforeC: number };
  /** What the pocket is doing and why, in the order in which it is told. */
  readonly story: readonly PocketFact[];
}

/** A place of the lake in the wind and sun of the day. */
export interface PlaceReport {
  readonly name: string;
  readonly kind: 'pocket' | 'point' | 'ramp';
  /** Bearing to which it is open, degrees. */
  readonly facesDeg: number;
  /** Hours of light in which the wind is known. */
  readonly hours: readonly {
    readonly atMs: number;
    /** Wind blows onto it, along it, or from its back. */
    readonly wind: 'onto' | 'along' | 'off';
    /** Significant wave height, m; null without an outline. */
    readonly waveM: number | null;
  }[];
  /** Direct sun of the day; null while the sun stays down. */
  readonly sun: SunOnPlace | null;
}

export interface SunOnPlace {
  readonly sunH: number;
  readonly fromMs: number;
  readonly toMs: number;
}

export interface LakeReport {
  readonly places: readonly PlaceReport[];
  readonly told: readonly LakeFact[];
}

/** Range of the daily levels of the past year, m above the gauge's datum. */
export interface LevelBand {
  readonly lowM: number;
  readonly highM: number;
  /** Days of the 365 that it rests on. */
  readonly days: number;
}

/** What may be said of the clarity of the main arm. */
export interface ClarityReport {
  readonly class: ClarityClass;
  readonly confidence: 'high' | 'medium' | 'low';
  /** False where it is worked out from runoff: then `clarityM` is a number for the rules alone, never for a reader. */
  readonly measured: boolean;
  readonly because: ClarityReason;
}

/** Rain of the last 72 h as a gauge and as the weather model have it, mm. */
export interface RainCheck {
  readonly measuredMm: number;
  readonly modelMm: number;
}

/** The signals room's whole result: the conditions that advice reads, and the series that the page draws. */
export interface SignalReport {
  readonly conditions: Conditions;
  readonly days: readonly DayPoint[]; // nine past days, today, and the days ahead that the forecast covers
  readonly hours: readonly HourPoint[]; // today's local hours
  readonly pockets: readonly PocketReport[];
  /** The lake's own places in the wind and sun of the day; left out where none says where it is or which way it faces. */
  readonly lake?: LakeReport;
  /** Where warm and cold water meet, m, estimated; left out where the configuration says it or the lake is not layered. */
  readonly layer?: Thermocline;
  /** When water is let through the dam that day, as far as anybody told or the gauge's weekdays say. */
  readonly release?: readonly LakeFact[];
  /** Temperatures taken in the main lake that count; refused ones are named in the gaps. */
  readonly readingsUsed: readonly {
    readonly atMs: number;
    readonly waterC: number;
    readonly where: string;
  }[];
  /** Today's estimate without the last of them, degC; null where that one is more than a week old. */
  readonly estimateBeforeReadingC: number | null;
  /** Left out while less than half a year of levels is known. */
  readonly levelBand?: LevelBand;
  /** Left out where nothing is known of it. */
  readonly clarity?: ClarityReport;
  /** Only where gauge and model disagree grossly. */
  readonly rainCheck?: RainCheck;
  readonly sun: {
    readonly dawnMs: number | null;
    readonly riseMs: number | null;
    readonly setMs: number | null;
    readonly duskMs: number | null;
  };
  /** Conditions of each coming day as the forecast gives them, for the tendency. Day 1 is tomorrow. */
  readonly ahead: readonly {
    readonly date: string;
    readonly lead: number;
    readonly conditions: Conditions;
    /** Its local hours; left out where the forecast has none. */
    readonly hours?: readonly HourPoint[];
  }[];
  /** What past outlooks of the water taught, a group of days ahead each; left out where none was compared yet. */
  readonly outlook?: readonly LeadLesson[];
  readonly sources: readonly {
    readonly id: string;
    readonly name: string;
    readonly attribution: string;
    readonly url: string;
    readonly licence: string;
    readonly lastMs: number | null;
  }[];
}
