/** Files in degrees Fahrenheit: the daily series of four measured lakes, written in the other unit. */
import { readdirSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { fixtureLakes, type ObservedLake } from '../../bench/lake-data.ts';
import { failure, hindcastBench } from '../helpers/hindcastRun.ts';
import { inventedWeather } from '../water/lake/inventedWeather.ts';

const { folder, file, hindcast, printed } = hindcastBench();
const lakes = fixtureLakes();
const toF = (c: number): number => 1.8 * c + 32;
const asRead = (c: number): number => c;

const columns = (name: string, rows: readonly (readonly [string, number])[]): string =>
  `date,${name}\n${rows.map(([date, value]) => `${date},${value.toFixed(1)}`).join('\n')}\n`;

interface Span {
  readonly from: string;
  readonly to: string;
}
const YEAR: Span = { from: '1990-01-01', to: '1990-12-31' };
const WINTER: Span = { from: '1990-12-01', to: '1991-03-15' };
const within =
  ({ from, to }: Span) =>
  (date: string): boolean =>
    date >= from && date <= to;

const airOf = (lake: ObservedLake, span: Span, unit = asRead): string =>
  file(
    'air.csv',
    columns(
      'air_c',
      lake.weather
        .filter(({ date }) => within(span)(date))
        .map(({ date, airC }) => [date, unit(airC ?? 0)] as const),
    ),
  );
const waterOf = (lake: ObservedLake, span: Span, unit = asRead): string =>
  file(
    'water.csv',
    columns(
      'water_c',
      [...lake.water].filter(([date]) => within(span)(date)).map(([date, waterC]) => [date, unit(waterC)]),
    ),
  );
const flags = (lake: ObservedLake): string[] => [
  '--lat',
  String(lake.site.latDeg),
  '--mean-depth',
  String(lake.site.meanDepthM),
];

describe.each(lakes.map((lake) => [lake.name, lake] as const))('lake %s', (_, lake) => {
  it('in degrees Fahrenheit through a winter is refused by file and column, and nothing is written', () => {
    const [air, water] = [airOf(lake, WINTER), waterOf(lake, WINTER, toF)];
    const error = failure(() => hindcast(...flags(lake), '--weather', air, '--readings', water));
    expect(error.message).toMatch(
      /water\.csv, column "water_c": \d+ of \d+ readings lie closer .*looks like degrees Fahrenheit; convert: \(F - 32\) \/ 1\.8\.$/,
    );
    expect(error.exitCode).toBe(2);
    expect(readdirSync(folder()).sort()).toEqual(['air.csv', 'water.csv']);
  });

  it.each([
    ['a year', YEAR],
    ['a winter', WINTER],
  ])('in degrees Celsius through %s is taken', (_, span) => {
    const [air, water] = [airOf(lake, span), waterOf(lake, span)];
    hindcast(...flags(lake), '--weather', air, '--readings', water);
    expect(printed()).toMatch(/model, all days/);
  });

  it('under air in degrees Fahrenheit through a winter is refused for the air', () => {
    const [air, water] = [airOf(lake, WINTER, toF), waterOf(lake, WINTER)];
    const error = failure(() => hindcast(...flags(lake), '--weather', air, '--readings', water));
    expect(error.message).toMatch(/air\.csv, column "air_c".*looks like degrees Fahrenheit.*--lat/);
    expect(error.exitCode).toBe(2);
    expect(readdirSync(folder()).sort()).toEqual(['air.csv', 'water.csv']);
  });
});

describe('values beyond what degrees Celsius can be', () => {
  it.each([
    ['date,air_c\n2020-07-01,75\n', /column "air_c": found "75".*Fahrenheit/],
    ['date,air_c,air_max_c\n2020-07-01,25,88\n', /column "air_max_c": found "88".*Fahrenheit/],
  ])('name the unit they look like in the weather: %j', (content, sentence) => {
    expect(failure(() => hindcast('--weather', file('w.csv', content))).message).toMatch(sentence);
  });

  it('name it in the readings, too, but not where no lake reaches in either unit', () => {
    const air = file('w.csv', 'date,air_c\n2020-07-01,25\n');
    const read = (value: number): string =>
      failure(() =>
        hindcast('--weather', air, '--readings', file('r.csv', `date,water_c\n2020-07-01,${value}\n`)),
      ).message;
    expect(read(78)).toMatch(/Fahrenheit/);
    expect(read(7800)).not.toMatch(/Fahrenheit/);
    expect(read(-40)).not.toMatch(/Fahrenheit/);
  });
});

describe('hot air is no false alarm', () => {
  // Monthly means, degC, January to December, all from memory.
  it.each([
    ['a desert at 27 N', 27, [14, 17, 22, 28, 33, 36, 37, 36, 33, 28, 21, 15]],
    ['the hottest depression, 14 N', 14, [31, 31, 32, 34, 36, 38, 39, 38, 37, 35, 32, 31]],
    ['the hottest valley at 36.5 N', 36.5, [12, 16, 21, 25, 31, 37, 42, 40, 34, 26, 17, 11]],
    ['the equator', 0, [27, 27, 28, 28, 28, 27, 27, 27, 27, 27, 27, 27]],
    ['a warm coast at 60 N', 60, [3, 3, 5, 8, 11, 14, 16, 16, 13, 9, 6, 4]],
    ['a warm coast at 71 N', 71, [-1, -1, 0, 2, 5, 8, 12, 12, 9, 4, 1, 0]],
    ['20 S', -20, [28, 28, 28, 26, 23, 21, 20, 22, 24, 26, 27, 28]],
  ])('%s, by year and by season', (_, latDeg, monthly) => {
    const dates = inventedWeather('2021-01-01', 365).map(({ date }) => date);
    const rows = dates.map((date) => [date, monthly[Number(date.slice(5, 7)) - 1]!] as const);
    for (const from of [0, 90, 180, 270])
      hindcast(
        '--weather',
        file('w.csv', columns('air_c', rows.slice(from, from === 0 ? 365 : from + 90))),
        '--lat',
        String(latDeg),
      );
    expect(printed().match(/written to/g)).toHaveLength(4);
  });
});

it('readings that the weather does not explain in either unit are scored, not refused', () => {
  const weather = inventedWeather('2019-01-01', 400);
  const air = file(
    'w.csv',
    columns(
      'air_c',
      weather.map(({ date, airC }) => [date, airC!]),
    ),
  );
  // A thermometer in a warm outfall, 28 °C the whole winter: as degrees Fahrenheit it would be ice.
  const outfall = file(
    'r.csv',
    columns(
      'water_c',
      weather.slice(330, 390).map(({ date }) => [date, 28]),
    ),
  );
  hindcast('--weather', air, '--readings', outfall);
  expect(printed()).toMatch(/60 readings/);
});
