/** What a what-if says of its own form, as codes with SI numbers; `words` makes sentences of them. */
import type { SignalId } from '../../signals/index.ts';
import type { WaterBody } from '../../vocabulary/index.ts';

/** What was worked out, guessed or taken for granted. */
export type Assumption =
  | {
      readonly code:
        | 'airTrend3d'
        | 'airTrend7d'
        | 'airDrop'
        | 'clarity'
        | 'rain72h'
        | 'runoffGuessed'
        | 'runoffMixed'
        | 'clearColdNight'
        | 'pocketRenewed'
        | 'pocketCoarse'
        | 'pocketByHour';
    }
  /** Degrees north that were taken; null where the form gives them. */
  | { readonly code: 'dayLength'; readonly usualLatDeg: number | null }
  /** Where warm and cold water likely meet, m; of a middling water of its kind where nothing tells its size. */
  | {
      readonly code: 'layer';
      readonly depthM: number;
      readonly lowM: number;
      readonly highM: number;
      readonly of: 'kind' | 'openWater';
    }
  /** Surface current from the flow through a section, m/s. */
  | { readonly code: 'currentOfSection' }
  /** A pocket that faces a side, by the energy of the day: against the main lake at its warmest, K, and were it turned about. */
  | {
      readonly code: 'pocketSun';
      readonly facesDeg: number;
      readonly sunH: number;
      /** Local hour of the day, 0 to 24. */
      readonly hour: number;
      readonly differenceC: number;
      readonly oppositeC: number;
    }
  | { readonly code: 'hoursSinceRain'; readonly hours: number }
  /** Hours are those of the sun, which is highest at 12:00: nobody gave the day's own. */
  | { readonly code: 'sunTime' }
  /** Nothing is said of the water's places: those that its kind usually has. */
  | { readonly code: 'usualPlaces' }
  | { readonly code: 'species'; readonly taken: 'mixed' }
  | { readonly code: 'waterBody'; readonly taken: 'highland-reservoir' };

/** Signals that no field of the form holds as they are: worked out, or made of the hours of the day. */
export const UNWRITTEN = [
  'dayLengthH',
  'dayLengthChangeHPerWeek',
  'airTrend3dCPerDay',
  'airTrend7dCPerDay',
  'airDrop24hC',
  'turbidityFnu',
  'clarityM',
  'rain72Mm',
  'hoursSinceRain',
  'runoffC',
  'clearColdNightSinceRain',
  'pocketRenewedShare',
  'pocketMinusMainC',
  'lowLightShare',
  'windMaxMs',
  'airMinTodayC',
  'generationOn',
  'currentMs',
] as const satisfies readonly SignalId[];
export type UnwrittenSignal = (typeof UNWRITTEN)[number];

/** A number as understood, SI. */
export type UnderstoodFigure = { readonly value: number } & (
  | { readonly signal: SignalId; readonly field: string }
  /** No field of the form; whether it was worked out or is what the hours of the day say. */
  | { readonly signal: UnwrittenSignal; readonly field: null; readonly workedOut: boolean }
);

/** What keeps a quantity from being read. */
export type WrittenFault = {
  readonly found: string;
  readonly units: readonly string[];
  readonly example: string;
  /** Words that the field takes as well. */
  readonly words?: readonly string[];
} & (
  | { readonly code: 'notQuantity' }
  | { readonly code: 'noUnit' }
  | { readonly code: 'unknownUnit' }
  | { readonly code: 'outOfRange' }
);

/** Two things in a form that cannot both be so. */
export type ContradictionFact =
  | { readonly code: 'fishingOrder'; readonly from: string; readonly to: string }
  | {
      readonly code: 'sunOrder';
      readonly first: SunMoment;
      readonly firstAt: string;
      readonly then: SunMoment;
      readonly thenAt: string;
    }
  | { readonly code: 'hourOrder'; readonly before: string; readonly at: string }
  /** `at` is null where it is said of the whole day. */
  | { readonly code: 'gustBelowWind'; readonly at: string | null }
  | { readonly code: 'airAboveHigh'; readonly at: string }
  | { readonly code: 'lessRain'; readonly than: 'last24h' | 'last72h' | 'last7d' }
  | { readonly code: 'placeNever'; readonly place: string; readonly waterBody: WaterBody }
  | { readonly code: 'placeBoth'; readonly place: string }
  | { readonly code: 'noTurbines' };

export type SunMoment = 'dawn' | 'rise' | 'noon' | 'set' | 'dusk';

/** Everything that can be wrong with a field of the form. */
export type FormFault = WrittenFault | ContradictionFact;
