/** What the signals say besides numbers: where a figure is from, what is not known, what a pocket does. SI throughout. */
import type { GaugeService } from '../config/index.ts';
import type { Doubt } from '../record/index.ts';
import type { Refusal } from '../water/index.ts';
import type { ClarityClass } from '../science/index.ts';
import type { ClarityReason } from '../water/clarity/index.ts';
import type { SignalId } from '../vocabulary/index.ts';

/** Where a figure is from. */
export type SourceFact =
  | {
      readonly code: 'gauge';
      readonly service: GaugeService;
      readonly station: string;
      readonly where: string;
      /** It stands in for a preferred one that is silent. */
      readonly fallback: boolean;
      /** The figure is the mean of the day that ended at its instant, or the change from another day's. */
      readonly isDayMean?: boolean;
    }
  | { readonly code: 'weather'; readonly service: string }
  | { readonly code: 'rainMeasured'; readonly service: string }
  | { readonly code: 'waterModel'; readonly readingAgeDays: number | null }
  | {
      readonly code: 'pocketModel';
      /** Its name, where the figure does not stand beside it already. */
      readonly pocket: string | null;
      /** Its shape is a guess. */
      readonly coarse: boolean;
      readonly readingAgeDays: number | null;
    }
  | {
      readonly code: 'clarityOfRunoff';
      readonly class: ClarityClass;
      readonly confidence: 'high' | 'medium' | 'low';
    }
  | { readonly code: 'anglerReading' }
  | { readonly code: 'lakeThermometer' }
  | { readonly code: 'stageForecast' }
  | { readonly code: 'sunAndCalendar' }
  | { readonly code: 'configuration' }
  /** Stated in a what-if, in words of a class where `as` is set. */
  | { readonly code: 'given'; readonly as?: string }
  /** Of an hour of the day, in place of the day's. */
  | { readonly code: 'hour' }
  /** Worked out from what was stated. */
  | { readonly code: 'workedOut' };

/** Parts of the weather that a page tells in any case. */
export type WeatherPartName = 'air' | 'wind' | 'rain' | 'cloud' | 'thunder';

/** What is not known, since when, and what is used instead. */
export type GapFact =
  | { readonly code: 'noWeather' }
  /** Some of it reached the record, and these parts did not. */
  | { readonly code: 'weatherLacks'; readonly parts: readonly WeatherPartName[] }
  /** The forecast of these parts ends at a local hour of the day, or none reaches beyond now. */
  | {
      readonly code: 'weatherEnds';
      readonly parts: readonly WeatherPartName[];
      readonly hour: number;
      readonly reachesAhead: boolean;
    }
  /** So many of 24 hours of these parts are missing that no figure of a whole day is made of them. */
  | { readonly code: 'weatherHoles'; readonly parts: readonly WeatherPartName[]; readonly hours: number }
  /** Hours between a rain gauge's own of three days that the weather model stands in for, and what it says of them, mm. */
  | { readonly code: 'rainGaugeHole'; readonly hours: number; readonly modelMm: number }
  | { readonly code: 'weatherTooOld'; readonly ageMs: number }
  | { readonly code: 'weatherAgeing'; readonly ageMs: number }
  | { readonly code: 'noLevelGauge' }
  | { readonly code: 'levelNeverSent' }
  /** Only means of whole days are sent; the last of them ended so long ago. */
  | { readonly code: 'levelDailyOnly'; readonly where: string; readonly ageMs: number }
  | { readonly code: 'levelSilent'; readonly ageMs: number }
  /** What the gauge sends now is not believed, so that nobody knows the level. */
  | { readonly code: 'levelNotBelieved'; readonly where: string; readonly doubt: Doubt }
  /** A change over `hours`, m, that this lake cannot make. */
  | {
      readonly code: 'levelBeyondLake';
      readonly where: string;
      readonly changeM: number;
      readonly hours: number;
    }
  | { readonly code: 'levelJumped'; readonly where: string; readonly jumpM: number }
  | { readonly code: 'poolOnOtherDatum'; readonly levelDatum: string; readonly poolDatum: string }
  | { readonly code: 'levelDatumUnknown'; readonly where: string }
  /** Level minus normal pool, m: more than a lake can. */
  | { readonly code: 'poolTooFar'; readonly offM: number }
  | { readonly code: 'dailyLevelsDiffer'; readonly biasM: number }
  | { readonly code: 'thermometerSilent'; readonly ageMs: number }
  /** What the lake's thermometer sends now is not believed. */
  | { readonly code: 'thermometerNotBelieved'; readonly doubt: Doubt }
  | { readonly code: 'noWaterReading' }
  /** The model has no weather to start from. */
  | { readonly code: 'waterAsMeasured'; readonly ageMs: number }
  | { readonly code: 'readingRefused'; readonly reason: Refusal }
  | { readonly code: 'clarityTooDeep'; readonly clarityM: number }
  | { readonly code: 'thermometerDated'; readonly dating: 'late' | 'early' }
  | { readonly code: 'pocketReadingRefused'; readonly pocket: string; readonly reason: Refusal }
  | {
      readonly code: 'valuesDoubted';
      readonly count: number;
      /** The first of them. */
      readonly variable: string;
      readonly doubt: Doubt;
      /** Of a weather model, not of a gauge. */
      readonly isWeather?: boolean;
    }
  | { readonly code: 'noFlowThroughPool' }
  | { readonly code: 'alertsNotChecked' }
  | { readonly code: 'floodNotChecked' }
  /** A field that a what-if leaves out. */
  | { readonly code: 'notGiven'; readonly signal: AskedSignal; readonly field: string };

/** Signals that a what-if asks for. */
export type AskedSignal = Extract<
  SignalId,
  | 'dayLengthH'
  | 'waterC'
  | 'waterChange7dC'
  | 'airMean24hC'
  | 'airTrend3dCPerDay'
  | 'warmingDays'
  | 'airDrop24hC'
  | 'airMinLastNightC'
  | 'rain72Mm'
  | 'pocketMinusMainC'
  | 'level24hM'
  | 'clarityM'
  | 'windMs'
  | 'cloudPct'
  | 'lowLightShare'
  | 'bankDeg'
  | 'currentMs'
>;

/** What ran into a pocket, and what became of it. */
export interface RanIn {
  /** Share of the pocket that it renewed, 0 to 1. */
  readonly share: number;
  readonly warmth: RunoffWarmth;
  /** Undefined where it divided between the layers or hardly any came. */
  readonly went: 'sank' | 'floated' | undefined;
  /** It still moves a temperature in an hour that is left. */
  readonly lasts: boolean;
  /** It did so at some hour. */
  readonly mattered: boolean;
}

/** Runoff beside the lake; warmer water that sinks must be muddy. */
export type RunoffWarmth = 'warmer' | 'warmerMuddy' | 'colder' | 'alike';

/** What makes a pocket differ from the lake. */
export type PocketCause = 'readings' | 'runoff' | 'rainAhead' | 'stream' | 'air';

export type PocketWhy =
  | { readonly code: 'together'; readonly causes: readonly PocketCause[]; readonly isWarmer: boolean }
  /** `freeK`: what the weather alone would make it, K from the lake; null where that is nothing. */
  | { readonly code: 'readings'; readonly freeK: number | null }
  | ({ readonly code: 'ranIn' } & RanIn)
  | { readonly code: 'runoffMadeIt'; readonly isWarmer: boolean }
  | { readonly code: 'runoffCooledIt'; readonly warmth: RunoffWarmth }
  | { readonly code: 'rainToCome'; readonly isWarmer: boolean }
  | { readonly code: 'stream'; readonly isWarmer: boolean }
  | { readonly code: 'sunAndAir' }
  | { readonly code: 'nightCools' }
  | { readonly code: 'coldAir' };

/** One statement about a pocket; several make its line. */
export type PocketFact =
  /** At its warmest hour, K from the main lake. */
  | { readonly code: 'differs'; readonly differenceK: number; readonly why: PocketWhy }
  /** Like the lake: at its warmest hour only, at the surface only, because of or in spite of what ran in. */
  | {
      readonly code: 'likeTheLake';
      readonly onlyWarmestHour: boolean;
      readonly onlySurface: boolean;
      readonly because: RanIn | 'coldAirOffsets' | 'sunOffsets' | null;
    }
  | ({ readonly code: 'ranIn' } & RanIn)
  | { readonly code: 'effectHalvesIn'; readonly ms: number }
  /** `share` of its water; null of a pocket whose watershed nobody knows. */
  | { readonly code: 'rainRenewed'; readonly rainMm: number; readonly share: number | null }
  | {
      readonly code: 'coldestHour';
      /** Local decimal hour. */
      readonly hour: number;
      readonly differenceK: number;
      /** The lake was not named before. */
      readonly namesLake: boolean;
      /** Null where it was told before. */
      readonly why: PocketWhy | null;
    }
  /** Sun that its surroundings keep from it: hours of direct sun today, and what that makes of its warmest hour, K. */
  | { readonly code: 'shaded'; readonly sunH: number; readonly effectK: number; readonly guessed: boolean }
  | { readonly code: 'coarseClass' };

/** What the wind and the sun do at the lake's own places; sides are eighths of the compass, hours local and decimal. */
export type LakeFact =
  /** Highest waves of the open water and of the places, m, and who lies calm. */
  | {
      readonly code: 'waves';
      readonly openM: number;
      readonly hour: number;
      readonly rough: readonly { readonly name: string; readonly waveM: number }[];
      readonly calm: readonly string[];
    }
  /** The wind stands on these places, and others lie out of it. */
  | {
      readonly code: 'windOn';
      readonly on: readonly string[];
      readonly fromHour: number;
      readonly toHour: number;
      readonly side: number;
      readonly out: readonly { readonly name: string; readonly faces: number }[];
    }
  | {
      readonly code: 'ramp';
      readonly name: string;
      readonly faces: number;
      /** Highest there; null without an outline. */
      readonly waveM: number | null;
      /** There is another to choose from. */
      readonly ofSeveral: boolean;
      /** Wind stands on it for some of the day. */
      readonly reached: boolean;
    }
  /** The water stands higher at the end that the wind blows towards, m. */
  | { readonly code: 'setUp'; readonly bank: number; readonly riseM: number; readonly hour: number }
  /** Hours of release as the operator told them on a day; local decimal hours, m3/s, turbines. */
  | {
      readonly code: 'releaseTold';
      readonly toldOn: string;
      readonly spans: readonly {
        readonly fromHour: number;
        readonly toHour: number;
        readonly flowM3s: number | null;
        readonly units: number | null;
      }[];
    }
  /** Hours in which water ran on such weekdays before; ISO weekday, days on which it did of those that are known. */
  | {
      readonly code: 'releaseUsual';
      readonly by: 'release' | 'discharge' | 'level';
      readonly weekday: number;
      readonly spans: readonly {
        readonly fromHour: number;
        readonly toHour: number;
        readonly held: number;
        readonly of: number;
      }[];
    }
  /** Where warm and cold water meet, m, by the size of the lake and the season. */
  | {
      readonly code: 'layerEstimate';
      readonly depthM: number;
      readonly lowM: number;
      readonly highM: number;
    }
  /** Direct sun on a place, from its first hour. */
  | {
      readonly code: 'sun';
      readonly name: string;
      readonly faces: number;
      readonly sunH: number;
      readonly fromHour: number;
      readonly toHour: number;
    };

/** What of the signals is carried further, each with a code of its own among the facts of all rooms. */
export type SignalStatement =
  | { readonly code: 'signals.source'; readonly source: SourceFact }
  | { readonly code: 'signals.gap'; readonly gap: GapFact }
  | { readonly code: 'clarity.reason'; readonly reason: ClarityReason }
  | { readonly code: 'lake.today'; readonly told: LakeFact }
  | { readonly code: 'pocket.story'; readonly told: readonly PocketFact[] };
