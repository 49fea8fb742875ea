import { describe, expect, it } from 'vitest';
import { CONSUMPTION, maximumRation, temperatureFactor } from '../../src/science/bioenergetics.ts';

/** f(T) computed from the published equation with the parameters of Fish Bioenergetics 4.0 (v1.1.8). */
const AT_C = [5, 8, 10, 14, 16, 20, 24, 27.5, 30, 34];
const FACTORS = [
  ['largemouth', [0.088, 0.139, 0.186, 0.322, 0.415, 0.645, 0.891, 1, 0.915, 0.372]],
  ['smallmouthTo26C', [0.05, 0.112, 0.184, 0.43, 0.602, 0.937, 0.925]],
  ['smallmouthShuterPost', [0.018, 0.035, 0.055, 0.127, 0.188, 0.386, 0.695, 0.959, 0.977, 0.328]],
  ['gizzardShad', [0.257, 0.341, 0.408, 0.571, 0.664, 0.856, 0.992, 0.93, 0.645, 0]],
] as const;

describe('consumption against temperature', () => {
  it.each(FACTORS)('of %s follows the published curve', (species, expected) => {
    expected.forEach((value, index) => {
      expect(temperatureFactor(AT_C[index]!, CONSUMPTION[species]), `${AT_C[index]} degC`).toBeCloseTo(
        value,
        3,
      );
    });
  });

  it('is whole at the best temperature and nothing at the upper limit', () => {
    for (const parameters of Object.values(CONSUMPTION)) {
      expect(temperatureFactor(parameters.ctoC, parameters)).toBeCloseTo(1, 12);
      expect(temperatureFactor(parameters.ctmC, parameters)).toBe(0);
      expect(temperatureFactor(parameters.ctmC + 3, parameters)).toBe(0);
    }
  });

  // Rice et al. (1983) via Fish Bioenergetics 4.0: 0.03496 g/g/d; percent of body mass per day.
  it('gives a 1-kg largemouth its published ration', () => {
    expect(maximumRation(1000, CONSUMPTION.largemouth)).toBeCloseTo(0.03496, 5);
    for (const [waterC, percent] of [
      [5, 0.306],
      [10, 0.65],
      [20, 2.256],
      [27.5, 3.496],
    ] as const) {
      const ration =
        maximumRation(1000, CONSUMPTION.largemouth) * temperatureFactor(waterC, CONSUMPTION.largemouth);
      expect(ration * 100).toBeCloseTo(percent, 2);
    }
  });

  it('multiplies capacity by 2.27 from 46.5 to 57 degF for largemouth, by 3.69 for smallmouth', () => {
    const ratio = (p: (typeof CONSUMPTION)['largemouth' | 'smallmouthTo26C']): number =>
      temperatureFactor((57 - 32) / 1.8, p) / temperatureFactor((46.5 - 32) / 1.8, p);
    expect(ratio(CONSUMPTION.largemouth)).toBeCloseTo(2.27, 2);
    expect(Math.abs(ratio(CONSUMPTION.smallmouthTo26C) - 3.69)).toBeLessThan(0.01);
  });

  it('refuses a fish without mass', () => {
    expect(() => maximumRation(0, CONSUMPTION.largemouth)).toThrow(RangeError);
  });
});
