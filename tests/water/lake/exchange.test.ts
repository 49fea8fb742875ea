/** The two lake models by themselves: what any column of fresh water does, held against closed forms. */
import { describe, expect, it } from 'vitest';
import { ExchangePair } from '../../../src/water/lake/exchange.ts';

const site = { latDeg: 40, meanDepthM: 10, areaKm2: 5 };
const under = (airC: number, more: Partial<Parameters<ExchangePair['step']>[0]> = {}) => ({
  airC,
  sun: 3,
  dryness: 0,
  windExcess: 0,
  ...more,
});
/** A lake with the layered model's surface and deep water as told. */
const layered = (surfaceC: number, deepC: number, meanDepthM = site.meanDepthM): ExchangePair => {
  const lake = new ExchangePair({ ...site, meanDepthM }, surfaceC);
  lake.deepC = deepC;
  return lake;
};
/** Air under which water of a temperature neither warms nor cools (bisection on the layered model's own step). */
function balancingAirC(waterC: number): number {
  let [low, high] = [-60, 90];
  for (let i = 0; i < 60; i++) {
    const middle = (low + high) / 2;
    const lake = layered(waterC, waterC);
    lake.step(under(middle));
    if (lake.surfaceC > waterC) high = middle;
    else low = middle;
  }
  return (low + high) / 2;
}

describe('a lake under weather that does not change', () => {
  it('comes to rest, and stands nine tenths of a kelvin higher under each kelvin of air', () => {
    const atRest = (airC: number): ExchangePair => {
      const lake = new ExchangePair(site, 12);
      for (let day = 0; day < 6000; day++) lake.step(under(airC));
      return lake;
    };
    const [cool, warm] = [atRest(14), atRest(15)];
    const before = [cool.warmthC, cool.surfaceC, cool.deepC];
    cool.step(under(14));
    [cool.warmthC, cool.surfaceC, cool.deepC].forEach((waterC, i) =>
      expect(waterC).toBeCloseTo(before[i]!, 4),
    );
    // Heat exchange that is linear in both: the ratio of the two answers, less than one since water also radiates.
    expect(warm.meanC - cool.meanC).toBeGreaterThan(0.85);
    expect(warm.meanC - cool.meanC).toBeLessThan(0.97);
    expect(cool.deepC).toBeCloseTo(cool.surfaceC, 2);
  });

  it('nears its rest by the rate it states: what is left after a day is e to the minus rate', () => {
    // In still cold weather the layer is the whole column and the step is linear: x' = x (1 - r / (1 + r / 2)).
    const rest = new ExchangePair(site, 3);
    for (let day = 0; day < 6000; day++) rest.step(under(0, { sun: 0.7 }));
    const lake = new ExchangePair(site, rest.warmthC + 1);
    lake.step(under(0, { sun: 0.7 }));
    expect(rest.warmthC).toBeLessThan(3);
    expect(lake.warmthC - rest.warmthC).toBeCloseTo(Math.exp(-lake.ratePerDay), 4);
    expect(lake.airGain / lake.ratePerDay).toBeCloseTo(warmthPerAir(), 2);
  });

  /** What a kelvin of air adds to the first model at rest, K. */
  function warmthPerAir(): number {
    const rest = (airC: number): number => {
      const lake = new ExchangePair(site, 12);
      for (let day = 0; day < 6000; day++) lake.step(under(airC));
      return lake.warmthC;
    };
    return rest(11) - rest(10);
  }

  it('of frost stops at 0 degC and of any heat at 45', () => {
    const end = (airC: number, sun: number): ExchangePair => {
      const lake = new ExchangePair(site, 10);
      for (let day = 0; day < 3000; day++) lake.step(under(airC, { sun }));
      return lake;
    };
    expect([end(-40, 0).warmthC, end(-40, 0).surfaceC]).toEqual([0, 0]);
    expect([end(90, 5).warmthC, end(90, 5).surfaceC]).toEqual([45, 45]);
  });
});

describe('the deep water', () => {
  it('lets a warm surface rise sooner than one column of the same warmth', () => {
    const rise = (deepC: number): number => {
      const lake = layered(20, deepC);
      lake.step(under(balancingAirC(20) + 10));
      return lake.surfaceC - 20;
    };
    expect(rise(6)).toBeGreaterThan(1.5 * rise(20));
    expect(rise(20)).toBeGreaterThan(0);
  });

  it('of summer is drawn towards the surface over more than a year, never away from it', () => {
    const lake = layered(20, 6);
    const air = under(balancingAirC(20));
    lake.step(air);
    const days = -1 / Math.log(1 - (lake.deepC - 6) / (lake.surfaceC - 6));
    expect(days).toBeGreaterThan(365);
    expect(days).toBeLessThan(730);
    expect(lake.surfaceC).toBeCloseTo(20, 6);
  });

  it('comes up in autumn: the cooled layer and what lies below mix to one, and no heat is lost in it', () => {
    for (const [surfaceC, deepC] of [
      [9, 11],
      [6, 6.5],
    ] as const) {
      // Air under which the surface itself would stay: what changes then is the mixing alone.
      const lake = layered(surfaceC, deepC);
      lake.step(under(balancingAirC(surfaceC)));
      expect(lake.surfaceC).toBe(lake.deepC);
      // The layer above water that is warmer is the whole column, so its own temperature is what stays.
      expect(lake.surfaceC).toBeCloseTo(surfaceC, 6);
    }
    // Deep water with a thin warm layer that the air cools below it: the mixture lies between the two, by their shares.
    const lake = layered(12, 11.9, 40);
    lake.step(under(balancingAirC(12) - 30));
    expect(lake.deepC).toBe(lake.surfaceC);
    expect(lake.surfaceC).toBeLessThan(11.9);
    expect(lake.surfaceC).toBeGreaterThan(10);
  });

  it('below 4 degC takes warmed water down until it is densest, and none of what is warmer', () => {
    const lake = layered(1, 2);
    lake.step(under(balancingAirC(3) + 5));
    expect(lake.surfaceC).toBeGreaterThan(1);
    const spring = layered(1, 2, 3);
    const air = under(balancingAirC(12) + 15);
    let before = spring.deepC;
    for (let day = 0; day < 12 && spring.surfaceC < 4; day++) {
      spring.step(air);
      expect(spring.deepC).toBeGreaterThanOrEqual(before);
      expect(spring.deepC).toBeLessThanOrEqual(4);
      before = spring.deepC;
    }
    expect(spring.surfaceC).toBeGreaterThan(4);
    expect(spring.deepC).toBeGreaterThan(2.3);
  });
});

describe('the first model', () => {
  it('answers wind and dry air as the exchange they are: dry air cools, wind carries off what water has above the air', () => {
    const day = (more: Parameters<typeof under>[1], waterC: number, airC: number): number => {
      const lake = new ExchangePair(site, waterC);
      lake.step(under(airC, more));
      return lake.warmthC;
    };
    expect(day({ dryness: 8 }, 15, 15)).toBeLessThan(day({}, 15, 15) - 0.02);
    expect(day({ windExcess: 1 }, 20, 10)).toBeLessThan(day({}, 20, 10) - 0.02);
    expect(day({ windExcess: 1 }, 10, 25)).toBeGreaterThan(day({}, 10, 25) + 0.02);
    const rate = (windExcess: number): number => {
      const lake = new ExchangePair(site, 15);
      lake.step(under(15, { windExcess }));
      return lake.ratePerDay;
    };
    expect(rate(1)).toBeGreaterThan(rate(0));
    expect(rate(-0.9)).toBeLessThan(rate(0));
    // However calm, a tenth of the exchange is left.
    expect(rate(-100)).toBeCloseTo(rate(-50), 12);
    expect(rate(-100)).toBeGreaterThan(0.05 * rate(0));
  });

  it('is slower in deep water while it is cold, as slow as the column: rate by depth to a power', () => {
    const rate = (meanDepthM: number, waterC: number, areaKm2 = 5): number => {
      const lake = new ExchangePair({ ...site, meanDepthM, areaKm2 }, waterC);
      lake.step(under(waterC));
      return lake.ratePerDay;
    };
    const byPower = Math.log(rate(4, 3) / rate(8, 3)) / Math.log(2);
    expect(Math.log(rate(8, 3) / rate(16, 3)) / Math.log(2)).toBeCloseTo(byPower, 9);
    expect(byPower).toBeGreaterThan(0.5);
    expect(byPower).toBeLessThan(1);
    // Warm, the layer thins, sooner over deep water and on small lakes that the wind stirs less.
    expect(rate(30, 14) / rate(30, 3)).toBeGreaterThan(rate(8, 14) / rate(8, 3));
    expect(rate(8, 14, 0.5)).toBeGreaterThan(rate(8, 14, 50));
    // No layer is thinner than the one that is always mixed, nor thicker than the water.
    expect(rate(30, 30)).toBeCloseTo(rate(30, 40), 9);
    expect(rate(1, 3)).toBeCloseTo(rate(1, 25), 9);
    // Depth and area beyond what the models know count as the nearest they do.
    expect(rate(400, 3)).toBe(rate(300, 3));
    expect(rate(0.1, 3)).toBe(rate(0.3, 3));
    expect(rate(8, 14, 1e6)).toBe(rate(8, 14, 1e5));
    expect(rate(8, 14, 1e-4)).toBe(rate(8, 14, 0.005));
  });
});
