import { describe, expect, it } from 'vitest';
import { nowcastLake, type WaterReading } from '../../../src/water/lake/index.ts';
import { dateAfter, gaugeReading, inventedWeather } from './inventedWeather.ts';

const site = { latDeg: 36, meanDepthM: 8, areaKm2: 5 };
const START = '2020-01-01';
const weather = inventedWeather(START, 600);
const free = nowcastLake(site, weather, []).days;
const on = (i: number): string => dateAfter(START, i);

describe('readings given to the nowcast', () => {
  it('refuses what cannot be lake water and says so', () => {
    const { days, refused } = nowcastLake(site, weather, [gaugeReading(on(500), 52)]);
    expect(refused).toHaveLength(1);
    expect(refused[0]!.reason).toEqual({ code: 'notWater', waterC: 52, water: 'lake' });
    expect(days).toEqual(free);
  });

  it('refuses a reading without weather for its day', () => {
    const { refused } = nowcastLake(site, weather, [gaugeReading('2019-06-01', 20)]);
    expect(refused[0]!.reason).toEqual({ code: 'noWeatherThatDay' });
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
    expect(refused.some((r) => r.reason.code === 'stuck')).toBe(true);
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
describe('a logger that writes several values a day', () => {
  const day = (half: number): WaterReading[] =>
    [2, 6, 10, 14, 18, 22].map((hour) =>
      gaugeReading(on(500), free[500]!.waterC + half * Math.sin((2 * Math.PI * (hour - 9)) / 24), {
        hour,
        source: 'logger',
      }),
    );

  it('counts as one daily value while it swings like water', () => {
    const { days, refused } = nowcastLake(site, weather, day(1.2));
    expect(refused).toEqual([]);
    expect(days[500]!.readingAgeDays).toBe(0);
  });

  it('is refused for the day on which it swings like air', () => {
    const { days, refused } = nowcastLake(site, weather, day(5));
    expect(refused.map(({ reason }) => reason)).toEqual([
      // Twice the half swing, at the hours nearest to its ends: 02:00 and 14:00 lie an hour from them.
      { code: 'swingsLikeAir', rangeC: expect.closeTo(10 * Math.cos(Math.PI / 12), 6) as number },
    ]);
    expect(days[500]!.readingAgeDays).toBeNull();
  });
});
