import { describe, expect, it } from 'vitest';
import {
  degreeDays,
  equilibrium,
  evaporationWm2,
  longwaveDownWm2,
  longwaveUpWm2,
  relaxC,
  responseS,
  sensibleWm2,
  windFunction,
} from '../../src/science/index.ts';
import { nameOf, rowsOf } from './rows.ts';

const DAY_S = 86_400;

describe('surface heat exchange agrees with', () => {
  type Weather = { airC: number; dewC: number; windMs2m: number; swNetWm2: number };
  for (const row of rowsOf<Weather, { teC: number; kWm2C: number }>('heat', 'w2Equilibrium'))
    it(`equilibrium ${nameOf(row)}`, () => {
      const { airC, dewC, windMs2m, swNetWm2 } = row.inputs;
      const got = equilibrium(airC, dewC, windMs2m, swNetWm2);
      expect(Math.abs(got.temperatureC - row.expected.teC)).toBeLessThanOrEqual(row.tol);
      expect(Math.abs(got.exchangeWm2K - row.expected.kWm2C)).toBeLessThanOrEqual(row.tol);
    });
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
  for (const row of rowsOf<{ exchange: number; depthM: number }, number>('heat', 'responseDays'))
    it(`response time ${nameOf(row)}`, () => {
      const got = responseS(row.inputs.exchange, row.inputs.depthM) / DAY_S;
      expect(Math.abs(got - row.expected)).toBeLessThanOrEqual(row.tol);
    });
  type Relax = { startC: number; equilibriumC: number; exchange: number; depthM: number; days: number };
  for (const row of rowsOf<Relax, number>('heat', 'relaxC'))
    it(`relaxation ${nameOf(row)}`, () => {
      const { startC, equilibriumC, exchange, depthM, days } = row.inputs;
      const got = relaxC(startC, equilibriumC, exchange, depthM, days * DAY_S);
      expect(Math.abs(got - row.expected)).toBeLessThanOrEqual(row.tol);
    });

  it('the full balance of fluxes at the equilibrium: nothing left to gain or lose but the 2 K the forms differ by', () => {
    // The published routine linearises, with a longwave term of its own; the separate terms are of another source.
    for (const { inputs } of rowsOf<Weather, unknown>('heat', 'w2Equilibrium')) {
      const { airC, dewC, windMs2m: wind, swNetWm2: sun } = inputs;
      const { temperatureC: water, exchangeWm2K } = equilibrium(airC, dewC, wind, sun);
      const gained = sun + longwaveDownWm2(airC, 0);
      const lost = longwaveUpWm2(water) + evaporationWm2(water, dewC, wind) + sensibleWm2(water, airC, wind);
      expect(Math.abs(gained - lost) / exchangeWm2K).toBeLessThan(2);
    }
  });
});

describe('degree-days agree with', () => {
  it('the printed examples of the US weather service: 75/65 gives 5, 90/70 gives 15, 55 gives none above 65 F', () => {
    const f = (tempF: number): number => (tempF - 32) / 1.8;
    expect(degreeDays([f(70)], f(65)) * 1.8).toBeCloseTo(5, 9);
    expect(degreeDays([f(80)], f(65)) * 1.8).toBeCloseTo(15, 9);
    expect(degreeDays([f(55)], f(65))).toBe(0);
  });
});
