/** Why a reading was refused, as codes with the numbers that their sentences need, SI. */
export type WaterKind = 'lake' | 'river';

/** What became of a reading that lies far from what was expected. */
export type Fate = 'leftOut' | 'countsLittle';

/** Why a reading does not count, or counts for little. */
export type Refusal =
  | { readonly code: 'noWeatherThatDay' }
  | { readonly code: 'noWeatherThatHour' }
  | { readonly code: 'beforeTheWeather' }
  | { readonly code: 'notANumber' }
  | { readonly code: 'notWater'; readonly waterC: number; readonly water: WaterKind }
  | {
      readonly code: 'tooFar';
      /** Reading minus expectation, K. */
      readonly differenceC: number;
      readonly of: WaterKind | 'pocket';
      readonly fate: Fate;
    }
  | {
      readonly code: 'stuck';
      readonly waterC: number;
      readonly days: number;
      readonly water: WaterKind;
      /** How far the water must have moved meanwhile, K. */
      readonly movedC: number;
    }
  | { readonly code: 'belowWarmLayer'; readonly depthM: number }
  | { readonly code: 'swingsLikeAir'; readonly rangeC: number }
  | { readonly code: 'followsAir' }
  | { readonly code: 'datedLate' }
  | { readonly code: 'datedEarly' }
  | { readonly code: 'tooOld'; readonly days: number };

/** Fresh water that a thermometer can have been in, degC; the low end leaves room for its error at freezing. */
const POSSIBLE_C = { low: -0.5, high: 40 } as const;

/** @returns why the value cannot be water of that kind, or undefined when it can */
export function impossible(waterC: number, water: WaterKind): Refusal | undefined {
  if (!Number.isFinite(waterC)) return { code: 'notANumber' };
  if (waterC >= POSSIBLE_C.low && waterC <= POSSIBLE_C.high) return undefined;
  return { code: 'notWater', waterC, water };
}
