import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { fetchWaves } from '../../src/science/waves.ts';

describe('waves on a limited fetch', () => {
  // Computed by hand from the equations of EM 1110-2-1100 II-2; no published small-lake example was found.
  it.each([
    [5, 1000, 0.1785, 0.0744, 0.8],
    [8, 2000, 0.2972, 0.1753, 1.194],
    [10, 3000, 0.3808, 0.275, 1.485],
    [10, 5000, 0.3808, 0.355, 1.761],
    [15, 8000, 0.6047, 0.7131, 2.402],
  ])(
    '%d m/s over %d m: friction velocity %d, height %d, period %d',
    (wind, fetch, friction, height, period) => {
      const waves = fetchWaves(wind, fetch);
      expect(waves.frictionMs).toBeCloseTo(friction, 3);
      expect(waves.heightM).toBeCloseTo(height, 3);
      expect(waves.periodS).toBeCloseTo(period, 2);
    },
  );

  // EM 1110-2-1100, part II chapter 2, equation II-2-37, as printed at
  // https://coastalengineeringmanual.tpub.com/Part-II-Chap2/Part-II-Chap20050.htm: g H / u*^2 is 2.115e2 and g T / u* is
  // 2.398e2 where the sea is fully grown. The manual's nomograms are drawn from these equations; no value read off one of
  // them was found in print, so that the rows above stay what they are: computed by hand, the growth law from memory.
  it.each([5, 10, 20])('of %d m/s over an ocean reach the published limits and grow no more', (wind) => {
    const { frictionMs, heightM, periodS } = fetchWaves(wind, 1e9);
    expect((9.81 * heightM) / frictionMs ** 2).toBeCloseTo(211.5, 6);
    expect((9.81 * periodS) / frictionMs).toBeCloseTo(239.8, 6);
    expect(fetchWaves(wind, 2e9)).toEqual({ frictionMs, heightM, periodS });
  });

  // Shore Protection Manual (1984), deep water, from memory: other methods differ by 20 to 45 %.
  it.each([
    [5, 1000, 0.083],
    [8, 2000, 0.2093],
    [10, 3000, 0.3374],
    [15, 8000, 0.9072],
  ])('%d m/s over %d m lies within 45 % of an older method', (wind, fetch, other) => {
    expect(fetchWaves(wind, fetch).heightM / other).toBeGreaterThan(1 / 1.45);
    expect(fetchWaves(wind, fetch).heightM / other).toBeLessThan(1.45);
  });

  it('are none without wind or without open water', () => {
    expect(fetchWaves(0, 5000).heightM).toBe(0);
    expect(fetchWaves(10, 0).heightM).toBe(0);
  });

  it('are held down by shallow water', () => {
    const shallow = fetchWaves(15, 8000, 0.4);
    expect(shallow.periodS).toBeCloseTo(9.78 * Math.sqrt(0.4 / 9.81), 6);
    expect(shallow.heightM).toBeLessThan(fetchWaves(15, 8000).heightM);
    expect(fetchWaves(5, 1000, 10)).toEqual(fetchWaves(5, 1000));
  });

  it('refuse a depth of nothing', () => {
    expect(() => fetchWaves(5, 1000, 0)).toThrow(RangeError);
  });

  it('grow with wind and with fetch', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 0.5, max: 30, noNaN: true }),
        fc.double({ min: 10, max: 50_000, noNaN: true }),
        (wind, fetch) => {
          const here = fetchWaves(wind, fetch).heightM;
          expect(fetchWaves(wind * 1.1, fetch).heightM).toBeGreaterThan(here);
          expect(fetchWaves(wind, fetch * 1.1).heightM).toBeGreaterThanOrEqual(here);
        },
      ),
    );
  });
});
