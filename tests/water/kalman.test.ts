import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { Kalman } from '../../src/water/kalman.ts';

describe('a filter of one state', () => {
  // Closed form: a value with prior variance P seen n times with noise variance R has variance PR / (R + nP).
  it('weighs what it knew against what it sees, by variance', () => {
    const filter = new Kalman([2]);
    for (const seen of [3, 3, 3]) filter.update(seen - filter.expected, 1);
    expect(filter.variance).toBeCloseTo(4 / (1 + 3 * 4), 12);
    expect(filter.expected).toBeCloseTo((3 * 3 * 4) / (1 + 3 * 4), 12);
  });

  it('goes back to the prior when it has forgotten all', () => {
    const filter = new Kalman([2]);
    filter.update(5, 1);
    filter.fade(0, 0, 4);
    expect([filter.expected, filter.variance]).toEqual([0, 4]);
  });
});

describe('a number kept while the state moves on', () => {
  // A state that forgets to a share a between two looks, prior variance 1, noise R at the second look only: by the
  // normal equations the first value given what was seen at the second is a y / (1 + R), its variance 1 - a^2 / (1 + R).
  it('is corrected by what is seen later, by what they share', () => {
    const keep = 0.6;
    const noise = 0.5;
    const filter = new Kalman([1], 1);
    filter.remember(0);
    filter.fade(0, keep, 1 - keep ** 2);
    filter.update(2 - filter.expected, noise);
    expect(filter.remembered(0).value).toBeCloseTo((keep * 2) / (1 + noise), 12);
    expect(filter.remembered(0).variance).toBeCloseTo(1 - keep ** 2 / (1 + noise), 12);
    // What is kept does not count in what is expected now.
    expect(filter.expected).toBeCloseTo(2 / (1 + noise), 12);
  });

  it('stays what is thought now of a state that does not change', () => {
    const filter = new Kalman([1, 2], 2);
    filter.remember(1);
    filter.update(3, 1);
    expect(filter.remembered(1).value).toBeCloseTo(filter.expected, 12);
    expect(filter.remembered(1).variance).toBeCloseTo(filter.variance, 12);
  });
});

describe('a number of several states, kept and corrected twice', () => {
  // The same by the normal equations (any textbook): given two numbers seen, the kept one is C S^-1 y, its variance
  // v - C S^-1 C', with C what it shares with them and S their own variance, noise included.
  it('is what the normal equations say of all at once', () => {
    const weight = fc.double({ min: 0.2, max: 2, noNaN: true });
    fc.assert(
      fc.property(
        fc.tuple(weight, weight, weight, weight, weight, weight),
        fc.double({ min: 0.1, max: 0.95, noNaN: true }),
        fc.tuple(fc.double({ min: -3, max: 3, noNaN: true }), fc.double({ min: -3, max: 3, noNaN: true })),
        ([a, b, c, d, e, f], keep, [first, second]) => {
          const [P, Q, added, noise] = [1.5 ** 2, 0.7 ** 2, 0.4, 0.3];
          const filter = new Kalman([1.5, 0.7], 3);
          filter.weights.set([a, b]);
          filter.remember(2);
          filter.fade(0, keep, added);
          filter.weights.set([c, d]);
          filter.update(first - filter.expected, noise);
          filter.loosen(1, added);
          filter.weights.set([e, f]);
          filter.update(second - filter.expected, noise);

          const faded = keep ** 2 * P + added;
          const C = [a * c * keep * P + b * d * Q, a * e * keep * P + b * f * Q] as const;
          const S = [
            c * c * faded + d * d * Q + noise,
            c * e * faded + d * f * Q,
            e * e * faded + f * f * (Q + added) + noise,
          ] as const;
          const determinant = S[0] * S[2] - S[1] ** 2;
          const gains = [
            (C[0] * S[2] - C[1] * S[1]) / determinant,
            (C[1] * S[0] - C[0] * S[1]) / determinant,
          ] as const;
          const kept = filter.remembered(2);
          expect(kept.value).toBeCloseTo(gains[0] * first + gains[1] * second, 9);
          expect(kept.variance).toBeCloseTo(a * a * P + b * b * Q - gains[0] * C[0] - gains[1] * C[1], 9);
        },
      ),
    );
  });
});

describe('a filter of several states', () => {
  const numbers = fc.array(fc.double({ min: -10, max: 10, noNaN: true }), { minLength: 3, maxLength: 3 });

  it('never grows less sure of anything by seeing a number', () => {
    fc.assert(
      fc.property(fc.array(numbers, { minLength: 1, maxLength: 12 }), (days) => {
        const filter = new Kalman([1, 2, 3]);
        for (const weights of days) {
          const before = [0, 1, 2].map((state) => filter.varianceOf(state));
          filter.weights.set(weights);
          filter.update(1, 0.5);
          before.forEach((variance, state) => {
            expect(filter.varianceOf(state)).toBeLessThanOrEqual(variance + 1e-9);
            expect(filter.varianceOf(state)).toBeGreaterThan(-1e-9);
          });
        }
      }),
    );
  });

  it('comes to the same whether two numbers are seen in one order or the other', () => {
    fc.assert(
      fc.property(numbers, numbers, (one, other) => {
        const see = (order: readonly (readonly number[])[]): number => {
          const filter = new Kalman([1, 2, 3]);
          for (const weights of order) {
            filter.weights.set(weights);
            filter.update((weights[0] ?? 0) - filter.expected, 1);
          }
          filter.weights.fill(1);
          return filter.expected;
        };
        expect(see([one, other])).toBeCloseTo(see([other, one]), 6);
      }),
    );
  });

  it('is its copy', () => {
    const filter = new Kalman([1, 2]);
    filter.weights.set([1, -1]);
    filter.update(2, 1);
    const twin = new Kalman([5, 5]);
    twin.copyFrom(filter);
    expect([twin.expected, twin.variance]).toEqual([filter.expected, filter.variance]);
    filter.update(2, 1);
    expect(twin.expected).not.toBe(filter.expected);
  });
});
