import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { windChillC } from '../../src/science/windChill.ts';

const toC = (f: number): number => (f - 32) / 1.8;
const toF = (c: number): number => c * 1.8 + 32;
const mphToMs = (mph: number): number => mph * 0.44704;

/** National Weather Service wind chill chart (index of 1 November 2001), degF, for 5, 10 ... 60 mph. */
const CHART: readonly (readonly [airF: number, ...row: number[]])[] = [
  [40, 36, 34, 32, 30, 29, 28, 28, 27, 26, 26, 25, 25],
  [35, 31, 27, 25, 24, 23, 22, 21, 20, 19, 19, 18, 17],
  [30, 25, 21, 19, 17, 16, 15, 14, 13, 12, 12, 11, 10],
  [25, 19, 15, 13, 11, 9, 8, 7, 6, 5, 4, 4, 3],
  [20, 13, 9, 6, 4, 3, 1, 0, -1, -2, -3, -3, -4],
  [15, 7, 3, 0, -2, -4, -5, -7, -8, -9, -10, -11, -11],
  [10, 1, -4, -7, -9, -11, -12, -14, -15, -16, -17, -18, -19],
  [5, -5, -10, -13, -15, -17, -19, -21, -22, -23, -24, -25, -26],
  [0, -11, -16, -19, -22, -24, -26, -27, -29, -30, -31, -32, -33],
  [-5, -16, -22, -26, -29, -31, -33, -34, -36, -37, -38, -39, -40],
];

describe('wind chill', () => {
  // The metric and the customary formula were rounded separately and part by up to 0.1 degF.
  it('agrees with the 120 cells of the published chart within a rounding step', () => {
    for (const [airF, ...row] of CHART) {
      row.forEach((chartF, index) => {
        const ours = toF(windChillC(toC(airF), mphToMs(5 * (index + 1))));
        expect(Math.abs(ours - chartF), `${airF} F at ${5 * (index + 1)} mph`).toBeLessThanOrEqual(0.65);
      });
    }
  });

  // Environment Canada's metric table (-5 C at 5 and 40 km/h, -17 C at 28 km/h).
  it.each([
    [-5, 5, -7.26],
    [-5, 40, -14.08],
    [-17, 28, -28.31],
    [2, 7, -0.08],
  ])('at %d degC and %d km/h is %d', (airC, kmh, expected) => {
    expect(windChillC(airC, kmh / 3.6)).toBeCloseTo(expected, 1);
  });

  it('is the air temperature where the index is not defined', () => {
    expect(windChillC(12, 15)).toBe(12);
    expect(windChillC(-5, 1)).toBe(-5);
  });

  it('refuses a negative wind', () => {
    expect(() => windChillC(0, -1)).toThrow(RangeError);
  });

  it('never exceeds the air temperature and falls as the wind rises', () => {
    fc.assert(
      fc.property(
        fc.double({ min: -45, max: 10, noNaN: true }),
        fc.double({ min: 1.5, max: 30, noNaN: true }),
        (airC, windMs) => {
          expect(windChillC(airC, windMs)).toBeLessThanOrEqual(airC);
          expect(windChillC(airC, windMs + 1)).toBeLessThanOrEqual(windChillC(airC, windMs) + 1e-9);
        },
      ),
    );
  });
});
