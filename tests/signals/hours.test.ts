/** An hour is told by its start: what services give for the hour that ends is moved there once. */
import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import type { Observation } from '../../src/record/types.ts';
import { mapGrid } from '../../src/services/nws/grid.ts';
import { readSignals, type HourPoint } from '../../src/signals/index.ts';
import { gauge, observation, recordView, testLake } from '../helpers/weatherRecord.ts';

const AS_OF = '2026-03-06T11:15:00Z'; // 05:15 at the lake
const HOUR = 3_600_000;
/** 12:00 at the lake. */
const NOON = Date.parse('2026-03-06T18:00:00Z');

const only = (extra: readonly Observation[], lake = testLake): HourPoint[] => [
  ...readSignals({ ...recordView({ asOf: AS_OF }), observations: extra }, lake).hours,
];
const ahead = (
  variable: Observation['variable'],
  atMs: number,
  value: number,
  more: Partial<Observation> = {},
): Observation =>
  observation(variable, atMs, value, {
    source: 'open-meteo',
    station: '',
    kind: 'forecast',
    issuedMs: Date.parse(AS_OF) - HOUR,
    ...more,
  });
const hourWith = (hours: readonly HourPoint[], field: keyof HourPoint): number[] =>
  hours.filter((hour) => hour[field] !== undefined).map(({ atMs }) => atMs);

describe('an hour of the day', () => {
  it('starts at local midnight and ends before the next, on short and long days too', () => {
    const hours = only([]);
    expect(hours).toHaveLength(24);
    expect(hours[0]?.atMs).toBe(Date.parse('2026-03-06T06:00:00Z'));
    expect(hours.at(-1)?.atMs).toBe(Date.parse('2026-03-07T05:00:00Z'));
  });

  it.each(['rain', 'shortwave', 'wind_gust', 'thunder'] as const)(
    'holds the %s that is stated for the hour ending at its end',
    (variable) => {
      const field = {
        rain: 'rainMm',
        shortwave: 'shortwaveWm2',
        wind_gust: 'gustMs',
        thunder: 'thunderPct',
      }[variable] as keyof HourPoint;
      const hours = only([ahead(variable, NOON + HOUR, 7, { periodS: 3600 })]);
      expect(hourWith(hours, field)).toEqual([NOON]);
    },
  );

  it.each(['air_temp', 'wind_speed', 'wind_dir', 'cloud'] as const)(
    'holds the %s of the instant at which it begins',
    (variable) => {
      const field = {
        air_temp: 'airC',
        wind_speed: 'windMs',
        wind_dir: 'windDirDeg',
        cloud: 'cloudPct',
      }[variable] as keyof HourPoint;
      expect(hourWith(only([ahead(variable, NOON, 7)]), field)).toEqual([NOON]);
    },
  );

  it('has its sun in the middle', () => {
    const altitudes = only([]).map(({ sunAltitudeDeg }) => sunAltitudeDeg);
    const highest = only([])[altitudes.indexOf(Math.max(...altitudes))];
    // Solar noon at 86.4 W in early March: 11:57 CST (NOAA solar calculator's equation of time, -11.5 min, from memory).
    expect([NOON - HOUR, NOON]).toContain(highest?.atMs);
  });

  it('tells of past hours whether turbines ran', () => {
    const lake = {
      ...testLake,
      gauges: [{ service: 'usgs', station: 'USGS-9', variable: 'release', where: 'at the dam' } as const],
    };
    const last = Date.parse('2026-03-06T11:00:00Z');
    const rows = gauge('release', last, 5, (back) => (back === 3 ? 2 : 100), { station: 'USGS-9' });
    const ran = only(rows, lake).filter(({ generationOn }) => generationOn !== undefined);
    expect(ran.map(({ generationOn }) => generationOn)).toEqual([1, 1, 0, 1, 1, 1]);
  });
});

describe('a recorded forecast grid', () => {
  // A value of the grid holds from the start of its interval: NWS API documentation, gridpoint `validTime`.
  const body = JSON.parse(readFileSync('fixtures/services/nws/library/detailed_forecast.json', 'utf8')) as {
    properties: { updateTime: string; windGust: { values: { validTime: string; value: number }[] } };
  };
  it('gives each hour the gust of the interval that begins with it', () => {
    const issued = Date.parse(body.properties.updateTime);
    const rows = mapGrid(body, testLake.id, 'X/1,1', issued + 60_000);
    const report = readSignals(
      { ...recordView({ asOf: new Date(issued + 60_000).toISOString() }), observations: rows },
      testLake,
    );
    const gusts = new Map(
      rows.filter(({ variable }) => variable === 'wind_gust').map(({ atMs, value }) => [atMs, value]),
    );
    const told = report.hours.filter(({ gustMs }) => gustMs !== undefined);
    expect(told.length).toBeGreaterThan(0);
    for (const { atMs, gustMs } of told) expect(gustMs).toBe(gusts.get(atMs));
  });
});
