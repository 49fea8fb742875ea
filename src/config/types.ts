/** Configuration after it was read and checked: SI, defaults filled. The file itself writes quantities with their unit (`5 ft`, `1.5 m`). */
import type {
  AlertService,
  BaseId,
  GaugeService,
  GaugeVariable,
  DeclaredPlaces,
  PlaceId,
  RiverKind,
  Species,
  UnitSystem,
  WaterBody,
  WeatherService,
  ClockStyle,
  Language,
} from '../vocabulary/index.ts';
import type { Cove, Ring, Spot } from '../shape/index.ts';

export type { GaugeService, GaugeVariable } from '../vocabulary/index.ts';

/** One series at one station; a list per variable, in order of preference. */
export interface GaugeConfig {
  readonly service: GaugeService;
  readonly station: string;
  readonly variable: GaugeVariable;
  /** Service's own parameter, e.g. `00062`, or a whole CWMS series name. */
  readonly parameter?: string;
  readonly timeSeriesId?: string;
  readonly office?: string;
  readonly datum?: string;
  /** CSV: path, columns, unit, zone. */
  readonly csv?: {
    readonly path: string;
    readonly timeColumn: string;
    readonly valueColumn: string;
    readonly unit: string;
    readonly zone: string;
    readonly timeFormat?: string;
  };
  /** Where the sensor sits, for the source line. */
  readonly where: string;
  /** Which water a thermometer stands in: only the main lake's own teaches the lake model. */
  readonly standsIn?: 'main-lake' | 'elsewhere';
  readonly depthM?: number;
}

export interface PocketConfig {
  readonly id: string;
  readonly name: string;
  readonly areaM2?: number;
  readonly meanDepthM?: number;
  readonly watershedKm2?: number;
  readonly curveNumber?: number;
  readonly landCover: 'wooded' | 'mixed' | 'pasture' | 'urban';
  readonly mouthWidthM?: number;
  readonly channelLengthM?: number;
  readonly slope?: number;
  readonly bankDeg?: number;
  readonly position?: PositionConfig;
  readonly facesDeg?: number;
  readonly horizonDeg?: HorizonConfig;
}

export interface PositionConfig {
  readonly latDeg: number;
  readonly lonDeg: number;
}

/** Height of the land above the water's edge in eight directions, degrees, from north with the sun. */
export type HorizonConfig = readonly number[];

export interface PointConfig {
  readonly name: string;
  readonly place: PlaceId;
  /** Other kinds of place that it is at once: wood in it, plants along it. */
  readonly also?: readonly PlaceId[];
  readonly bankDeg?: number;
  readonly position?: PositionConfig;
  /** Bearing to which it is open. */
  readonly facesDeg?: number;
  readonly horizonDeg?: HorizonConfig;
}

export interface RampConfig {
  readonly name: string;
  readonly position?: PositionConfig;
  readonly facesDeg?: number;
}

/** A place of the configuration on the outline of its lake. */
export interface ShapedPlace {
  readonly name: string;
  readonly kind: 'pocket' | 'point' | 'ramp';
  readonly at: Spot;
  /** To the nearest bank, m. */
  readonly bankM: number;
  /** Bearing to which it is open: as configured, else as its shore and open water say. */
  readonly facesDeg: number;
  /** Straight open water in 36 directions, m. */
  readonly fetchesM: readonly number[];
  /** Of a pocket: its mouth and its water as the outline has them; left out where it winds. */
  readonly cove?: Cove;
}

export interface LakeShape {
  readonly outline: OutlineFigures;
  /** Shores and islands with as few points as a drawing needs, whole m east and north of the lake's position. */
  readonly drawn: readonly Ring[];
  readonly places: readonly ShapedPlace[];
  /** Longest straight open water in 36 directions, anywhere along the shore, m. */
  readonly openFetchesM: readonly number[];
  /** The longest of them, m. */
  readonly longestFetchM: number;
  /** Shortest way by water from each place to each, in the order of the places, m; null where no water joins them. */
  readonly waysM: readonly (readonly (number | null)[])[];
}

/** What is told of an outline that was read. */
export interface OutlineFigures {
  /** Water without its islands, m2. */
  readonly areaM2: number;
  readonly shores: number;
  readonly pointsRead: number;
  readonly pointsKept: number;
}

/** What was computed from a file beside the configuration, by which it is known again. */
export interface KeptShape {
  /** Id of the lake. */
  readonly lake: string;
  /** Id of the pocket whose watershed it is; '' for the lake's outline. */
  readonly part: string;
  /** Hash of what it was computed from and of the way it was computed. */
  readonly key: string;
  /** JSON. */
  readonly body: string;
}

/** What was kept of the lakes' shapes in a record that may not be there yet. Gives nothing where nothing can be read. */
export type Shelf = (recordPath: string, lakes: readonly string[]) => Promise<readonly KeptShape[]>;

export interface TackleConfig {
  readonly reels: readonly { readonly name: string; readonly gear: number; readonly spoolM: number }[];
  readonly linesKg: readonly number[];
  readonly castLengthM: number;
}

export interface LakeConfig {
  readonly id: string;
  readonly name: string;
  readonly arm?: string;
  /** Language of the briefing; left out: English. */
  readonly language?: Language;
  /** Clock of the briefing; left out: 12 hours beside feet, 24 beside metres. */
  readonly clock?: ClockStyle;
  readonly latDeg: number;
  readonly lonDeg: number;
  readonly elevationM?: number;
  readonly zone: string;
  readonly waterBody: WaterBody;
  /** How the river of a tailwater or a run-of-river pool answers to air and flow. */
  readonly riverKind?: RiverKind;
  readonly meanDepthM: number;
  readonly areaKm2: number;
  readonly bankDeg: number;
  readonly fetchM?: number;
  readonly normalPoolM?: number;
  /** Vertical datum of normal pool; left out: that of the first level gauge. */
  readonly normalPoolDatum?: string;
  readonly belowDam: boolean;
  readonly species: Species;
  readonly weather: readonly WeatherService[];
  readonly alerts: AlertService | 'none';
  readonly gauges: readonly GaugeConfig[];
  readonly floodGauge?: string; // NWPS id
  readonly pockets: readonly PocketConfig[];
  readonly points: readonly PointConfig[];
  readonly ramps?: readonly RampConfig[];
  readonly horizonDeg?: HorizonConfig;
  /** The outline with the places on it; left out where the configuration names none. */
  readonly shape?: LakeShape;
  /** Speed of the boat between places, m/s. */
  readonly boatMs?: number;
  /** Kinds of place it has: exactly these, or what it has and has not besides the usual ones of its kind of water. */
  readonly places?: DeclaredPlaces;
  /** Local `HH:MM` between which people fish; left out: civil dawn to civil dusk. */
  readonly fishing?: { readonly from: string; readonly to: string };
  /** Where warm and cold water meet, m, and from when to when in the year (`MM-DD`; left out: always). */
  readonly layer?: { readonly depthM: number; readonly from?: string; readonly to?: string };
  /** Depth below which the water holds too little oxygen, m. */
  readonly oxygenDepthM?: number;
  readonly issueAt: string; // local `HH:MM`, default 05:15
  readonly graceMinutes: number;
  readonly eveningOutlook: boolean;
  readonly demo: boolean;
}

export interface ReaderConfig {
  readonly address: string;
  readonly lakes: readonly string[];
  readonly units: UnitSystem;
  readonly days?: readonly number[]; // ISO weekdays 1..7
  /** Local hour at the lake before which nothing is sent, 0 to 12; left out: the reader's own choice. */
  readonly earliestHour?: number;
  readonly form: 'full' | 'short';
  readonly amendments: boolean;
  /** Left out: that of the lake. */
  readonly language?: Language;
  /** Local `HH:MM`, full or half hours, that the plan is made for; left out: those of the lake. */
  readonly fishing?: { readonly from: string; readonly to: string };
  /** Left out: the reader's own choice. */
  readonly asksReading?: boolean;
  readonly tackle?: TackleConfig;
}

/** A program that is told of every issue. */
export interface WebhookConfig {
  readonly url: string;
  /** Name of the environment variable that holds the secret messages are signed with. */
  readonly secretEnv: string;
  /** Lakes it is told of; all when left out. */
  readonly lakes?: readonly string[];
}

export interface Config {
  readonly path: string;
  /** What had to be computed because nobody had kept it; left out where nothing was. */
  readonly made?: readonly KeptShape[];
  readonly lakes: readonly LakeConfig[];
  readonly readers: readonly ReaderConfig[];
  readonly tackle: TackleConfig;
  readonly mail: {
    readonly from: string;
    readonly replyTo?: string;
    readonly transport: 'smtp' | 'directory' | 'stdout';
    readonly directory: string;
    /** Name of the environment variable that holds the SMTP URL. */
    readonly smtpUrlEnv: string;
    readonly ratePerSecond: number;
    readonly connections: number;
    readonly dkim?: { readonly domain: string; readonly selector: string; readonly keyFile: string };
    readonly listId: string;
    readonly operator?: string;
  };
  readonly web: {
    readonly baseUrl: string;
    readonly port: number;
    /** Address, or address and port, that `run` serves the pages at; `none` where another process does. */
    readonly listen?: string;
    /** Addresses and networks of proxies whose X-Forwarded-For is believed. */
    readonly trustProxy?: readonly string[];
    readonly secretEnv: string;
    /** Name of the environment variable that holds the bearer secret for bounce reports. */
    readonly bouncesEnv?: string;
  };
  readonly services: {
    /** Contact put in the User-Agent. */
    readonly contact: string;
    readonly baseUrls: Readonly<Partial<Record<BaseId, string>>>;
    readonly usgsKeyEnv: string;
    readonly timeoutMs: number;
    readonly parallelPerHost: number;
  };
  readonly webhooks?: readonly WebhookConfig[];
  readonly recordPath: string;
  /** Reader-tunable numbers, merged over the shipped rules; key is the rule's dotted id. */
  readonly thresholds: Readonly<Record<string, number>>;
}
