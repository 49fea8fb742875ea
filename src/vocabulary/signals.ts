import { idsOf } from './ids.ts';
import type { QuantityKind } from './quantities.ts';

/**
 * Every number the day is judged on, by id, with its kind of quantity. The rules file, the what-if form and the
 * briefing's JSON use these same ids. SI throughout; times of day are local hours.
 */
export const SIGNALS = {
  waterC: 'temperature', // main lake, daily mean at about 1 m, now
  waterChange1dC: 'temperatureDifference',
  waterChange3dC: 'temperatureDifference',
  waterChange7dC: 'temperatureDifference',
  waterChange30dC: 'temperatureDifference',
  waterForecast3dC: 'temperatureDifference', // modelled change over the next three days
  airMean24hC: 'temperature',
  airMean3dC: 'temperature',
  airMean7dC: 'temperature',
  airTrend3dCPerDay: 'temperatureRate', // Theil-Sen on local-day means
  airTrend7dCPerDay: 'temperatureRate',
  airTrend30dCPerDay: 'temperatureRate',
  warmingDays: 'days', // consecutive days up to yesterday that warmed (positive) or cooled (negative)
  airDrop24hC: 'temperatureDifference', // fall of the 24-h mean against the 24 h before; positive = colder
  airMinLastNightC: 'temperature',
  airNowC: 'temperature',
  airMaxTodayC: 'temperature',
  airMinTodayC: 'temperature',
  rain24Mm: 'rain',
  rain72Mm: 'rain',
  rain7dMm: 'rain',
  rainAirC: 'temperature', // air while it fell, rain-weighted, last 72 h
  rainWetBulbC: 'temperature',
  runoffC: 'temperature', // best estimate of the temperature of what runs in
  hoursSinceRain: 'hours', // since the end of the last fall of 2 mm or more
  rainNext24Mm: 'rain',
  rainNext72Mm: 'rain',
  clearColdNightSinceRain: 'share', // 0 no, 1 yes, graded
  pocketC: 'temperature', // warmest configured (or class) inflow pocket, surface, at its best hour today
  pocketMinusMainC: 'temperatureDifference',
  pocketMeanMinusMainC: 'temperatureDifference', // depth mean
  pocketDawnMinusMainC: 'temperatureDifference',
  pocketRenewedShare: 'share', // inflow of the last 72 h over pocket volume, capped at 1
  pocketBuoyancy: 'share', // +1 inflow floats, -1 it plunges
  pocketHalfLifeH: 'hours',
  levelM: 'level', // now, above the gauge's datum
  level6hM: 'levelChange',
  level24hM: 'levelChange',
  level72hM: 'levelChange',
  levelRateMPerH: 'levelRate',
  levelVsNormalM: 'levelChange',
  levelBandShare: 'share', // 0 at the lowest, 1 at the highest daily level of the past year
  levelNext24hM: 'levelChange', // official stage forecast only
  dischargeM3s: 'flow',
  dischargeRatio: 'share', // against the median of the last 30 days
  currentMs: 'lureSpeed', // surface current where known (tailwater, river, generation)
  generationOn: 'share', // 0 or 1, graded
  clarityM: 'clarity', // Secchi depth, main arm
  turbidityFnu: 'turbidity',
  windMs: 'windSpeed', // mean of the fishing day
  windMaxMs: 'windSpeed',
  gustMs: 'windSpeed',
  cloudPct: 'percent', // mean of the daylight hours
  clearSkyShare: 'share', // shortwave over clear-sky shortwave
  thunderPct: 'percent',
  fetchM: 'distance',
  dayLengthH: 'hours',
  dayLengthChangeHPerWeek: 'hours',
  lowLightShare: 'share', // share of the fishing hours with low light
  bottomOxygenMgL: 'oxygen',
  bankDeg: 'angle',
  latitudeDeg: 'angle', // of the lake, north positive
} as const satisfies Record<string, QuantityKind>;

export type SignalId = keyof typeof SIGNALS;
export const SIGNAL_IDS = idsOf(SIGNALS);
