import { describe, expect, it } from 'vitest';
import { judgeThermometer, nowcastLake } from '../../../src/water/lake/index.ts';
import { dateAfter, gaugeReading, inventedWeather } from './invented-weather.ts';

const site = { latDeg: 36, meanDepthM: 8, areaKm2: 5 };
const START = '2020-01-01';
const weather = inventedWeather(START, 600);
const free = nowcastLake(site, weather, []).days;
const on = (i: number): string => dateAfter(START, i);

describe('readings given to the nowcast', () => {
  it('refuses what cannot be lake water and says so', () => {
    const { days, refused } = nowcastLake(site, weather, [gaugeReading(on(500), 52)]);
    expect(refused).toHaveLength(1);
    expect(refused[0]!.reason).toMatch(/unit/);
    expect(days).toEqual(free);
  });

  it('refuses a reading without weather for its day', () => {
    expect(nowcastLake(site, weather, [gaugeReading('2019-06-01', 20)]).refused[0]!.reason).toMatch(
      /no weather/,
    );
  });

  it('leaves out one wild reading, but believes a second that agrees with it', () => {
    const good = [300, 307, 314, 321, 328].map((i) => gaugeReading(on(i), free[i]!.waterC));
    const wild = gaugeReading(on(335), free[335]!.waterC + 9);
    const without = nowcastLake(site, weather, good).days;
    const one = nowcastLake(site, weather, [...good, wild]);
    expect(one.refused.map((r) => r.reading)).toEqual([wild]);
    expect(one.days[336]!.waterC).toBe(without[336]!.waterC);
    const two = nowcastLake(site, weather, [...good, wild, gaugeReading(on(337), free[337]!.waterC + 9)]);
    expect(two.days[337]!.waterC).toBeGreaterThan(without[337]!.waterC + 1);
  });

  it('refuses a thermometer that repeats itself while the lake moves', () => {
    const stuck = Array.from({ length: 40 }, (_, i) => gaugeReading(on(450 + i), free[450]!.waterC));
    const { refused } = nowcastLake(site, weather, stuck);
    expect(refused.some((r) => /stuck/.test(r.reason))).toBe(true);
  });

  it('takes the afternoon excess off a shallow reading, but not off one at 1 m', () => {
    const estimate = (hour: number, depthM: number): number =>
      nowcastLake(site, weather, [gaugeReading(on(500), free[500]!.waterC, { hour, depthM })]).days[500]!
        .waterC;
    expect(estimate(17.5, 0.2)).toBeLessThan(estimate(5.5, 0.2) - 0.5);
    expect(estimate(17.5, 1)).toBe(estimate(5.5, 1));
  });

  it('uses the reading nearest to 1 m of several depths, and none from below the warm layer', () => {
    const summer = free.findIndex((d) => d.date === '2021-07-10');
    const profile = [1, 3, 6].map((depthM, i) =>
      gaugeReading(on(summer), free[summer]!.waterC - 4 * i, { depthM }),
    );
    const { days, refused } = nowcastLake(site, weather, profile);
    expect(Math.abs(days[summer]!.waterC - free[summer]!.waterC)).toBeLessThan(0.2);
    expect(refused.map((r) => r.reading.depthM)).toEqual([6]);
  });
});

// In water 0.4 to 3 K a day, dry 11 to 17 K: ranges seen in reservoir sensors (project measurement notes).
describe('judging a thermometer by its own hours', () => {
  const hours = (count: number, waterC: (h: number) => number, airC?: (h: number) => number) =>
    Array.from({ length: count }, (_, h) => ({
      atMs: h * 3_600_000,
      waterC: waterC(h),
      ...(airC !== undefined && { airC: airC(h) }),
    }));
  const daily = (h: number, half: number): number => half * Math.sin((2 * Math.PI * h) / 24);

  it('accepts one that swings like water', () => {
    expect(judgeThermometer(hours(72, (h) => 9 + daily(h, 1)))).toEqual({ ok: true });
  });

  it.each([
    ['swings like air', hours(48, (h) => 6 + daily(h, 6)), /out of the water/],
    [
      'follows the air',
      hours(
        48,
        (h) => 6 + daily(h, 3),
        (h) => 6.3 + daily(h, 3),
      ),
      /out of the water/,
    ],
    [
      'never moves',
      hours(
        96,
        () => 9.1,
        (h) => 8 + daily(h, 6),
      ),
      /stuck/,
    ],
    ['reads Fahrenheit', hours(48, (h) => 52 + daily(h, 1)), /unit/],
    ['is silent', [], /no values/],
  ] as const)('refuses one that %s', (_, values, reason) => {
    const verdict = judgeThermometer(values);
    expect(verdict.ok).toBe(false);
    expect(verdict.ok ? '' : verdict.reason).toMatch(reason);
  });
});
