import { describe, expect, it } from 'vitest';
import { evaporationWm2, longwaveDownWm2, longwaveUpWm2, windFunction } from '../../src/science/index.ts';
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
