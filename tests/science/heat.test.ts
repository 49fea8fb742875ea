import { describe, expect, it } from 'vitest';
import {
  clearSkyLongwaveWm2,
  evaporationWm2,
  longwaveDownWm2,
  longwaveUpWm2,
  saturationMmHg,
  saturationSlopeMmHgK,
  saturationVapourHpa,
  windFunction,
} from '../../src/science/index.ts';
import { nameOf, rowsOf } from './rows.ts';

describe('surface heat exchange agrees with', () => {
  for (const row of rowsOf<{ windMs: number }, number>('heat', 'windFunction'))
    it(`wind function ${nameOf(row)}`, () => {
      expect(Math.abs(windFunction(row.inputs.windMs) - row.expected)).toBeLessThanOrEqual(row.tol);
    });
  for (const row of rowsOf<{ waterC: number; dewC: number; windMs: number }, number>(
    'heat',
    'evaporationWm2',
  ))
    it(`evaporation ${nameOf(row)}`, () => {
      const got = evaporationWm2(row.inputs.waterC, row.inputs.dewC, row.inputs.windMs);
      expect(Math.abs(got - row.expected)).toBeLessThanOrEqual(row.tol);
    });
  for (const row of rowsOf<{ waterC: number }, number>('heat', 'longwaveUpWm2'))
    it(`longwave up ${nameOf(row)}`, () => {
      expect(Math.abs(longwaveUpWm2(row.inputs.waterC) - row.expected)).toBeLessThanOrEqual(row.tol);
    });
  for (const row of rowsOf<{ airC: number; cloudPct: number }, number>('heat', 'longwaveDownWm2'))
    it(`longwave down ${nameOf(row)}`, () => {
      const got = longwaveDownWm2(row.inputs.airC, row.inputs.cloudPct);
      expect(Math.abs(got - row.expected)).toBeLessThanOrEqual(row.tol);
    });
});

describe('a clear sky sends', () => {
  const blackWm2 = (airC: number): number => 5.67e-8 * (airC + 273.15) ** 4;

  it('what the short form says near 15 degC, emissivity 0.553 e^(1/7) with e in hPa', () => {
    // Brutsaert (1975), Water Resour. Res. 11, 742; the short form for a standard atmosphere from memory.
    for (const dewC of [-10, 0, 8, 14]) {
      const short = 0.553 * saturationVapourHpa(dewC) ** (1 / 7) * blackWm2(15);
      expect(Math.abs(clearSkyLongwaveWm2(15, dewC) / short - 1)).toBeLessThan(0.003);
    }
  });

  it('nearly what a sky does that knows the air alone, in humid air; much less over a desert', () => {
    expect(Math.abs(clearSkyLongwaveWm2(25, 20) / longwaveDownWm2(25, 0) - 1)).toBeLessThan(0.05);
    expect(clearSkyLongwaveWm2(34, 8) / longwaveDownWm2(34, 0)).toBeLessThan(0.92);
  });
});

describe('the slope of the vapour pressure over water', () => {
  it('is that of the curve itself', () => {
    for (const waterC of [0, 10, 20, 30, 45]) {
      const step = (saturationMmHg(waterC + 0.01) - saturationMmHg(waterC - 0.01)) / 0.02;
      expect(saturationSlopeMmHgK(waterC) / step).toBeCloseTo(1, 5);
    }
  });
});
