import { idsOf } from './ids.ts';
import type { QuantityKind } from './quantities.ts';

/** Numbers a hazard may be judged on; each is a signal or made from signals, SI. */
export const SAFETY_QUANTITIES = {
  waterC: 'temperature',
  airMinusWaterC: 'temperatureDifference',
  airMaxC: 'temperature',
  windChillC: 'temperature',
  runningWindChillC: 'temperature',
  stillAirC: 'temperature',
  airUnjudgedC: 'temperature',
  heatIndexC: 'temperature',
  windMs: 'windSpeed',
  gustMs: 'windSpeed',
  waveM: 'depth',
  rise24hM: 'levelChange',
  fall24hM: 'levelChange',
  rise72hM: 'levelChange',
  riseRateMPerH: 'levelRate',
  fallRateMPerH: 'levelRate',
  riseNext24hM: 'levelChange',
  belowNormalM: 'levelChange',
  aboveNormalM: 'levelChange',
  dischargeRatio: 'count',
  generationOn: 'share',
  generationNow: 'share',
  currentMs: 'lureSpeed',
  belowDam: 'count',
  releaseStart: 'share',
  thunderPct: 'percent',
  stormSign: 'share',
  rain72Mm: 'rain',
  rainNext24Mm: 'rain',
  nightLowC: 'temperature',
  clarityM: 'clarity',
  fetchM: 'distance',
  standingWater: 'count',
  fogHours: 'hours',
  darkHours: 'hours',
} as const satisfies Record<string, QuantityKind>;

export type SafetyQuantity = keyof typeof SAFETY_QUANTITIES;
export const SAFETY_QUANTITY_IDS = idsOf(SAFETY_QUANTITIES);
