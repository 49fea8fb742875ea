import { describe, expect, it } from 'vitest';
import { heatIndexC } from '../../src/science/heatIndex.ts';

const toC = (f: number): number => (f - 32) / 1.8;
const toF = (c: number): number => c * 1.8 + 32;

describe('heat index', () => {
  // National Weather Service web calculator values, as collected in the tests of MetPy (test_heat_index_vs_nws).
  it.each([
    [86, 45, 87],
    [111, 27, 121],
    [96, 60, 116],
    [92, 70, 112],
    [86, 88, 104],
    [110, 40, 136],
    [88, 100, 121],
  ])('at %d degF and %d %% agrees with the weather service: %d degF', (airF, rh, expected) => {
    expect(Math.round(toF(heatIndexC(toC(airF), rh)))).toBe(expected);
  });

  it('at 35 degC and 70 % is 50.34 degC (MetPy)', () => {
    expect(heatIndexC(35, 70)).toBeCloseTo(50.3405, 2);
  });

  // Computed from the published equations (Weather Prediction Center page): dry-air adjustment and simple branch.
  it.each([
    [95, 10, 89.45],
    [80, 40, 79.79],
    [70, 50, 69.53],
  ])('at %d degF and %d %% follows the adjustment or the simple branch: %d', (airF, rh, expected) => {
    expect(toF(heatIndexC(toC(airF), rh))).toBeCloseTo(expected, 1);
  });

  // The chart of the National Weather Service ends at 110 degF and 40 %: 136 or 137 degF, by its printing.
  it('ends where the chart of the weather service ends, and goes on saying so', () => {
    for (const [airF, rh] of [
      [110, 50],
      [115, 60],
      [134, 80],
      [134, 100],
    ] as const)
      expect(toF(heatIndexC(toC(airF), rh))).toBeCloseTo(137, 6);
  });

  it('refuses a humidity above 100 %', () => {
    expect(() => heatIndexC(30, 101)).toThrow(RangeError);
  });
});
