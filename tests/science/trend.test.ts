import { describe, expect, it } from 'vitest';
import { normalCdf, theilSen } from '../../src/science/index.ts';
import { nameOf, rowsOf } from './rows.ts';

interface Series {
  readonly series: readonly number[];
  readonly t?: readonly number[];
}
interface Test {
  readonly theilSen: number;
  readonly low?: number;
  readonly high?: number;
}
const positions = (row: Series): readonly number[] => row.t ?? row.series.map((_, i) => i);

describe('Theil-Sen agrees with', () => {
  for (const row of rowsOf<Series, Test>('trend', 'mannKendall'))
    it(nameOf(row), () => {
      const slope = theilSen(positions(row.inputs), row.inputs.series);
      expect(slope.slope).toBeCloseTo(row.expected.theilSen, 5);
      if (row.expected.low !== undefined) expect(slope.low).toBeCloseTo(row.expected.low, 9);
      if (row.expected.high !== undefined) expect(slope.high).toBeCloseTo(row.expected.high, 9);
    });
  for (const row of rowsOf<Series, number>('trend', 'theilSen'))
    it(nameOf(row), () => {
      const { slope } = theilSen(positions(row.inputs), row.inputs.series);
      expect(Math.abs(slope - row.expected)).toBeLessThanOrEqual(row.tol);
    });

  it('printed normal probabilities (Abramowitz and Stegun, table 26.1)', () => {
    expect(normalCdf(0)).toBe(0.5);
    expect(normalCdf(1)).toBeCloseTo(0.841344746, 8);
    expect(normalCdf(-1.959963985)).toBeCloseTo(0.025, 8);
    expect(normalCdf(-4) / 3.1671e-5).toBeCloseTo(1, 4);
  });
});

describe('Theil-Sen', () => {
  it('is not a number when no two positions differ', () => {
    expect(theilSen([], []).slope).toBeNaN();
    expect(theilSen([1, 1], [2, 3]).slope).toBeNaN();
  });

  it('refuses lengths that differ and values that are not finite', () => {
    expect(() => theilSen([0, 1], [1])).toThrow(RangeError);
    expect(() => theilSen([0, 1], [1, NaN])).toThrow(RangeError);
  });
});
