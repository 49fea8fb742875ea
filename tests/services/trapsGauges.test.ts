/**
 * Known faults of the public gauge services, each as a test. The replies are recorded ones (fixtures/services/README.md)
 * where one exists; bodies made up for a test say so.
 */
import { afterEach, describe, expect, it } from 'vitest';
import { refreshLakes } from '../../src/services/index.ts';
import { mapCwms, parseCwms } from '../../src/services/cwms.ts';
import { mapFloodStatus, mapStageflow } from '../../src/services/nwps.ts';
import { rowsOf } from './usgsItems.ts';
import { mapSeries } from '../../src/services/usgs/map.ts';
import { bySeries, chooseSeries } from '../../src/services/usgs/series.ts';
import {
  startReplayServer,
  type ReplayOptions,
  type ReplayServer,
  type UsgsReplayRow,
} from '../helpers/replayServer.ts';
import { gauge, HOUR_MS, inventedLake, NOW_MS, recordedJson, testClient, testDeps } from './support.ts';

const FT = 0.3048;
const SERIES_A = 'a'.repeat(32);
const SERIES_B = 'b'.repeat(32);

let server: ReplayServer | null = null;
afterEach(async () => {
  await server?.close();
  server = null;
});
const start = async (options: ReplayOptions): Promise<ReplayServer> =>
  (server = await startReplayServer(options));

const row = (hoursAgo: number, value: string | null, over: Partial<UsgsReplayRow> = {}): UsgsReplayRow => ({
  site: 'USGS-00000001',
  parameter: '00062',
  series: SERIES_A,
  atMs: NOW_MS - hoursAgo * HOUR_MS,
  value,
  unit: 'ft',
  ...over,
});
const lakeWith = (...gauges: ReturnType<typeof gauge>[]) => inventedLake({ weather: [], gauges });

describe('trap 1, USGS dates: only the address that stays is asked', () => {
  it('asks /ogcapi/v1 and never the retiring services', async () => {
    const replay = await start({ usgs: [row(1, '600')] });
    await refreshLakes([lakeWith(gauge())], testDeps(replay, testClient()));
    expect(replay.seen.map((r) => r.path)).toEqual(['/ogcapi/v1/collections/continuous/items']);
  });

  it('reads a body of v0, whose shape is the same', () => {
    const all = recordedJson('usgs/waterdata_ogc_fixtures.json') as Record<string, unknown>;
    const rows = rowsOf(all['continuous']);
    const level = mapSeries(rows, gauge({ station: 'USGS-06904500', parameter: '00065' }), 'x');
    expect(level.map((o) => [o.atMs, o.value])).toEqual([
      [Date.UTC(2025, 0, 1), 1.76 * FT],
      [Date.UTC(2025, 0, 1, 0, 15), 1.76 * FT],
    ]);
  });
});

describe('trap 2, USGS rows are unordered and can be doubled', () => {
  it('splits the recorded double series into two of eleven days, in order', () => {
    const rows = rowsOf(recordedJson('usgs/v1_daily_duplicate_series_USGS-02196000_2026-09-22.json'));
    const groups = bySeries(rows);
    expect(rows).toHaveLength(22);
    expect([...groups.values()].map((g) => g.length)).toEqual([11, 11]);
  });

  it('uses one series and never mixes two', async () => {
    const rows = [0, 1, 2].flatMap((h) => [row(h, '600'), row(h, '100', { series: SERIES_B })]);
    const replay = await start({ usgs: rows, usgsPrimary: [SERIES_B] });
    const [refreshed] = await refreshLakes([lakeWith(gauge())], testDeps(replay, testClient()));
    expect(refreshed?.observations.map((o) => o.value)).toEqual([100 * FT, 100 * FT, 100 * FT]);
    expect(replay.seen.map((r) => r.path.split('/')[4])).toEqual(['continuous', 'time-series-metadata']);
  });

  it('keeps to the configured series even when the other is newer', () => {
    const groups = new Map([
      [SERIES_A, []],
      [SERIES_B, []],
    ]);
    expect(chooseSeries(groups, SERIES_A, [])).toBe(SERIES_A);
    expect(chooseSeries(groups, 'c'.repeat(32), [])).toBeNull();
  });

  it('always names the statistic, and never repeats a key', async () => {
    const replay = await start({ usgs: [row(1, '600')] });
    const lakes = [
      lakeWith(gauge(), gauge({ station: '00000002', variable: 'discharge', parameter: '00060' })),
    ];
    await refreshLakes(lakes, testDeps(replay, testClient()));
    const query = replay.seen[0]?.query;
    expect(query?.get('statistic_id')).toBe('00011');
    expect(query?.getAll('monitoring_location_id')).toEqual(['USGS-00000001,USGS-00000002']);
  });
});

describe('trap 3, USGS values: text, null, lists of qualifiers, old "latest" values', () => {
  it('reads text values, leaves null out, and keeps qualifiers and the provisional mark', async () => {
    const rows = [
      row(2, '600.25', { qualifier: ['ESTIMATED', 'ICE'] }),
      row(1, null),
      row(0, '', { approved: true }),
    ];
    const replay = await start({ usgs: rows });
    const [refreshed] = await refreshLakes([lakeWith(gauge())], testDeps(replay, testClient()));
    expect(refreshed?.observations).toMatchObject([
      {
        value: 600.25 * FT,
        provisional: true,
        qualifiers: ['ESTIMATED', 'ICE'],
        kind: 'observed',
        issuedMs: null,
      },
    ]);
  });

  it('takes an empty reply for a silent gauge and says since when', async () => {
    const replay = await start({ usgs: [row(24 * 12, '600')] });
    const [refreshed] = await refreshLakes([lakeWith(gauge())], testDeps(replay, testClient()));
    expect(refreshed?.observations.map((o) => o.atMs)).toEqual([NOW_MS - 24 * 12 * HOUR_MS]);
    expect(refreshed?.retrievals.filter((r) => !r.ok).map((r) => r.problem)).toEqual([
      'USGS 00000001 level: silent since 2026-02-22 11:15 UTC.',
    ]);
  });

  it('does not read a daily label as an instant', () => {
    const all = recordedJson('usgs/waterdata_ogc_fixtures.json') as Record<string, unknown>;
    const daily = rowsOf(all['daily']);
    expect(mapSeries(daily, gauge({ variable: 'discharge', parameter: '00060' }), 'x')).toEqual([]);
  });
});

describe('trap 4, USGS paging and quota', () => {
  it('follows the pages to the end and loses none', async () => {
    const rows = Array.from({ length: 25 }, (_, i) => row(i / 4, String(600 + i)));
    const replay = await start({ usgs: rows, usgsPage: 10 });
    const [refreshed] = await refreshLakes([lakeWith(gauge())], testDeps(replay, testClient()));
    expect(refreshed?.observations).toHaveLength(25);
    expect(replay.seen).toHaveLength(3);
  });

  it('asks for no more than the 1,100 days the service allows', async () => {
    const replay = await start({ usgs: [row(1, '600')] });
    await refreshLakes([lakeWith(gauge())], testDeps(replay, testClient(), { pastDays: 4000 }));
    const [from, to] = (replay.seen[0]?.query.get('time') ?? '').split('/').map((t) => Date.parse(t));
    expect(((to ?? 0) - (from ?? 0)) / 86_400_000).toBeLessThan(1100);
  });

  it('gives up at once when asked to wait for half an hour, and says so', async () => {
    const replay = await start({ fault: { usgs: '429' } });
    const [refreshed] = await refreshLakes([lakeWith(gauge())], testDeps(replay, testClient()));
    expect(replay.seen).toHaveLength(1);
    expect(refreshed?.retrievals).toMatchObject([
      { ok: false, status: 429, problem: 'USGS answered 429: we asked too often ("Rate limit exceeded").' },
    ]);
  });
});

describe('trap 5, legacy "no data" values', () => {
  it('never takes -999999 for a level', () => {
    const body = {
      type: 'FeatureCollection',
      features: [
        {
          properties: {
            time_series_id: SERIES_A,
            monitoring_location_id: 'USGS-00000001',
            parameter_code: '00062',
            time: '2026-03-06T10:00:00+00:00',
            value: '-999999',
            unit_of_measure: 'ft',
          },
        },
      ],
    };
    expect(mapSeries(rowsOf(body), gauge(), 'x')).toEqual([]);
  });

  it('refuses a legacy body as a shape it does not know', () => {
    expect(() => rowsOf(recordedJson('usgs-legacy/instantaneous/daily_lake_level.json'))).toThrow(
      /shape we do not know/,
    );
  });
});

describe('trap 14, flood status', () => {
  const recordedGauge = recordedJson('nwps/gauge_ACRT2_trimmed.json');
  const at = Date.UTC(2026, 8, 26);

  it('reads category and thresholds of the recorded gauge, in metres', () => {
    const flood = mapFloodStatus(recordedGauge, 'x', 'ACRT2', at);
    expect(flood).toMatchObject({ observed: 'none', forecast: 'none', atMs: Date.UTC(2026, 8, 25, 23, 50) });
    expect(flood.thresholdsM).toEqual({ action: 25 * FT, minor: 33 * FT, moderate: 38 * FT, major: 42 * FT });
  });

  it('does not call "not current" or an undated forecast "no flooding"', () => {
    const body = {
      status: {
        observed: { floodCategory: 'obs_not_current', validTime: '2026-09-25T23:00:00Z' },
        forecast: { floodCategory: 'no_flooding', validTime: '0001-01-01T00:00:00Z' },
      },
      flood: { stageUnits: 'ft', categories: { minor: { stage: -9999 } } },
    };
    expect(mapFloodStatus(body, 'x', 'X', at)).toMatchObject({
      observed: 'unknown',
      forecast: 'unknown',
      thresholdsM: {},
    });
    expect(mapFloodStatus(recordedGauge, 'x', 'X', at + 30 * 86_400_000)).toMatchObject({
      observed: 'unknown',
    });
  });

  it('sorts the recorded series, drops -999, and reads flow as thousands of cubic feet', () => {
    const body = recordedJson('nwps/stageflow_ACRT2_trimmed.json');
    const stage = mapStageflow(body, gauge({ service: 'nwps', station: 'ACRT2' }), 'x');
    expect(stage.filter((o) => o.kind === 'observed').map((o) => o.value / FT)).toEqual([
      12.5, 12.6, 12.9, 13.04,
    ]);
    expect(stage.filter((o) => o.kind === 'forecast').map((o) => o.issuedMs)).toEqual(
      Array(3).fill(Date.UTC(2026, 8, 25, 13, 30)),
    );
    const flow = mapStageflow(body, gauge({ service: 'nwps', station: 'ACRT2', variable: 'discharge' }), 'x');
    expect(flow.find((o) => o.kind === 'observed')?.value).toBeCloseTo(200 * FT ** 3, 9);
  });
});

describe('trap 15, reservoirs of the Corps of Engineers', () => {
  const series = gauge({ service: 'cwms', station: 'Mount Morris', office: 'LRB', parameter: 'x' });

  it('reads the recorded elevation in order, whatever the stated interval', () => {
    const page = parseCwms(recordedJson('cwms/MountMorris_Elev_2023-06-23_v2.json'));
    const found = mapCwms([page], series, 'x');
    expect(found).toHaveLength(48);
    expect(found[0]).toMatchObject({ atMs: 1687501800000, value: 587.03 * FT });
  });

  it('joins pages by their token, asking in version 2 with a page size', async () => {
    const pages = [1, 2, 3].map(
      (n) => recordedJson(`cwms/paging_num_ts_page${n}.json`) as Record<string, unknown>,
    );
    const replay = await start({
      cwms: (query) =>
        pages.find(
          (p) => p['page'] === query.get('page') && p !== pages[0] && p['next-page'] !== undefined,
        ) ?? (query.get('page') === null ? pages[0] : pages[2]),
    });
    const lake = lakeWith(series);
    const [refreshed] = await refreshLakes([lake], testDeps(replay, testClient()));
    expect(refreshed?.observations).toHaveLength(30);
    expect(replay.seen).toHaveLength(3);
    expect(replay.seen[0]?.headers.accept).toBe('application/json;version=2');
    expect(Number(replay.seen[0]?.query.get('page-size'))).toBeGreaterThan(500);
  });

  it('never returns some pages as all of them', () => {
    const [first] = [parseCwms(recordedJson('cwms/paging_num_ts_page1.json'))];
    expect(() => mapCwms(first === undefined ? [] : [first], series, 'x')).toThrow(
      'announced 30 rows and sent 10',
    );
  });

  it('leaves out null, the smallest float, missing and rejected values', () => {
    const page = parseCwms({
      name: 's',
      units: 'm',
      values: [
        [NOW_MS, null, 5],
        [NOW_MS + 1000, -3.4028234663852886e38, 5],
        [NOW_MS + 2000, 181, 5],
        [NOW_MS + 3000, 181, 17],
        [NOW_MS + 4000, 181.5, 0],
      ],
    });
    expect(mapCwms([page], series, 'x').map((o) => o.value)).toEqual([181.5]);
  });

  it('moves a level to the configured datum only by the stated offset', () => {
    const page = parseCwms({
      name: 's',
      units: 'm',
      values: [[NOW_MS, 100, 0]],
      'vertical-datum-info': {
        'native-datum': 'NGVD-29',
        unit: 'ft',
        offsets: [{ 'to-datum': 'NAVD-88', value: -0.5 }],
      },
    });
    const [moved] = mapCwms([page], { ...series, datum: 'NAVD88' }, 'x');
    expect(moved).toMatchObject({ value: 100 - 0.5 * FT, datum: 'NAVD88' });
    const [kept] = mapCwms([page], { ...series, datum: 'local' }, 'x');
    expect(kept).toMatchObject({ value: 100, datum: 'NGVD-29' });
  });
});
