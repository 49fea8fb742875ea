/** What readings teach a water and how long it lasts: truths that hold whatever the constants of the filters are. */
import { describe, expect, it } from 'vitest';
import {
  nowcastLake,
  type LakeDay,
  type LakeNowcast,
  type NowcastOptions,
  type WaterReading,
} from '../../../src/water/lake/index.ts';
import { nowcastRiver } from '../../../src/water/river/index.ts';
import { dateAfter, gaugeReading, inventedWeather } from './inventedWeather.ts';

const START = '2020-01-01';
const DAYS = 480;
const weather = inventedWeather(START, DAYS);
const site = { latDeg: 36, meanDepthM: 8, areaKm2: 5 };
const on = (i: number): string => dateAfter(START, i);
const waters: Record<
  'lake' | 'river',
  (readings: readonly WaterReading[], options?: NowcastOptions) => LakeNowcast
> = {
  lake: (readings, options) => nowcastLake(site, weather, readings, options),
  river: (readings, options) => nowcastRiver('lowland', weather, readings, options),
};
const half = ({ highC, waterC }: LakeDay): number => highC - waterC;

describe.each(['lake', 'river'] as const)('readings of a %s', (kind) => {
  const nowcast = waters[kind];
  const free = nowcast([]).days;
  const weekly = Array.from({ length: 30 }, (_, i) =>
    gaugeReading(on(200 + 7 * i), free[200 + 7 * i]!.waterC + 1 + 0.5 * Math.sin(i)),
  );

  it('that come days late are readings that are not there yet: the same day without them is the same', () => {
    const readingLagDays = 3;
    const late = nowcast(weekly, { readingLagDays }).days;
    for (const j of [260, 410]) {
      const arrived = weekly.filter(({ date }) => date <= on(j - readingLagDays));
      const plain = nowcast(arrived).days[j]!;
      expect(late[j]!.waterC).toBeCloseTo(plain.waterC, 9);
      expect(half(late[j]!)).toBeCloseTo(half(plain), 9);
      expect(late[j]!.readingAgeDays).toBe(plain.readingAgeDays);
    }
  });

  it('are forgotten without a leap: neither the estimate nor its interval jumps on a day without one', () => {
    const days = nowcast(weekly.slice(0, 12)).days;
    for (let j = 280; j < DAYS; j++) {
      const misfit = (i: number): number => days[i]!.waterC - days[i]!.freeC;
      expect(Math.abs(misfit(j) - misfit(j - 1))).toBeLessThan(0.6);
      expect(half(days[j]!) / half(days[j - 1]!)).toBeLessThan(1.4);
      expect(half(days[j]!) / half(days[j - 1]!)).toBeGreaterThan(0.75);
    }
  });

  it('that all stand a kelvin above teach it that it is so, for the months after the last of them', () => {
    const days = nowcast(
      Array.from({ length: 100 }, (_, i) => gaugeReading(on(200 + i), free[200 + i]!.waterC + 1)),
    ).days;
    for (const later of [330, 380]) {
      expect(days[later]!.waterC - free[later]!.waterC).toBeGreaterThan(0.4);
      expect(days[later]!.waterC - free[later]!.waterC).toBeLessThan(1.6);
    }
    expect(days[199]!.waterC).toBe(free[199]!.waterC);
  });

  it('by a quiet thermometer that agrees leave the interval narrow, by a restless one that does not, wide', () => {
    const after = (sizeC: number): number => {
      const readings = Array.from({ length: 120 }, (_, i) =>
        gaugeReading(on(250 + i), free[250 + i]!.waterC + sizeC * (i % 2 === 0 ? 1 : -1)),
      );
      return half(nowcast(readings).days[371]!);
    };
    expect(after(0.02)).toBeLessThan(after(0.5));
    // Never narrower than what a perfect reading of the spot still is about the day and the reach: a tenth of a kelvin.
    expect(after(0.02)).toBeGreaterThan(1.2816 * (kind === 'river' ? 0.1 : 0.08));
    expect(after(0.5)).toBeLessThan(after(1.5));
  });
});

describe('a lake under ice', () => {
  it('does not follow the air, whatever summer taught of how it does', () => {
    const lat = { ...site, latDeg: 52 };
    const north = inventedWeather(START, 430).map((day) => ({ ...day, airC: day.airC! - 16 }));
    const free = nowcastLake(lat, north, []).days;
    const jump = (i: number): number =>
      north[i]!.airC - (north[i - 1]!.airC + north[i - 2]!.airC + north[i]!.airC) / 3;
    const readings = Array.from({ length: 120 }, (_, i) =>
      gaugeReading(on(160 + i), Math.max(0, free[160 + i]!.freeC + 0.8 * jump(160 + i))),
    );
    const { days } = nowcastLake(lat, north, readings);
    const moves = (from: number, to: number): number =>
      Math.max(
        ...days.slice(from, to).map((day, i) => {
          const before = days[from + i - 1]!;
          return Math.abs(day.waterC - day.freeC - (before.waterC - before.freeC));
        }),
      );
    const frozen = free.findIndex(({ waterC }, i) => i > 330 && waterC < 0.01);
    expect(frozen).toBeGreaterThan(330);
    expect(frozen).toBeLessThan(390);
    // In open water the lesson shows in every change of the air, a week after the last reading.
    expect(moves(282, 300)).toBeGreaterThan(0.2);
    expect(moves(390, 420)).toBeLessThan(0.1);
  });
});
