import { readFileSync, readdirSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { nowcastLake } from '../../src/water/lake/index.ts';
import { failure, hindcastBench } from '../helpers/hindcastRun.ts';
import { inventedWeather } from '../water/lake/inventedWeather.ts';

const weather = inventedWeather('2019-01-01', 900);
const site = { latDeg: 36, meanDepthM: 8, areaKm2: 5 };
const { folder, file, hindcast, printed } = hindcastBench();

const weatherCsv = (): string =>
  file('weather.csv', `date,air_c\n${weather.map((d) => `${d.date},${d.airC!.toFixed(3)}`).join('\n')}\n`);

describe('thawline hindcast', () => {
  it('writes one line a day with the agreed columns, and the same numbers as the nowcast', () => {
    const out = hindcast('--weather', weatherCsv());
    const lines = readFileSync(out, 'utf8').trim().split('\n');
    expect(lines[0]).toBe('date,water_c,low_c,high_c,reading_age_days');
    expect(lines).toHaveLength(901);
    const rounded = weather.map((d) => ({ ...d, airC: Number(d.airC!.toFixed(3)) }));
    const day = nowcastLake(site, rounded, [], { readingLagDays: 1 }).days[700]!;
    expect(lines[701]).toBe(
      `${day.date},${day.waterC.toFixed(2)},${day.lowC.toFixed(2)},${day.highC.toFixed(2)},`,
    );
    expect(readdirSync(folder()).sort()).toEqual(['out.csv', 'weather.csv']);
  });

  it('scores itself against the readings, by their age, beside holding and the calendar', () => {
    const truth = nowcastLake({ ...site, meanDepthM: 12 }, weather, []).days;
    const readings = truth.filter((_, i) => i % 7 === 0).map((d) => `${d.date},${(d.waterC + 1).toFixed(2)}`);
    hindcast(
      '--weather',
      weatherCsv(),
      '--readings',
      file('r.csv', `date,water_c\n${readings.join('\n')}\n`),
      '--json',
    );
    const report = JSON.parse(printed());
    expect(report.readings).toBe(readings.length);
    expect(report.score.model.days).toBe(readings.length);
    expect(report.score.modelWherePersistence.rmseC).toBeLessThan(report.score.persistence.rmseC);
    expect(report.score.byReadingAge.map((a: { readingAge: string }) => a.readingAge)).toEqual([
      'none',
      '4-7',
    ]);
    expect(report.score.dayOfYearMean.days).toBeGreaterThan(50);
  });

  it('prints the same as text', () => {
    hindcast(
      '--weather',
      weatherCsv(),
      '--readings',
      file('r.csv', 'date,water_c,time,depth_m\n2020-05-01,17.2,07:10,0.3\n'),
    );
    expect(printed()).toMatch(/900 days from 2019-01-01 to 2021-06-18/);
    expect(printed()).toMatch(/model, all days +1 /);
  });

  it.each([
    ['date,air_c\n2020-01-01,mild\n', /weather.csv, line 2, column "air_c": found "mild", expected a number/],
    [
      'date,air_c\n2020-01-01,1\n01.02.2020,3\n',
      /line 3, column "date": found "01.02.2020", expected a local date/,
    ],
    [
      'date,air_c\n2020-01-01,1\n2020-01-01,3\n',
      /line 3, column "date".*once; line 2 has it already; keep one line a day\.$/,
    ],
    ['date,temp\n2020-01-01,1\n', /no column "air_c".*header/],
    ['date,air_c\n2020-01-01\n', /line 2: 1 field where the header has 2/],
    ['date,air_c\n2020-01-01,\n', /no air temperature/],
    ['date,air_c\n', /no lines/],
    ['date,air_c,rh_pct\n2020-01-01,4,180\n', /column "rh_pct".*0 to 105/],
  ])('names file, line, column and remedy for %j, and writes nothing', (content, sentence) => {
    const error = failure(() => hindcast('--weather', file('weather.csv', content)));
    expect(error.message).toMatch(sentence);
    expect(error.exitCode).toBe(2);
    expect(readdirSync(folder())).toEqual(['weather.csv']);
  });

  it('says what is wrong with a flag or a path with exit code 2', () => {
    expect(failure(() => hindcast('--weather', join(folder(), 'none.csv'))).exitCode).toBe(2);
    expect(failure(() => hindcast('--weather', weatherCsv(), '--mean-depth', '26ft')).message).toMatch(
      /--mean-depth is "26ft"/,
    );
    expect(failure(() => hindcast('--weather', weatherCsv(), '--reading-lag', '1.5')).exitCode).toBe(2);
    expect(
      failure(() => hindcast('--weather', weatherCsv(), '--out', join(folder(), 'no', 'o.csv'))).message,
    ).toMatch(/folder/);
  });
});
