export { airRangesC, type AirRange } from './airRange.ts';
export { adjustCurveNumber, antecedentMoisture, type MoistureClass } from './antecedent.ts';
export { nrcsLagH } from './concentrationTime.ts';
export { runoffIn, runoffMm } from './curveNumber.ts';
export { dayLengthH, declinationRad, sunsetHourAngle } from './dayLength.ts';
export { diffuseShare } from './diffuse.ts';
export { mixtureDensity, waterDensity, WATER_HEAT_CAPACITY } from './density.ts';
export { gammaCdf, gammaQuantile } from './gammaDistribution.ts';
export {
  evaporationWm2,
  sensibleWm2,
  windFunction,
  saturationMmHg,
  saturationSlopeMmHgK,
  surfaceWind,
} from './heatExchange.ts';
export { clearSkyLongwaveWm2, longwaveDownWm2, longwaveUpWm2 } from './longwave.ts';
export { median } from './median.ts';
export { normalCdf, Z80 } from './normal.ts';
export { isFogCode, isThunderCode } from './presentWeather.ts';
export { clearSkyWm2, cloudTransmission, extraterrestrialWm2 } from './radiation.ts';
export { secchiFromTurbidityM, turbidityFromSecchiFnu } from './secchi.ts';
export { sinkRateMs, type HangingLine, type SinkingBody } from './sinkRate.ts';
export { sunPosition, sunTimes, type SunTimes } from './sun.ts';
export { CIVIL_TWILIGHT_DEG } from './twilight.ts';
export { EVENT_WATER, eventWaterShare, swollenStreamC, type EventWater } from './stormMixing.ts';
export { thermoclineM, type Thermocline } from './thermocline.ts';
export { theilSen, type TheilSen } from './theilSen.ts';
export {
  hydrographOrdinate,
  hydrographShares,
  unitHydrograph,
  type UnitHydrograph,
} from './unitHydrograph.ts';
export { dewPointC, humidityPct, saturationVapourHpa } from './vapour.ts';
export { rainBracketC, wetBulbC } from './wetBulb.ts';
export { wilson } from './wilson.ts';
export { windSetupM } from './windSetup.ts';
export { classOf, type ClarityClass } from './clarityClass.ts';
export {
  directSun,
  horizonAtDeg,
  isSunlit,
  skyView,
  sunShare,
  type HorizonDeg,
  type SunnyPlace,
} from './shade.ts';
export { bottomContact, castAngleDeg } from './contact.ts';
export { ROUNDED_GRAVITY_MS2 } from './gravity.ts';
export { heatIndexC } from './heatIndex.ts';
export { windChillC } from './windChill.ts';
export { fetchWaves } from './waves.ts';
