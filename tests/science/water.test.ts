import { describe, expect, it } from 'vitest';
import {
  mixtureDensity,
  secchiFromTurbidityM,
  turbidityFromSecchiFnu,
  waterDensity,
  windSetupM,
} from '../../src/science/index.ts';
import { nameOf, rowsOf } from './rows.ts';

const FT = 0.3048;

describe('water agrees with', () => {
  for (const row of rowsOf<{ readonly tempC: number }, number>('water', 'waterDensityKgM3'))
    it(`density ${nameOf(row)}`, () => {
      expect(Math.abs(waterDensity(row.inputs.tempC) - row.expected)).toBeLessThanOrEqual(row.tol);
    });
  for (const row of rowsOf<{ tempC: number; sscMgL: number }, number>('water', 'mixtureDensity'))
    it(`density with sediment ${nameOf(row)}`, () => {
      const got = mixtureDensity(row.inputs.tempC, row.inputs.sscMgL);
      expect(Math.abs(got - row.expected)).toBeLessThanOrEqual(row.tol);
    });
  for (const row of rowsOf<{ mph: number; miles: number; depthFt: number }, number>('water', 'windSetupFt'))
    it(`wind set-up ${nameOf(row)}`, () => {
      const { mph, miles, depthFt } = row.inputs;
      const got = windSetupM(mph * 0.44704, miles * 1609.344, depthFt * FT) / FT;
      expect(Math.abs(got - row.expected)).toBeLessThanOrEqual(row.tol);
    });
  for (const row of rowsOf<{ fnu: number }, number>('water', 'secchiFt'))
    it(`Secchi depth ${nameOf(row)}`, () => {
      const secchiM = secchiFromTurbidityM(row.inputs.fnu);
      expect(Math.abs(secchiM / FT - row.expected)).toBeLessThanOrEqual(row.tol);
      expect(turbidityFromSecchiFnu(secchiM)).toBeCloseTo(row.inputs.fnu, 6);
    });

  it('the density maximum near 4 degC: 4 is denser than 3, 5 and 6', () => {
    for (const other of [3, 5, 6]) expect(waterDensity(4)).toBeGreaterThan(waterDensity(other));
  });

  it('ten degrees Fahrenheit of contrast at 47 F are cancelled by just under a gram of sediment per litre', () => {
    // 46.5 F water against 57 F inflow: 0.59 kg/m3, which 945 mg/L carry (Tanaka densities).
    const contrast = waterDensity(8.056) - waterDensity(13.889);
    expect(contrast).toBeCloseTo(0.59, 2);
    expect(mixtureDensity(13.889, 945)).toBeCloseTo(waterDensity(8.056), 2);
  });
});
