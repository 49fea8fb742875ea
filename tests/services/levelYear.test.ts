import { afterEach, describe, expect, it } from 'vitest';
import { fetchLevelYear } from '../../src/services/index.ts';
import { dailyMeans } from '../../src/services/yearOfLevels.ts';
import { mapDaily } from '../../src/services/usgs/daily.ts';
import { rowsOf } from './usgsItems.ts';
import { mapSeries } from '../../src/services/usgs/map.ts';
import type { Observation } from '../../src/record/types.ts';
import { startReplayServer, type ReplayServer, type UsgsReplayDay } from '../helpers/replayServer.ts';
import { gauge, HOUR_MS, inventedLake, NOW_MS, recordedJson, testClient, testDeps } from './support.ts';

const FT = 0.3048;
const DAY_MS = 24 * HOUR_MS;

let server: ReplayServer | null = null;
afterEach(async () => {
  await server?.close();
  server = null;
});

const day = (date: string, value: string | null, over: Partial<UsgsReplayDay> = {}): UsgsReplayDay => ({
  site: 'USGS-00000001',
  parameter: '00062',
  series: 'd'.repeat(32),
  statistic: '00003',
  date,
  value,
  unit: 'ft',
  ...over,
});

describe('a year of daily levels', () => {
  it('comes for all USGS level gauges of a lake in one request that names statistic and dates', async () => {
    server = await startReplayServer({
      usgsDaily: [
        day('2025-03-06', '611.5'),
        day('2025-03-04', '600'), // more than a year ago
        day('2026-03-05', '612.25'),
        day('2026-03-05', '40', { site: 'USGS-00000002', parameter: '62615' }),
      ],
    });
    const lake = inventedLake({
      gauges: [
        gauge({ station: '00000001', datum: 'NGVD29' }),
        gauge({ station: 'USGS-00000002', parameter: '62615', datum: 'NGVD29' }),
        gauge({ variable: 'discharge', parameter: '00060' }),
      ],
    });
    const rows = await fetchLevelYear(lake, testDeps(server, testClient()));
    expect(server.seen).toHaveLength(1);
    expect(server.seen[0]?.path).toBe('/ogcapi/v1/collections/daily/items');
    expect(server.seen[0]?.query.get('statistic_id')).toBe('00003,32400');
    expect(server.seen[0]?.query.get('time')).toBe('2025-03-05/2026-03-05');
    expect(rows.map((row) => [row.station.split('/').slice(0, 3).join('/'), row.value, row.datum])).toEqual([
      ['USGS-00000001/00062/daily', 611.5 * FT, 'NGVD29'],
      ['USGS-00000001/00062/daily', 612.25 * FT, 'NGVD29'],
      // The parameter itself says NAVD 88, whatever the configuration says.
      ['USGS-00000002/62615/daily', 40 * FT, 'NAVD88'],
    ]);
  });

  it('stamps a day with its end in the zone of the lake, on the day the clocks change too', async () => {
    server = await startReplayServer({
      usgsDaily: [day('2025-11-02', '611'), day('2025-07-01', '612'), day('2025-12-31', '613')],
    });
    const rows = await fetchLevelYear(inventedLake({ gauges: [gauge()] }), testDeps(server, testClient()));
    expect(rows.map((row) => new Date(row.atMs).toISOString().slice(0, 16))).toEqual([
      '2025-07-02T05:00',
      '2025-11-03T06:00',
      '2026-01-01T06:00',
    ]);
    expect(rows.every((row) => row.periodS === 86_400 && row.kind === 'observed')).toBe(true);
  });

  it('asks nobody for a lake whose services hold a month', async () => {
    server = await startReplayServer({});
    const lake = inventedLake({ gauges: [gauge({ service: 'ea' }), gauge({ service: 'eccc' })] });
    expect(await fetchLevelYear(lake, testDeps(server, testClient()))).toEqual([]);
    expect(server.seen).toHaveLength(0);
  });

  it('asks CWMS for the year of the series and keeps a mean a day', async () => {
    const values = Array.from({ length: 24 * 20 }, (_, h) => [NOW_MS - h * HOUR_MS, 200 + (h % 24) / 100, 0]);
    server = await startReplayServer({
      cwms: () => ({ name: 'Dam.Elev.Inst.1Hour.0.x', units: 'm', total: values.length, values }),
    });
    const lake = inventedLake({
      gauges: [gauge({ service: 'cwms', office: 'LRN', parameter: 'Dam.Elev.Inst.1Hour.0.x' })],
    });
    const rows = await fetchLevelYear(lake, testDeps(server, testClient()));
    expect(server.seen[0]?.query.get('begin')).toBe('2025-03-05T11:15:00Z');
    expect(rows).toHaveLength(19);
    expect(rows[0]).toMatchObject({ station: 'LRN/Dam.Elev.Inst.1Hour.0.x/daily', periodS: 86_400 });
    for (const row of rows) expect(row.value).toBeCloseTo(200.115, 9);
  });

  it('leaves out the cut days at both ends', () => {
    const rows: Observation[] = Array.from({ length: 60 }, (_, h) => ({
      lake: 'x',
      variable: 'level',
      source: 'csv',
      station: 'L',
      kind: 'observed',
      atMs: Date.UTC(2026, 2, 1, 6) + h * HOUR_MS,
      periodS: 0,
      value: 10 + Math.floor(h / 24),
      issuedMs: null,
    }));
    const means = dailyMeans(rows);
    expect(means.map((row) => row.atMs)).toEqual([Date.UTC(2026, 2, 3)]);
    expect(means[0]?.value).toBeCloseTo((6 * 10 + 18 * 11) / 24, 9);
  });
});

describe('daily values of USGS', () => {
  const lake = inventedLake();

  it('of the recorded double series are those of one of the two, eleven days', () => {
    const rows = rowsOf(recordedJson('usgs/v1_daily_duplicate_series_USGS-02196000_2026-09-22.json')).map(
      // The recording is of a discharge: only what names it is replaced.
      (row) => ({ ...row, parameter_code: '00065', unit_of_measure: 'ft' }),
    );
    const levels = mapDaily(rows, gauge({ station: 'USGS-02196000', parameter: '00065' }), lake);
    expect(levels).toHaveLength(11);
    expect(new Set(levels.map((row) => row.station)).size).toBe(1);
    for (const [i, row] of levels.entries())
      if (i > 0) expect(row.atMs - (levels[i - 1]?.atMs ?? 0)).toBe(DAY_MS);
  });

  const rows = (days: readonly UsgsReplayDay[]) =>
    days.map((one) => ({
      time_series_id: one.series,
      monitoring_location_id: one.site,
      parameter_code: one.parameter,
      statistic_id: one.statistic,
      time: one.date,
      value: one.value,
      unit_of_measure: one.unit,
    }));

  it('are the means where there are means, else the values at the end of the day', () => {
    const ends = [day('2026-03-01', '610', { statistic: '32400', series: 'e' })];
    expect(mapDaily(rows([...ends, day('2026-02-01', '611')]), gauge(), lake)[0]?.value).toBeCloseTo(
      611 * FT,
      9,
    );
    expect(mapDaily(rows(ends), gauge(), lake)[0]?.value).toBeCloseTo(610 * FT, 9);
  });

  it('skip null, the old code for missing and instants, and refuse two units in one series', () => {
    const odd = [
      day('2026-03-01', null),
      day('2026-03-02', '-999999'),
      day('2026-03-03T00:00:00+00:00', '1'),
    ];
    expect(mapDaily(rows(odd), gauge(), lake)).toEqual([]);
    expect(() =>
      mapDaily(rows([day('2026-03-01', '1'), day('2026-03-02', '1', { unit: 'm' })]), gauge(), lake),
    ).toThrow(/changes its unit/);
  });

  it('and single values carry the datum that the parameter defines, else the configured one', () => {
    const single = (parameter: string, datum?: string) =>
      mapSeries(
        rows([day('2026-03-01T00:00:00+00:00', '1', { parameter })]),
        gauge({ parameter, ...(datum === undefined ? {} : { datum }) }),
        'x',
      )[0]?.datum;
    expect(single('62614', 'NAVD88')).toBe('NGVD29');
    expect(single('00062', 'NAVD88')).toBe('NAVD88');
    expect(single('00065')).toBe('gage');
    expect(single('00062')).toBeUndefined();
  });
});
