/** What the record holds. Values are SI; instants are epoch milliseconds UTC. */
import type { Doubt } from './quality/doubt.ts';
import type { LURES, PlaceId, Variable } from '../vocabulary/index.ts';

export { VARIABLES, type Variable } from '../vocabulary/index.ts';

/** observed: an instrument; analysis: radar or gauge analysis; model: a model's past hours; forecast: its future. */
export type ObservationKind = 'observed' | 'analysis' | 'model' | 'forecast';

export interface Observation {
  readonly lake: string;
  readonly variable: Variable;
  /** Service id: `usgs`, `open-meteo`, `nws`, `nwps`, `cwms`, `ea`, `eccc`, `csv`. */
  readonly source: string;
  /** Station and series within the service, e.g. `USGS-01234567/00065/<time series>`; '' for a grid point. */
  readonly station: string;
  readonly kind: ObservationKind;
  /** End of the period (rain), or the instant. */
  readonly atMs: number;
  /** Length of the period that ends at `atMs`; 0 for an instant. */
  readonly periodS: number;
  readonly value: number;
  /** When a forecast was issued; null for anything measured. */
  readonly issuedMs: number | null;
  readonly provisional?: boolean;
  readonly qualifiers?: readonly string[];
  readonly datum?: string;
  /** Set by quality control: why the value is not believed. The raw value stays. */
  readonly doubt?: Doubt;
}

/** A water temperature or clarity that an angler measured and gave us. */
export interface Reading {
  readonly id: string;
  readonly lake: string;
  readonly atMs: number;
  readonly waterC?: number;
  readonly clarityM?: number;
  readonly depthM: number;
  /** Stated standard error of the thermometer, K. */
  readonly sdC: number;
  readonly where: string;
  /** Pocket id when the reading was taken in a configured pocket; otherwise the main lake. */
  readonly pocket?: string;
}

/** A stretch of time in which the operator of a dam said what runs through it. */
export interface Release {
  readonly id: string;
  readonly lake: string;
  readonly fromMs: number;
  readonly toMs: number;
  /** m3/s; 0: it was told that no water runs. */
  readonly flowM3s?: number;
  /** Turbines that run, 0 or more. */
  readonly units?: number;
}

/** With when it was told, epoch ms. */
export interface ToldRelease extends Release {
  readonly toldMs: number;
}

/** A kind of place, and the name that the lake's configuration gives the one that was meant; nothing finer is kept. */
export interface OutingPlace {
  readonly kind: PlaceId;
  readonly name?: string;
}

export type LureClass = (typeof LURES)[number];

/** What a reader says of a day, or of one stretch of it. A day without fish is one as well. SI. */
export interface Outing {
  readonly id: string;
  readonly readerId: string;
  readonly lake: string;
  /** `YYYY-MM-DD` at the lake. */
  readonly date: string;
  /** Minutes of the local day, where the reader said them. */
  readonly clock?: { readonly fromMinute: number; readonly toMinute: number };
  /** Effort; above 0. */
  readonly hours: number;
  readonly places: readonly OutingPlace[];
  readonly lures: readonly LureClass[];
  readonly bites?: number;
  readonly fish: number;
  readonly biggestM?: number;
  readonly biggestKg?: number;
  readonly waterC?: number;
  readonly waterDepthM?: number;
  readonly clarityM?: number;
  /** The lake's reading that it brought. */
  readonly readingId?: string;
  /** The reader's own word; left out, the places are set beside the plan of that day. */
  readonly plan?: 'followed' | 'elsewhere';
  /** Shown to nobody else. */
  readonly note: string;
  /** The reader lets it count in the rates of the lake. */
  readonly shared: boolean;
}

/** An official statement, verbatim. */
export interface OfficialAlert {
  readonly id: string;
  readonly lake: string;
  readonly issuer: string;
  readonly event: string;
  readonly severity: string;
  readonly headline: string;
  readonly description: string;
  readonly instruction: string;
  readonly onsetMs: number | null;
  readonly endsMs: number | null;
  readonly expiresMs: number | null;
  readonly url?: string;
}

export type FloodCategory = 'none' | 'action' | 'minor' | 'moderate' | 'major' | 'unknown';

export interface FloodStatus {
  readonly lake: string;
  readonly station: string;
  readonly observed: FloodCategory;
  readonly forecast: FloodCategory;
  readonly atMs: number;
  readonly thresholdsM: Partial<Record<Exclude<FloodCategory, 'none' | 'unknown'>, number>>;
}

/** One attempt to fetch from a service. */
export interface Retrieval {
  readonly lake: string;
  readonly source: string;
  readonly atMs: number;
  readonly ok: boolean;
  readonly status: number | null;
  readonly durationMs: number;
  readonly bytes: number;
  /** One sentence for a person; '' when all was well. Never an address or a token. */
  readonly problem: string;
}

/** Mean level of one UTC day of one series, m above its datum; doubted values left out. */
export interface LevelDay {
  readonly source: string;
  readonly station: string;
  /** '' where the service names none. */
  readonly datum: string;
  /** Period of the values behind the mean: 0 for instants, 86400 for daily values of the service. */
  readonly periodS: number;
  /** Noon of the day, epoch ms. */
  readonly atMs: number;
  readonly levelM: number;
  /** Set on days before the zero of the gauge was moved. */
  readonly doubt?: Doubt;
}

/** The water of a day ahead as a past morning's issue had it from the model, before any lesson of earlier ones. */
export interface PastOutlook {
  /** Local date of the issue. */
  readonly issued: string;
  readonly leadDays: number;
  readonly waterC: number;
  /** Half-width of the 80 % interval, K. */
  readonly halfC: number;
}

/** Everything the pure rooms may know about one lake at one instant: nothing in it is later than `asOfMs` but forecasts. */
export interface RecordView {
  readonly lake: string;
  readonly asOfMs: number;
  /** Sorted by variable, source, station, kind, atMs. Forecasts: only the newest issue at `asOfMs`. Doubted values included, with `doubt`. */
  readonly observations: readonly Observation[];
  /** Daily mean levels over all the days of the view, where they were asked for; by series, oldest first. */
  readonly levelDays?: readonly LevelDay[];
  readonly readings: readonly Reading[];
  /** Of the mornings issued before, oldest first; left out where there are none. */
  readonly outlooks?: readonly PastOutlook[];
  /** Told by then, of hours past and to come, oldest first; left out where nothing was. */
  readonly releases?: readonly ToldRelease[];
  readonly alerts: readonly OfficialAlert[];
  /** Whether alerts were asked for successfully within the last 3 h: "none" and "not checked" are different things. */
  readonly alertsCheckedMs: number | null;
  readonly floods: readonly FloodStatus[];
  readonly retrievals: readonly Retrieval[];
}
