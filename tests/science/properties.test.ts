import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  adjustCurveNumber,
  clearSkyWm2,
  dewPointC,
  hydrographShares,
  mixtureDensity,
  runoffMm,
  normalCdf,
  theilSen,
  waterDensity,
  wetBulbC,
  wilson,
} from '../../src/science/index.ts';

const real = (min: number, max: number): fc.Arbitrary<number> =>
  fc.double({ min, max, noNaN: true, noDefaultInfinity: true });
const air = real(-30, 45);
const humidity = real(1, 100);

describe('air', () => {
  it('dew point <= wet bulb <= air, from any weather a service can send', () => {
    fc.assert(
      fc.property(air, real(0, 100), (t, rh) => {
        const wet = wetBulbC(t, rh);
        expect(wet).toBeLessThanOrEqual(t);
        expect(wet).toBeGreaterThanOrEqual(dewPointC(t, rh) - 1e-9);
      }),
    );
  });

  it('moister air has a higher dew point', () => {
    fc.assert(
      fc.property(air, humidity, humidity, (t, a, b) => {
        fc.pre(Math.abs(a - b) > 1e-6);
        expect(dewPointC(t, Math.max(a, b))).toBeGreaterThan(dewPointC(t, Math.min(a, b)));
      }),
    );
  });

  it('refuses a humidity given as a share by mistake only when it is impossible, and any that is above 100', () => {
    expect(() => wetBulbC(10, 101)).toThrow(/rhPct must be between 0 and 100/);
    expect(() => wetBulbC(NaN, 50)).toThrow(RangeError);
  });
});

describe('water', () => {
  it('is lighter the farther from 4 degC, on either side', () => {
    fc.assert(
      fc.property(real(4, 40), real(0, 3.9), real(0.01, 0.1), (warm, cold, step) => {
        fc.pre(warm + step <= 40 && cold - step >= 0);
        expect(waterDensity(warm + step)).toBeLessThan(waterDensity(warm));
        expect(waterDensity(cold - step)).toBeLessThan(waterDensity(cold));
      }),
    );
  });

  it('is heavier with more sediment, so a plunge that happens does not stop', () => {
    fc.assert(
      fc.property(real(0, 30), real(0, 5000), real(1, 5000), (t, load, more) => {
        expect(mixtureDensity(t, load + more)).toBeGreaterThan(mixtureDensity(t, load));
      }),
    );
  });
});

describe('runoff', () => {
  it('is never more than the rain, and grows with rain and curve number', () => {
    fc.assert(
      fc.property(real(0, 300), real(0, 50), real(30, 98), real(0, 2), (rain, more, cn, wetter) => {
        const run = runoffMm(rain, cn);
        expect(run).toBeGreaterThanOrEqual(0);
        expect(run).toBeLessThanOrEqual(rain);
        expect(runoffMm(rain + more, cn)).toBeGreaterThanOrEqual(run - 1e-9);
        expect(runoffMm(rain, cn + wetter)).toBeGreaterThanOrEqual(run - 1e-9);
      }),
    );
  });

  it('a wet watershed never sheds less than a dry one', () => {
    fc.assert(
      fc.property(real(1, 100), (cn) => {
        expect(adjustCurveNumber(cn, 'dry')).toBeLessThanOrEqual(cn);
        expect(adjustCurveNumber(cn, 'wet')).toBeGreaterThanOrEqual(cn);
      }),
    );
  });

  it('all of a pulse arrives, whatever the step', () => {
    fc.assert(
      fc.property(real(0.1, 20), real(0.05, 6), (peak, step) => {
        const shares = hydrographShares(peak, step);
        expect(shares.every((s) => s >= -1e-12)).toBe(true);
        expect(Math.abs(shares.reduce((a, b) => a + b, 0) - 1)).toBeLessThan(1e-12);
      }),
    );
  });
});

describe('light', () => {
  it('a higher sun is brighter', () => {
    fc.assert(
      fc.property(real(1, 89), real(0.1, 1), (h, up) => {
        expect(clearSkyWm2(h + up)).toBeGreaterThan(clearSkyWm2(h));
      }),
    );
  });
});

describe('trend', () => {
  const values = fc.array(real(-20, 40), { minLength: 5, maxLength: 20 });

  it('turns with the sign of the series, and ignores a constant', () => {
    fc.assert(
      fc.property(values, real(-10, 10), (ys, shift) => {
        const xs = ys.map((_, i) => i);
        expect(
          theilSen(
            xs,
            ys.map((y) => y + shift),
          ).slope,
        ).toBeCloseTo(theilSen(xs, ys).slope, 8);
      }),
    );
  });

  it('holds its slope between its bounds, and one wild value does not take it out of the others’ range', () => {
    fc.assert(
      fc.property(real(-1, 1), fc.integer({ min: 0, max: 9 }), real(-100, 100), (slope, at, wild) => {
        const xs = Array.from({ length: 10 }, (_, i) => i);
        const ys = xs.map((x) => slope * x);
        ys[at] = wild;
        const got = theilSen(xs, ys);
        expect(got.slope).toBeCloseTo(slope, 6);
        expect(got.low).toBeLessThanOrEqual(got.slope + 1e-12);
        expect(got.high).toBeGreaterThanOrEqual(got.slope - 1e-12);
      }),
    );
  });
});

describe('the interval of a proportion', () => {
  const counts = fc
    .integer({ min: 1, max: 400 })
    .chain((n) => fc.tuple(fc.integer({ min: 0, max: n }), fc.constant(n)));

  it('holds the share itself, stays between 0 and 1, and mirrors misses', () => {
    fc.assert(
      fc.property(counts, ([hits, n]) => {
        const [low, high] = wilson(hits, n);
        expect(low).toBeGreaterThanOrEqual(0);
        expect(high).toBeLessThanOrEqual(1);
        expect(low).toBeLessThanOrEqual(hits / n + 1e-12);
        expect(high).toBeGreaterThanOrEqual(hits / n - 1e-12);
        const [missLow, missHigh] = wilson(n - hits, n);
        expect(1 - missHigh).toBeCloseTo(low, 12);
        expect(1 - missLow).toBeCloseTo(high, 12);
      }),
    );
  });

  it('is narrower for the same share of twice as many cases', () => {
    fc.assert(
      fc.property(counts, ([hits, n]) => {
        const [low, high] = wilson(hits, n);
        const [low2, high2] = wilson(2 * hits, 2 * n);
        expect(high2 - low2).toBeLessThan(high - low);
      }),
    );
  });

  it('ends where a share would just be rejected at 90 %', () => {
    // The ends are where the test of that share just stands at the standard score of 90 %: |share - p| = z sqrt(p (1 - p) / n).
    const z = 1.644853627;
    for (const end of wilson(18, 22)) {
      expect(Math.abs(18 / 22 - end)).toBeCloseTo(z * Math.sqrt((end * (1 - end)) / 22), 9);
    }
    expect(normalCdf(z) - normalCdf(-z)).toBeCloseTo(0.9, 8);
  });

  it('refuses no cases and more hits than cases', () => {
    expect(() => wilson(0, 0)).toThrow(/1 case or more/);
    expect(() => wilson(3, 2)).toThrow(RangeError);
  });
});
