import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { nowcastPool, nowcastRiver, stepStream, type RiverKind } from '../../../src/water/river/index.ts';
import { nowcastLake } from '../../../src/water/lake/index.ts';
import { dateAfter, gaugeReading, inventedWeather } from '../lake/invented-weather.ts';

const START = '2020-01-01';
const weather = inventedWeather(START, 400);

describe('stream equation', () => {
  // Analytic solution of linear relaxation dT/dt = r (E - T): T = E + (T0 - E) exp(-r t).
  it('relaxes to the air exactly as the linear equation says', () => {
    const parameters = { a: [0, 0.3, 0.3, 0, 0, 0, 0, 0] } as const;
    let waterC = 4;
    for (let day = 0; day < 10; day++) waterC = stepStream(parameters, waterC, 20, 1, 100);
    expect(waterC).toBeCloseTo(20 + (4 - 20) * Math.exp(-3), 10);
  });

  it('is warmer under warmer air and never freezes below 0', () => {
    const parameters = { a: [0.5, 0.4, 0.45, 0.1, 0.9, 0.6, 0.6, 0.1] } as const;
    fc.assert(
      fc.property(
        fc.double({ min: -30, max: 40, noNaN: true }),
        fc.double({ min: 0.01, max: 30, noNaN: true }),
        fc.integer({ min: 1, max: 366 }),
        (airC, flow, doy) => {
          const a = stepStream(parameters, 8, airC, flow, doy);
          expect(a).toBeGreaterThanOrEqual(0);
          expect(stepStream(parameters, 8, airC + 1, flow, doy)).toBeGreaterThanOrEqual(a);
        },
      ),
    );
  });
});

describe('nowcast of a river', () => {
  const free = nowcastRiver('lowland', weather, []).days;

  it('moves to a reading and forgets most of it within two weeks', () => {
    const { days } = nowcastRiver('lowland', weather, [
      gaugeReading(dateAfter(START, 200), free[200]!.waterC + 2),
    ]);
    const moved = (i: number): number => days[i]!.waterC - free[i]!.waterC;
    expect(moved(199)).toBe(0);
    expect(moved(200)).toBeGreaterThan(1.5);
    expect(moved(214)).toBeLessThan(moved(200));
    expect(days[201]!.readingAgeDays).toBe(1);
    expect(days[200]!.highC - days[200]!.waterC).toBeLessThan(free[200]!.highC - free[200]!.waterC);
  });

  it('is steadier below a dam than in the lowland', () => {
    const swing = (kind: RiverKind): number => {
      const values = nowcastRiver(kind, weather, []).days.map((d) => d.waterC);
      return Math.max(...values) - Math.min(...values);
    };
    expect(swing('snow-fed')).toBeLessThan(swing('lowland') / 2);
    expect(swing('regulated')).toBeLessThan(0.8 * swing('lowland'));
  });

  it('wants the weather in order', () => {
    expect(() => nowcastRiver('lowland', [weather[1]!, weather[0]!], [])).toThrow(/order/);
  });
});

describe('run-of-river pool', () => {
  const lake = nowcastLake({ latDeg: 36, meanDepthM: 5, areaKm2: 3 }, weather, []).days;
  const river = nowcastRiver('regulated', weather, []).days;

  it('is the river when the water runs through and the lake when it stays', () => {
    expect(nowcastPool(lake, river, Infinity)[300]!.waterC).toBeCloseTo(lake[300]!.waterC, 9);
    expect(nowcastPool(lake, river, 1e-9)[300]!.waterC).toBeCloseTo(river[300]!.waterC, 6);
    const between = nowcastPool(lake, river, 10)[200]!;
    expect(between.waterC).toBeCloseTo((lake[200]!.waterC + river[200]!.waterC) / 2, 9);
    expect(() => nowcastPool(lake, river, 0)).toThrow(RangeError);
  });
});
