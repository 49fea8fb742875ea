import { describe, expect, it } from 'vitest';
import { fixtureLakes, readingsEvery, type ObservedLake } from '../../../bench/lake-data.ts';
import { nowcastLake, type WaterReading } from '../../../src/water/lake/index.ts';

// Observed lakes: fixtures/water/lake/README.md (CC BY-SA 3.0). The dates are moved by the test.
const slawskie = since(fixtureLakes()[0]!, '1995-01-01');
const daily = readingsEvery(slawskie, 1);

function since(lake: ObservedLake, date: string): ObservedLake {
  return { ...lake, weather: lake.weather.filter((day) => day.date >= date && day.date < '2004') };
}

function moved(readings: readonly WaterReading[], days: number): WaterReading[] {
  return readings.map((reading) => ({
    ...reading,
    date: new Date(Date.parse(reading.date) + days * 86_400_000).toISOString().slice(0, 10),
  }));
}

function run(readings: readonly WaterReading[]): { codes: string[]; rmseC: number } {
  const inside = readings.filter((r) => r.date >= '1995-01-01' && r.date < '2004');
  const { days, refused } = nowcastLake(slawskie.site, slawskie.weather, inside, { readingLagDays: 1 });
  const misses = days
    .filter((day) => day.date >= '2000-01-01' && slawskie.water.has(day.date))
    .map((day) => (day.waterC - slawskie.water.get(day.date)!) ** 2);
  return {
    codes: refused.map(({ reason }) => reason.code),
    rmseC: Math.sqrt(misses.reduce((sum, miss) => sum + miss, 0) / misses.length),
  };
}

describe('a daily thermometer whose dates are off', () => {
  it('is left alone while its dates are right', () => {
    expect(run(daily).codes.filter((code) => code.startsWith('dated'))).toEqual([]);
  });

  it('is named when it is stamped a day late, and its readings count for the day before', () => {
    const late = run(moved(daily, 1));
    expect(late.codes).toContain('datedLate');
    // Without the dates put right the same readings give 0.647 K on these years.
    expect(late.rmseC).toBeLessThan(0.63);
    expect(late.rmseC).toBeGreaterThan(run(daily).rmseC);
  });

  it('is named when it is stamped a day early', () => {
    expect(run(moved(daily, -1)).codes).toContain('datedEarly');
  });

  it('is not judged on readings that are not daily', () => {
    const weekly = daily.filter((_, i) => i % 7 === 0);
    expect(run(moved(weekly, 1)).codes.filter((code) => code.startsWith('dated'))).toEqual([]);
  });
});
