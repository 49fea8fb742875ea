/** Rain gauges, flood status and misconfigured gauges, over the wire. */
import { afterEach, describe, expect, it } from 'vitest';
import { refreshLakes } from '../../src/services/index.ts';
import { startReplayServer, type ReplayOptions, type ReplayServer } from '../helpers/replayServer.ts';
import { gauge, inventedLake, NOW_MS, recordedJson, testClient, testDeps } from './support.ts';

let server: ReplayServer | null = null;
afterEach(async () => {
  await server?.close();
  server = null;
});
const start = async (options: ReplayOptions): Promise<ReplayServer> =>
  (server = await startReplayServer(options));

const rainRow = (quartersAgo: number, inches: string) => ({
  site: 'USGS-00000001',
  parameter: '00045',
  series: 'r',
  atMs: NOW_MS - quartersAgo * 900_000,
  value: inches,
  unit: 'in',
});

describe('a rain gauge', () => {
  it('gives totals in millimetres over the interval of its recorder', async () => {
    const replay = await start({ usgs: [0, 1, 2, 3, 8].map((n) => rainRow(n, '0.10')) });
    const lake = inventedLake({ weather: [], gauges: [gauge({ variable: 'rain', parameter: '00045' })] });
    const [refreshed] = await refreshLakes([lake], testDeps(replay, testClient()));
    expect(refreshed?.observations).toHaveLength(5);
    expect(refreshed?.observations.every((o) => o.periodS === 900 && Math.abs(o.value - 2.54) < 1e-9)).toBe(
      true,
    );
    expect(new Set(refreshed?.observations.map((o) => o.kind))).toEqual(new Set(['observed']));
  });
});

describe('flood status and stage of a lake', () => {
  const deps = (replay: ReplayServer) =>
    testDeps(replay, testClient(), { nowMs: Date.UTC(2026, 8, 26), pastDays: 2 });

  it('come from the configured gauge', async () => {
    const replay = await start({
      nwpsGauge: () => recordedJson('nwps/gauge_ACRT2_trimmed.json'),
      nwpsStageflow: () => recordedJson('nwps/stageflow_ACRT2_trimmed.json'),
    });
    const stage = gauge({ service: 'nwps', station: 'ACRT2' });
    const lake = inventedLake({ weather: [], floodGauge: 'ACRT2', gauges: [stage] });
    const [refreshed] = await refreshLakes([lake], deps(replay));
    expect(refreshed?.floods).toMatchObject([{ station: 'ACRT2', observed: 'none' }]);
    expect(refreshed?.observations.map((o) => o.kind)).toEqual([
      ...Array<string>(4).fill('observed'),
      ...Array<string>(3).fill('forecast'),
    ]);
  });

  it('are a named gap when the station is unknown, and no "no flooding"', async () => {
    const replay = await start({});
    replay.failOnce('/nwps/v1/gauges/NONE', 404, recordedJson('nwps/error_404_unknown_id.json'));
    const [refreshed] = await refreshLakes([inventedLake({ weather: [], floodGauge: 'NONE' })], deps(replay));
    expect(refreshed?.floods).toEqual([]);
    expect(refreshed?.retrievals.map((r) => r.problem)).toEqual([
      'NOAA National Water Prediction Service answered 404: it does not know this place or station ("[] could not find unknown ID").',
    ]);
  });
});

describe('a gauge that is configured wrongly', () => {
  it('is named, and the good one beside it is read', async () => {
    const replay = await start({
      usgs: [{ ...rainRow(1, '600'), parameter: '00062', unit: 'ft' }],
    });
    const wrong = gauge({ variable: 'inflow', parameter: 'inflow' });
    const other = gauge({ timeSeriesId: 'not-there' });
    const [refreshed] = await refreshLakes(
      [inventedLake({ weather: [], gauges: [gauge(), wrong, other] })],
      testDeps(replay, testClient()),
    );
    expect(refreshed?.observations).toHaveLength(1);
    expect(refreshed?.retrievals.filter((r) => !r.ok).map((r) => r.problem)).toEqual([
      'The inflow gauge USGS-00000001 needs a five-digit "parameter" in the configuration.',
      'USGS 00000001 level: the configured time series is not among the 1 the service sent; see "timeSeriesId".',
    ]);
  });

  it('is told that a unit does not fit what it is said to measure', async () => {
    const replay = await start({ usgs: [{ ...rainRow(1, '50'), parameter: '00062', unit: 'degF' }] });
    const [refreshed] = await refreshLakes(
      [inventedLake({ weather: [], gauges: [gauge()] })],
      testDeps(replay, testClient()),
    );
    expect(refreshed?.observations).toEqual([]);
    expect(refreshed?.retrievals.find((r) => !r.ok)?.problem).toContain('the unit "degF" for level');
  });
});
