// The gamma distribution against printed tables and against distributions it turns into.
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { gammaCdf, gammaQuantile, normalCdf } from '../../src/science/index.ts';

describe('the gamma distribution, published', () => {
  // Critical values of chi square: NIST/SEMATECH e-Handbook of Statistical Methods, section 1.3.6.7.4, and Abramowitz and
  // Stegun (1964), table 26.8 (values from memory). Chi square of n degrees of freedom is twice gamma of shape n / 2.
  it.each([
    [1, 0.95, 3.841],
    [1, 0.99, 6.635],
    [2, 0.05, 0.103],
    [2, 0.95, 5.991],
    [3, 0.9, 6.251],
    [10, 0.025, 3.247],
    [10, 0.05, 3.94],
    [10, 0.95, 18.307],
    [10, 0.99, 23.209],
    [30, 0.05, 18.493],
    [30, 0.95, 43.773],
    [100, 0.05, 77.929],
    [100, 0.95, 124.342],
  ])('chi square of %d degrees of freedom passes %d at %d', (freedom, share, value) => {
    expect(2 * gammaQuantile(freedom / 2, share)).toBeCloseTo(value, 2);
    expect(gammaCdf(freedom / 2, value / 2)).toBeCloseTo(share, 3);
  });

  it('shape 1/2 is the square of a normal one', () => {
    for (const z of [0.01, 0.3, 1, 1.96, 3, 5])
      expect(gammaCdf(0.5, z ** 2 / 2)).toBeCloseTo(2 * normalCdf(z) - 1, 8);
  });

  it('shape 1/4 by the recurrence of Abramowitz and Stegun 6.5.21, with their gamma(1.25) of 0.9064024771', () => {
    for (const x of [0.001, 0.05, 0.5, 1.2, 3])
      expect(gammaCdf(0.25, x)).toBeCloseTo(gammaCdf(1.25, x) + (x ** 0.25 * Math.exp(-x)) / 0.9064024771, 9);
  });
});

describe('the gamma distribution', () => {
  it('of a small shape is the power of its value over the gamma function, near nought', () => {
    // P(a, x) nears x^a / gamma(a + 1); gamma(1.1) 0.9513507699 and gamma(1.4) 0.8872638175, Abramowitz and Stegun table 6.1.
    expect(gammaCdf(0.1, 1e-12) / (1e-12 ** 0.1 / 0.9513507699)).toBeCloseTo(1, 9);
    expect(gammaCdf(0.4, 1e-12) / (1e-12 ** 0.4 / 0.8872638175)).toBeCloseTo(1, 9);
  });

  const shape = fc.double({ min: 0.05, max: 400, noNaN: true });
  const share = fc.double({ min: 0.001, max: 0.999, noNaN: true });

  it('of a whole shape counts the events of a Poisson stream', () => {
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 40 }), fc.double({ min: 0.01, max: 80, noNaN: true }), (k, x) => {
        let [term, fewer] = [Math.exp(-x), 0];
        for (let i = 0; i < k; i++) {
          fewer += term;
          term *= x / (i + 1);
        }
        expect(gammaCdf(k, x)).toBeCloseTo(1 - fewer, 9);
      }),
    );
  });

  it('gives back the share that its value was asked for', () => {
    fc.assert(
      fc.property(shape, share, (a, p) => {
        expect(gammaCdf(a, gammaQuantile(a, p))).toBeCloseTo(p, 7);
      }),
    );
  });

  it('holds nothing below nought, all of it far out, and more with every step between', () => {
    fc.assert(
      fc.property(shape, share, (a, p) => {
        const x = gammaQuantile(a, p);
        expect(gammaCdf(a, 0)).toBe(0);
        expect(gammaCdf(a, -1)).toBe(0);
        expect(gammaCdf(a, 40 * (a + 10))).toBeCloseTo(1, 12);
        expect(gammaCdf(a, x * 1.01)).toBeGreaterThan(gammaCdf(a, x));
      }),
    );
  });

  it('is told of a shape and of a share inside their ends', () => {
    expect(() => gammaCdf(0, 1)).toThrow(/shape above 0, got 0/);
    expect(() => gammaCdf(Number.NaN, 1)).toThrow(RangeError);
    for (const none of [0, 1, -0.1, 1.1, Number.NaN])
      expect(() => gammaQuantile(2, none)).toThrow(/share between 0 and 1/);
  });
});
