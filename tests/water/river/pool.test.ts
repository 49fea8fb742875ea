import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { nowcastLake } from '../../../src/water/lake/index.ts';
import { nowcastPool, nowcastRiver } from '../../../src/water/river/index.ts';
import { dateAfter, gaugeReading, inventedWeather } from '../lake/inventedWeather.ts';

const START = '2020-01-01';
const weather = inventedWeather(START, 400);
const readings = [gaugeReading(dateAfter(START, 150), 16)];
const lake = nowcastLake({ latDeg: 36, meanDepthM: 5, areaKm2: 3 }, weather, readings).days;
const river = nowcastRiver('regulated', weather, readings).days;

describe('run-of-river pool', () => {
  it('is the lake when the water stays and the river when it runs through, interval and all', () => {
    const still = nowcastPool(lake, river, Infinity);
    const moving = nowcastPool(lake, river, 1e-9);
    for (const i of [10, 150, 300]) {
      expect(still[i]!.waterC).toBeCloseTo(lake[i]!.waterC, 9);
      expect(still[i]!.highC).toBeCloseTo(lake[i]!.highC, 9);
      expect(moving[i]!.waterC).toBeCloseTo(river[i]!.waterC, 6);
      expect(moving[i]!.highC).toBeCloseTo(river[i]!.highC, 6);
    }
  });

  it('lies between the two and nears the lake as the water stays longer', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 0.01, max: 500, noNaN: true }),
        fc.nat(399),
        fc.double({ min: 1.1, max: 20, noNaN: true }),
        (residenceDays, i, longer) => {
          const pool = nowcastPool(lake, river, residenceDays)[i]!;
          const slower = nowcastPool(lake, river, residenceDays * longer)[i]!;
          const [low, high] = [lake[i]!.waterC, river[i]!.waterC].sort((a, b) => a - b) as [number, number];
          expect(pool.waterC).toBeGreaterThanOrEqual(low - 1e-9);
          expect(pool.waterC).toBeLessThanOrEqual(high + 1e-9);
          expect(Math.abs(slower.waterC - lake[i]!.waterC)).toBeLessThanOrEqual(
            Math.abs(pool.waterC - lake[i]!.waterC) + 1e-9,
          );
        },
      ),
      { numRuns: 60 },
    );
  });

  it('is never surer than the mix of its two parts', () => {
    fc.assert(
      fc.property(fc.double({ min: 0.01, max: 500, noNaN: true }), fc.nat(399), (residenceDays, i) => {
        const pool = nowcastPool(lake, river, residenceDays)[i]!;
        const surest = Math.min(lake[i]!.highC - lake[i]!.waterC, river[i]!.highC - river[i]!.waterC);
        expect(pool.highC - pool.waterC).toBeGreaterThanOrEqual(surest - 1e-9);
      }),
      { numRuns: 60 },
    );
  });

  it('has the days both parts have and wants a residence time above 0', () => {
    expect(nowcastPool(lake.slice(5), river.slice(0, 50), 10)).toHaveLength(45);
    expect(() => nowcastPool(lake, river, 0)).toThrow(RangeError);
  });
});
