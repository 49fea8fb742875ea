import { describe, expect, it } from 'vitest';
import {
  adjustCurveNumber,
  antecedentMoisture,
  hydrographOrdinate,
  hydrographShares,
  nrcsLagH,
  runoffIn,
  runoffMm,
  unitHydrograph,
} from '../../src/science/index.ts';
import { nameOf, rowsOf } from './rows.ts';

describe('curve-number runoff agrees with', () => {
  for (const row of rowsOf<{ rainIn: number; cn: number }, number>('runoff', 'cnRunoffIn'))
    it(nameOf(row), () => {
      expect(Math.abs(runoffIn(row.inputs.rainIn, row.inputs.cn) - row.expected)).toBeLessThanOrEqual(
        row.tol,
      );
    });
  for (const row of rowsOf<{ rainCm: number; cn: number }, number>('runoff', 'cnRunoffCm'))
    it(nameOf(row), () => {
      const got = runoffMm(row.inputs.rainCm * 10, row.inputs.cn) / 10;
      expect(Math.abs(got - row.expected)).toBeLessThanOrEqual(row.tol);
    });
});

describe('antecedent moisture agrees with', () => {
  for (const row of rowsOf<{ curveNumber: number }, { dry: number; wet: number }>('runoff', 'antecedent'))
    it(nameOf(row), () => {
      const { curveNumber } = row.inputs;
      expect(Math.abs(adjustCurveNumber(curveNumber, 'dry') - row.expected.dry)).toBeLessThanOrEqual(row.tol);
      expect(Math.abs(adjustCurveNumber(curveNumber, 'wet') - row.expected.wet)).toBeLessThanOrEqual(row.tol);
      expect(adjustCurveNumber(curveNumber, 'average')).toBe(curveNumber);
    });
  for (const row of rowsOf<{ growing: boolean; rainIn: number }, string>('runoff', 'moistureClass'))
    it(nameOf(row), () => {
      expect(antecedentMoisture(row.inputs.rainIn * 25.4, row.inputs.growing)).toBe(row.expected);
    });
});

describe('timing of runoff agrees with', () => {
  for (const row of rowsOf<{ lengthM: number; slope: number; cn: number }, number>('runoff', 'nrcsLagHours'))
    it(`lag ${nameOf(row)}`, () => {
      const got = nrcsLagH(row.inputs.lengthM, row.inputs.slope, row.inputs.cn);
      expect(Math.abs(got - row.expected)).toBeLessThanOrEqual(row.tol);
    });
  type Peak = { tpH: number; qpM3sPerCm: number };
  for (const row of rowsOf<{ areaKm2: number; lagH: number }, Peak>('runoff', 'nrcsUnitHydrograph'))
    it(`unit hydrograph ${nameOf(row)}`, () => {
      const got = unitHydrograph(row.inputs.areaKm2, row.inputs.lagH);
      expect(Math.abs(got.timeToPeakH - row.expected.tpH)).toBeLessThanOrEqual(row.tol);
      expect(Math.abs(got.peakM3sPerMm * 10 - row.expected.qpM3sPerCm)).toBeLessThanOrEqual(row.tol);
    });
  type UsPeak = { tpH: number; qpCfsPerIn: number };
  for (const row of rowsOf<{ areaMi2: number; concentrationH: number }, UsPeak>('runoff', 'unitHydrographUs'))
    it(`unit hydrograph ${nameOf(row)}`, () => {
      const got = unitHydrograph(row.inputs.areaMi2 * 2.589988, 0.6 * row.inputs.concentrationH);
      expect(got.timeToPeakH).toBeCloseTo(row.expected.tpH, 4);
      // The metric factor 2.08 is 484 rounded to three figures.
      const cfsPerIn = (got.peakM3sPerMm * 25.4) / 0.3048 ** 3;
      expect(Math.abs(cfsPerIn / row.expected.qpCfsPerIn - 1)).toBeLessThan(0.002);
    });

  it('the dimensionless curve: peak at 1, 37 % of the volume before it (NEH-630 table 16-1)', () => {
    expect(hydrographOrdinate(1)).toBe(1);
    expect(hydrographOrdinate(2)).toBe(0.28);
    expect(hydrographOrdinate(6)).toBe(0);
    const shares = hydrographShares(4, 1);
    expect(shares.slice(0, 4).reduce((a, b) => a + b, 0)).toBeCloseTo(0.374, 3);
  });
});
