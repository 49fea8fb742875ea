import { afterEach, describe, expect, it } from 'vitest';
import { refreshLakes } from '../../src/services/index.ts';
import { startReplayServer, type ReplayOptions, type ReplayServer } from '../helpers/replayServer.ts';
import { gauge, HOUR_MS, inventedLake, NOW_MS, testClient, testDeps, weatherBody } from './support.ts';

let server: ReplayServer | null = null;
afterEach(async () => {
  await server?.close();
  server = null;
});

const start = async (options: ReplayOptions): Promise<ReplayServer> =>
  (server = await startReplayServer(options));

const level = (hoursAgo: number, feet: number, series = 'a'.repeat(32), site = 'USGS-00000001') => ({
  site,
  parameter: '00062',
  series,
  atMs: NOW_MS - hoursAgo * HOUR_MS,
  value: String(feet),
  unit: 'ft',
});

describe('a refresh of several lakes', () => {
  it('asks for the weather of all lakes in one request and gives each its own', async () => {
    const replay = await start({ openMeteo: weatherBody });
    const lakes = [inventedLake(), inventedLake({ id: 'other', latDeg: 36, lonDeg: -85 })];
    const [first, second] = await refreshLakes(lakes, testDeps(replay, testClient()));
    expect(replay.seen).toHaveLength(1);
    const air = first?.observations.filter((o) => o.variable === 'air_temp') ?? [];
    expect(air.every((o) => o.value === 10)).toBe(true);
    expect(second?.observations.find((o) => o.variable === 'air_temp')?.value).toBe(11);
    expect(new Set(air.filter((o) => o.atMs <= NOW_MS).map((o) => o.kind))).toEqual(new Set(['model']));
    expect(new Set(air.filter((o) => o.atMs > NOW_MS).map((o) => o.kind))).toEqual(new Set(['forecast']));
    expect(first?.retrievals).toMatchObject([{ source: 'open-meteo', ok: true, status: 200, problem: '' }]);
  });

  it('gives up the chance of thunder rather than the weather when a column is refused', async () => {
    const replay = await start({ openMeteo: weatherBody });
    replay.failOnce('/v1/forecast', 400, { error: true, reason: 'unknown variable' });
    const [refreshed] = await refreshLakes([inventedLake()], testDeps(replay, testClient()));
    expect(refreshed?.retrievals).toMatchObject([{ ok: true }]);
    expect(replay.seen.map((r) => r.query.get('hourly')?.includes('probability'))).toEqual([true, false]);
  });

  it('asks point by point when one of several points is refused', async () => {
    const odd = 89;
    const replay = await start({ openMeteo: weatherBody, refusedLatitude: odd });
    const lakes = [inventedLake(), inventedLake({ id: 'odd', latDeg: odd })];
    const [good, bad] = await refreshLakes(lakes, testDeps(replay, testClient()));
    expect(good?.observations.length).toBeGreaterThan(0);
    expect(bad?.observations).toEqual([]);
    expect(bad?.retrievals).toMatchObject([{ ok: false, status: 400 }]);
  });

  it('pages through the gauges of all lakes and puts the rows in order, in metres', async () => {
    const rows = Array.from({ length: 30 }, (_, i) => level(i, 600 + i));
    const replay = await start({ usgs: rows, usgsPage: 7 });
    const lake = inventedLake({ weather: [], gauges: [gauge()] });
    const [refreshed] = await refreshLakes([lake], testDeps(replay, testClient()));
    expect(replay.seen).toHaveLength(5);
    const values = refreshed?.observations ?? [];
    expect(values).toHaveLength(30);
    expect(values.map((o) => o.atMs)).toEqual([...values.map((o) => o.atMs)].sort((a, b) => a - b));
    expect(values.at(-1)?.value).toBeCloseTo(600 * 0.3048, 9);
  });

  it('keeps the gauges when the weather is down, and says in one sentence what is missing', async () => {
    const replay = await start({ usgs: [level(1, 600)], fault: { 'open-meteo': 'down' } });
    const lake = inventedLake({ gauges: [gauge()] });
    const [refreshed] = await refreshLakes([lake], testDeps(replay, testClient()));
    expect(refreshed?.observations).toHaveLength(1);
    expect(refreshed?.retrievals.filter((r) => !r.ok)).toMatchObject([
      { source: 'open-meteo', problem: 'Open-Meteo could not be reached, or the connection broke off.' },
    ]);
  });
});
