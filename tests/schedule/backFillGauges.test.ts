/** Gauges of a season: asked for once and politely, whole or not at all, and as good to a morning as if it had been live. */
import { readFileSync } from 'node:fs';
import { createServer } from 'node:http';
import type { AddressInfo } from 'node:net';
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, afterEach, beforeAll, beforeEach, describe, expect, it } from 'vitest';
import type { GaugeConfig, LakeConfig } from '../../src/config/types.ts';
import { loadRules } from '../../src/config/rules.ts';
import { openRecord, type Observation, type RecordStore } from '../../src/record/index.ts';
import type { PipelineContext } from '../../src/schedule/context.ts';
import { clientFor } from '../../src/schedule/refresh.ts';
import { backFill } from '../../src/schedule/replay/backFill.ts';
import { replaySeason, type ReplayedMorning } from '../../src/schedule/replay/season.ts';
import { config, lake as plainLake } from '../delivery/kit.ts';
import { startSeasonServer, type SeasonServer } from './seasonServer.ts';

const NOW = Date.parse('2026-11-20T12:00:00Z');
const HOUR = 3_600_000;
const SEASON = { from: '2025-03-10', to: '2025-03-12' };
const rules = loadRules();

/** A row as the service sends it (recorded, see `fixtures/services/README.md`), with our instant and number in it. */
const recorded = JSON.parse(readFileSync('fixtures/services/usgs/waterdata_ogc_fixtures.json', 'utf8')) as {
  continuous: { features: { properties: Record<string, unknown> }[] };
};
const cwmsPage = JSON.parse(readFileSync('fixtures/services/cwms/level_timeseries.json', 'utf8')) as Record<
  string,
  unknown
>;

const gauge = (variable: GaugeConfig['variable'], parameter: string): GaugeConfig => ({
  service: 'usgs',
  station: '07055660',
  where: 'main lake',
  variable,
  parameter,
});
const LEVEL = gauge('level', '00062');
const WATER = gauge('water_temp', '00010');
const lakeWith = (...gauges: GaugeConfig[]): LakeConfig => ({ ...plainLake(), gauges });

interface GaugeServer {
  readonly url: string;
  readonly asked: string[];
  /** Instants before which a station is silent. */
  silentBefore: number;
  /** The reply after which one is cut off; Infinity: none. */
  cutFrom: number;
  close(): Promise<void>;
}

const valueAt = (parameter: string, atMs: number): number => {
  const day = atMs / (24 * HOUR);
  const wave = Math.sin(day / 3) + 0.2 * Math.sin(2 * Math.PI * day);
  return Number((parameter === '00010' ? 8 + wave : 650 + wave).toFixed(3));
};

async function startGaugeServer(): Promise<GaugeServer> {
  const state = { asked: [] as string[], silentBefore: 0, cutFrom: Infinity };
  const server = createServer((request, response) => {
    const { pathname, searchParams } = new URL(request.url ?? '/', 'http://localhost');
    response.setHeader('Content-Type', 'application/json');
    if (pathname.endsWith('/cwms-data/timeseries')) {
      const [begin, end] = [searchParams.get('begin') ?? '', searchParams.get('end') ?? ''];
      state.asked.push(`cwms ${begin}/${end}`);
      const values = [];
      for (let at = Math.ceil(Date.parse(begin) / HOUR) * HOUR; at <= Date.parse(end); at += HOUR)
        values.push([at, 40, 0]);
      const page = { ...cwmsPage, name: searchParams.get('name'), total: values.length, values };
      response.end(JSON.stringify({ ...page, 'next-page': null }));
      return;
    }
    const collection = pathname.split('/').at(-2) ?? '';
    const [from = '', to = ''] = (searchParams.get('time') ?? '').split('/');
    if (collection === 'continuous') state.asked.push(`${from}/${to}`);
    const features = [];
    if (collection === 'continuous')
      for (const parameter of (searchParams.get('parameter_code') ?? '').split(','))
        for (let at = Math.ceil(Date.parse(from) / HOUR) * HOUR; at <= Date.parse(to); at += HOUR) {
          if (at < state.silentBefore) continue;
          const properties = {
            ...recorded.continuous.features[0]?.properties,
            time_series_id: `series-${parameter}`,
            monitoring_location_id: searchParams.get('monitoring_location_id'),
            parameter_code: parameter,
            statistic_id: '00011',
            time: new Date(at).toISOString(),
            value: String(valueAt(parameter, at)),
            unit_of_measure: parameter === '00010' ? 'degC' : 'ft',
          };
          features.push({ type: 'Feature', id: `${parameter}-${at}`, geometry: null, properties });
        }
    const isCut = collection === 'continuous' && state.asked.length > state.cutFrom;
    const sent = isCut ? features.slice(0, features.length / 2) : features;
    response.end(
      JSON.stringify({ type: 'FeatureCollection', numberReturned: features.length, features: sent }),
    );
  });
  await new Promise<void>((resolve) => server.listen(0, '127.0.0.1', resolve));
  return Object.assign(state, {
    url: `http://127.0.0.1:${(server.address() as AddressInfo).port}`,
    close: () => new Promise<void>((resolve) => server.close(() => resolve())),
  });
}

let weather: SeasonServer;
let gauges: GaugeServer;
let folder: string;
let record: RecordStore;
let ctx: PipelineContext;

async function open(): Promise<void> {
  const recordPath = join(folder, `${Math.random()}.sqlite`);
  record = await openRecord(recordPath);
  const settings = config({ recordPath });
  const baseUrls = { 'open-meteo-archive': weather.url, usgs: gauges.url, cwms: gauges.url };
  const whole = { ...settings, services: { ...settings.services, baseUrls } };
  ctx = { config: whole, record, rules, env: {}, client: clientFor(whole, record) };
}
async function shut(): Promise<void> {
  await ctx.client?.close();
  await record.close();
}
const fill = (lake: LakeConfig) => {
  if (ctx.client === undefined) throw new Error('no client');
  const { services } = ctx.config;
  return backFill(ctx, lake, SEASON, { client: ctx.client, services, nowMs: NOW, pastDays: 0 });
};
const stored = async (lake: LakeConfig, source = 'usgs'): Promise<Observation[]> =>
  (
    await record.view(lake.id, Date.parse('2025-03-14T00:00:00Z'), { days: 80, archive: true })
  ).observations.filter((row) => row.source === source && row.periodS === 0);

beforeAll(async () => {
  folder = mkdtempSync(join(tmpdir(), 'gauges-'));
  weather = await startSeasonServer();
  gauges = await startGaugeServer();
});
afterAll(async () => {
  await weather.close();
  await gauges.close();
  rmSync(folder, { recursive: true });
});

describe('gauges of a season', { timeout: 120_000 }, () => {
  beforeEach(async () => {
    Object.assign(gauges, { silentBefore: 0, cutFrom: Infinity });
    gauges.asked.length = 0;
    await open();
  });
  afterEach(shut);

  it('are asked for once, all of a station together, from a while before the first morning', async () => {
    const lake = lakeWith(LEVEL, WATER);
    expect((await fill(lake)).gauges).toEqual([]);
    const [first] = gauges.asked;
    expect(gauges.asked).toHaveLength(new Set(gauges.asked).size);
    expect(Date.parse(first?.split('/')[0] ?? '')).toBeLessThanOrEqual(Date.parse('2025-01-24T00:00:00Z'));
    const rows = await stored(lake);
    expect(new Set(rows.map(({ variable }) => variable))).toEqual(new Set(['level', 'water_temp']));
    expect(rows.length).toBeGreaterThan(2 * 24 * 45);
    gauges.asked.length = 0;
    await fill(lake);
    expect(gauges.asked).toEqual([]);
  });

  it('that a service cuts off are stored up to the last whole answer, and go on from there', async () => {
    const lake = lakeWith(LEVEL);
    gauges.cutFrom = 1;
    const { gauges: told } = await fill(lake);
    expect(told.join(' ')).toMatch(/announced \d+ rows and sent \d+.*Run the same command again/);
    const first = await stored(lake);
    const whole = gauges.asked[0]?.split('/').map((text) => Date.parse(text)) ?? [];
    expect(Math.max(...first.map(({ atMs }) => atMs))).toBe(whole[1]);
    const tries = gauges.asked.length;
    gauges.cutFrom = Infinity;
    gauges.asked.length = 0;
    expect((await fill(lake)).gauges).toEqual([]);
    expect(gauges.asked.length).toBeLessThanOrEqual(tries);
    expect(gauges.asked.some((asked) => Date.parse(asked.split('/')[0] ?? '') === whole[0])).toBe(false);
    expect((await stored(lake)).length).toBeGreaterThan(first.length);
  });

  it('that were silent are named, stay empty and are asked for again', async () => {
    const lake = lakeWith(LEVEL);
    gauges.silentBefore = Date.parse('2025-03-01T00:00:00Z');
    const { gauges: told } = await fill(lake);
    expect(told.join(' ')).toMatch(/usgs 07055660 level: no values in .* those mornings go without/);
    expect((await stored(lake)).every(({ atMs }) => atMs >= gauges.silentBefore)).toBe(true);
    gauges.silentBefore = 0;
    gauges.asked.length = 0;
    expect((await fill(lake)).gauges).toEqual([]);
    expect(gauges.asked.length).toBeGreaterThan(0);
  });

  it('of a service that gives no past are named, of another that gives one are read by their span', async () => {
    const release: GaugeConfig = {
      service: 'cwms',
      station: 'DAM',
      where: 'dam',
      office: 'LRN',
      variable: 'release',
      parameter: 'DAM.Flow-Out.Ave.1Hour.1Hour.rev',
    };
    const lake = lakeWith(release, {
      service: 'eccc',
      station: '05BB001',
      where: 'inflow',
      variable: 'discharge',
    });
    expect((await fill(lake)).gauges.join(' ')).toMatch(/eccc: gives no past of its gauges/);
    expect(gauges.asked.every((asked) => asked.startsWith('cwms 20'))).toBe(true);
    const rows = await stored(lake, 'cwms');
    expect(new Set(rows.map(({ variable, value }) => `${variable} ${value}`))).toEqual(
      new Set(['release 40']),
    );
  });
});

it(
  'make a replayed morning the same as one whose gauges were read as they spoke',
  { timeout: 240_000 },
  async () => {
    Object.assign(gauges, { silentBefore: 0, cutFrom: Infinity });
    const lake = lakeWith(LEVEL, WATER);
    const made = async (): Promise<ReplayedMorning[]> => {
      const mornings: ReplayedMorning[] = [];
      for await (const morning of replaySeason(ctx, lake, SEASON, [rules])) mornings.push(morning);
      return mornings;
    };
    await open();
    await fill(lake);
    const replayed = await made();
    const values = await stored(lake);
    await shut();

    await open();
    await fill({ ...lake, gauges: [] });
    const withoutGauges = await made();
    // As a refresh every hour would have put them.
    const byInstant = new Map<number, Observation[]>();
    for (const row of values) byInstant.set(row.atMs, [...(byInstant.get(row.atMs) ?? []), row]);
    for (const [atMs, rows] of byInstant) await record.putObservations(rows, atMs + 600_000);
    const live = await made();
    await shut();

    expect(replayed).toEqual(live);
    expect(replayed).not.toEqual(withoutGauges);
    const [document] = replayed.at(-1)?.documents ?? [];
    expect(document?.conditions.find(({ id }) => id === 'level24hM')?.now).toBeTruthy();
  },
);
