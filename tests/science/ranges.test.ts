// Every formula says from where to where it holds. Both ends count, a hair beyond them is the caller's fault, and the
// message names the number: what is clipped in silence, or refused at its end, is found here.
import { describe, expect, it } from 'vitest';
import {
  adjustCurveNumber,
  antecedentMoisture,
  clearSkyWm2,
  cloudTransmission,
  dayLengthH,
  dewPointC,
  diffuseShare,
  evaporationWm2,
  extraterrestrialWm2,
  humidityPct,
  hydrographShares,
  clearSkyLongwaveWm2,
  longwaveDownWm2,
  longwaveUpWm2,
  mixtureDensity,
  nrcsLagH,
  runoffIn,
  saturationVapourHpa,
  secchiFromTurbidityM,
  sensibleWm2,
  sunPosition,
  thermoclineM,
  turbidityFromSecchiFnu,
  unitHydrograph,
  waterDensity,
  wetBulbC,
  windFunction,
  windSetupM,
} from '../../src/science/index.ts';

const NOON = Date.parse('2026-03-20T12:00:00Z');
/** For "above 0": the smallest number there is still counts. */
const LEAST = Number.MIN_VALUE;

type Case = readonly [
  formula: string,
  name: string,
  low: number,
  high: number,
  call: (value: number) => unknown,
];

const CASES: readonly Case[] = [
  ['adjustCurveNumber', 'curveNumber', 0, 100, (v) => adjustCurveNumber(v, 'wet')],
  ['antecedentMoisture', 'rain5dMm', 0, 5000, (v) => antecedentMoisture(v, true)],
  ['clearSkyWm2', 'altitudeDeg', -90, 90, (v) => clearSkyWm2(v)],
  ['cloudTransmission', 'cloudPct', 0, 100, (v) => cloudTransmission(v)],
  ['dayLengthH', 'latDeg', -90, 90, (v) => dayLengthH(v, 80)],
  ['dayLengthH', 'dayOfYear', 1, 366, (v) => dayLengthH(36, v)],
  ['dewPointC', 'airC', -60, 60, (v) => dewPointC(v, 50)],
  ['dewPointC', 'rhPct', 0, 100, (v) => dewPointC(10, v)],
  ['diffuseShare', 'clearness', 0, 1.2, (v) => diffuseShare(v)],
  ['evaporationWm2', 'waterC', -2, 50, (v) => evaporationWm2(v, 5, 2)],
  ['evaporationWm2', 'dewC', -60, 50, (v) => evaporationWm2(10, v, 2)],
  ['evaporationWm2', 'windMs', 0, 60, (v) => evaporationWm2(10, 5, v)],
  ['extraterrestrialWm2', 'latDeg', -90, 90, (v) => extraterrestrialWm2(v, 80)],
  ['extraterrestrialWm2', 'dayOfYear', 1, 366, (v) => extraterrestrialWm2(36, v)],
  ['humidityPct', 'airC', -60, 60, (v) => humidityPct(v, -60)],
  ['humidityPct', 'airC', -60, 60, (v) => humidityPct(0, v)],
  ['hydrographShares', 'timeToPeakH', LEAST, 1000, (v) => hydrographShares(v, 500)],
  ['hydrographShares', 'stepH', LEAST, 1000, (v) => v === LEAST || hydrographShares(4, v)],
  ['clearSkyLongwaveWm2', 'airC', -60, 60, (v) => clearSkyLongwaveWm2(v, 0)],
  ['clearSkyLongwaveWm2', 'airC', -60, 60, (v) => clearSkyLongwaveWm2(0, v)],
  ['longwaveDownWm2', 'airC', -60, 60, (v) => longwaveDownWm2(v, 50)],
  ['longwaveDownWm2', 'cloudPct', 0, 100, (v) => longwaveDownWm2(10, v)],
  ['longwaveUpWm2', 'waterC', -2, 50, (v) => longwaveUpWm2(v)],
  ['mixtureDensity', 'sscMgL', 0, 100_000, (v) => mixtureDensity(10, v)],
  ['nrcsLagH', 'lengthM', LEAST, 1e5, (v) => nrcsLagH(v, 0.02, 82)],
  ['nrcsLagH', 'slope', LEAST, 2, (v) => nrcsLagH(4200, v, 82)],
  ['nrcsLagH', 'curveNumber', 1, 100, (v) => nrcsLagH(4200, 0.02, v)],
  ['runoffIn', 'rainIn', 0, 40, (v) => runoffIn(v, 70)],
  ['runoffIn', 'curveNumber', 1, 100, (v) => runoffIn(6, v)],
  ['saturationVapourHpa', 'airC', -60, 60, (v) => saturationVapourHpa(v)],
  ['secchiFromTurbidityM', 'turbidityFnu', LEAST, 4000, (v) => secchiFromTurbidityM(v)],
  ['sensibleWm2', 'windMs', 0, 60, (v) => sensibleWm2(10, 5, v)],
  ['sunPosition', 'latDeg', -90, 90, (v) => sunPosition(v, 0, NOON)],
  ['sunPosition', 'lonDeg', -180, 180, (v) => sunPosition(0, v, NOON)],
  ['thermoclineM', 'lengthM', 50, 300_000, (v) => thermoclineM(v, 26)],
  ['thermoclineM', 'surfaceC', 12, 40, (v) => thermoclineM(3000, v)],
  ['turbidityFromSecchiFnu', 'secchiM', LEAST, 60, (v) => turbidityFromSecchiFnu(v)],
  ['unitHydrograph', 'areaKm2', 0, 1e6, (v) => unitHydrograph(v, 2)],
  ['unitHydrograph', 'lagH', LEAST, 1000, (v) => unitHydrograph(10, v)],
  ['unitHydrograph', 'durationH', 0, 1000, (v) => unitHydrograph(10, 2, v)],
  ['waterDensity', 'tempC', -2, 50, (v) => waterDensity(v)],
  ['wetBulbC', 'airC', -60, 60, (v) => wetBulbC(v, 50)],
  ['wetBulbC', 'rhPct', 0, 100, (v) => wetBulbC(10, v)],
  ['windFunction', 'windMs', 0, 60, (v) => windFunction(v)],
  ['windSetupM', 'windMs', 0, 60, (v) => windSetupM(v, 5000, 6)],
  ['windSetupM', 'fetchM', 0, 1e7, (v) => windSetupM(13, v, 6)],
  ['windSetupM', 'depthM', LEAST, 1e4, (v) => windSetupM(13, 5000, v)],
];

describe('a formula', () => {
  it.each(CASES)('%s takes %s from %d to %d, and names it beyond', (_, name, low, high, call) => {
    expect(() => call(low)).not.toThrow();
    expect(() => call(high)).not.toThrow();
    const hair = 1e-6 * Math.max(1, high - low);
    for (const beyond of [low === LEAST ? 0 : low - hair, high + hair, Number.NaN]) {
      expect(() => call(beyond)).toThrow(RangeError);
      expect(() => call(beyond)).toThrow(`${name} must be between`);
    }
  });
});
