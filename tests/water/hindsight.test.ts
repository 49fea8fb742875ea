import { describe, expect, it } from 'vitest';
import { fixtureLakes, readingsEvery } from '../../bench/lake-data.ts';
import { nowcastLake, waterChange, type WeatherDay } from '../../src/water/lake/index.ts';
import { nowcastRiver } from '../../src/water/river/index.ts';
import { dateAfter, gaugeReading, inventedWeather } from './lake/inventedWeather.ts';

const START = '2020-01-01';
const DAYS = 500;
const today = dateAfter(START, DAYS - 1);
const site = { latDeg: 36, meanDepthM: 8, areaKm2: 5 };
const steady: WeatherDay[] = inventedWeather(START, DAYS).map((day, i) =>
  i < 400 ? day : { ...day, airC: 14 },
);

describe('a first reading, far from the estimate, in steady weather', () => {
  const options = { hindsightDays: 31 };

  it.each([1, 3, 7])('does not look like a change of the lake over %i days', (span) => {
    const free = nowcastLake(site, steady, []).days;
    const read = gaugeReading(today, (free.at(-1)?.waterC ?? 0) - 2);
    const plain = waterChange(nowcastLake(site, steady, [read]).days, today, span)?.changeC ?? NaN;
    const again = waterChange(nowcastLake(site, steady, [read], options).days, today, span)?.changeC ?? NaN;
    const model = waterChange(free, today, span)?.changeC ?? NaN;
    expect(Math.abs(plain - model)).toBeGreaterThan(1);
    expect(Math.abs(again - model)).toBeLessThan(span === 7 ? 0.6 : 0.35);
  });

  it('does not look like a change of a river either, as far as a river remembers', () => {
    const free = nowcastRiver('regulated', steady, []).days;
    const read = gaugeReading(today, (free.at(-1)?.waterC ?? 0) - 3);
    const change = (days: ReturnType<typeof nowcastRiver>['days']) =>
      waterChange(days, today, 1)?.changeC ?? NaN;
    expect(change(nowcastRiver('regulated', steady, [read]).days)).toBeLessThan(-1.5);
    expect(Math.abs(change(nowcastRiver('regulated', steady, [read], options).days))).toBeLessThan(0.6);
  });

  it('leaves today itself and the days it was not asked for as they were', () => {
    const read = gaugeReading(today, 10);
    const plain = nowcastLake(site, steady, [read]).days;
    const again = nowcastLake(site, steady, [read], options).days;
    expect(again.map(({ waterC }) => waterC)).toEqual(plain.map(({ waterC }) => waterC));
    expect(again.at(-1)?.hindsight?.waterC).toBeCloseTo(again.at(-1)?.waterC ?? NaN, 9);
    expect(again.filter(({ hindsight }) => hindsight !== undefined)).toHaveLength(32);
  });
});

// Observed lakes: fixtures/water/lake/README.md (CC BY-SA 3.0), a weekly reading, 100 mornings of 2001 to 2012.
it('comes nearer to the observed change of a week than the estimates of the two mornings', () => {
  const misses = { plain: 0, again: 0 };
  for (const lake of fixtureLakes()) {
    const readings = readingsEvery(lake, 7);
    for (let k = 0; k < 25; k++) {
      const date = dateAfter('2001-03-01', 171 * k);
      const [from, before] = [dateAfter(date, -500), dateAfter(date, -7)];
      const weather = lake.weather.filter((day) => day.date >= from && day.date <= date);
      const known = readings.filter((reading) => reading.date >= from && reading.date <= date);
      const truth = (lake.water.get(date) ?? NaN) - (lake.water.get(before) ?? NaN);
      for (const [key, hindsightDays] of [
        ['plain', 0],
        ['again', 10],
      ] as const) {
        const change = waterChange(nowcastLake(lake.site, weather, known, { hindsightDays }).days, date, 7);
        misses[key] += ((change?.changeC ?? NaN) - truth) ** 2;
      }
    }
  }
  expect(misses.again).toBeLessThan(0.95 * misses.plain);
});
