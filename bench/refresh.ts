/**
 * How many requests one refresh of 50 lakes with 100 gauges makes, against a server on loopback.
 * Run: npx tsx bench/refresh.ts
 */
import type { GaugeConfig, LakeConfig } from '../src/config/types.ts';
import { createClient, refreshLakes } from '../src/services/index.ts';
import { startReplayServer, type UsgsReplayRow } from '../tests/helpers/replayServer.ts';

const NOW_MS = Date.UTC(2026, 2, 6, 11, 15);
const LAKES = 50;
const QUARTER_MS = 900_000;

const site = (lake: number, n: number): string => `USGS-${String(90_000_000 + lake * 10 + n)}`;

function lakeOf(n: number): LakeConfig {
  const gauge = (k: number, variable: GaugeConfig['variable'], parameter: string): GaugeConfig => ({
    service: 'usgs',
    station: site(n, k),
    variable,
    parameter,
    where: 'invented',
  });
  return {
    id: `lake-${n}`,
    name: `Invented Lake ${n}`,
    latDeg: 30 + (n % 10) * 0.4,
    lonDeg: -95 + Math.floor(n / 10),
    zone: 'America/Chicago',
    waterBody: 'highland-reservoir',
    meanDepthM: 12,
    areaKm2: 20,
    bankDeg: 20,
    belowDam: false,
    species: 'largemouth',
    weather: ['open-meteo'],
    alerts: 'nws',
    gauges: [gauge(0, 'level', '00062'), gauge(1, 'discharge', '00060')],
    pockets: [],
    points: [],
    issueAt: '05:15',
    graceMinutes: 90,
    eveningOutlook: false,
    demo: true,
  };
}

/** A day of quarter-hourly rows of both gauges of every lake. */
function gaugeRows(days: number): UsgsReplayRow[] {
  const rows: UsgsReplayRow[] = [];
  for (let n = 0; n < LAKES; n += 1) {
    for (const [k, parameter, unit] of [
      [0, '00062', 'ft'],
      [1, '00060', 'ft^3/s'],
    ] as const) {
      for (let i = 0; i < days * 96; i += 1) {
        rows.push({
          site: site(n, k),
          parameter,
          series: `${n}-${k}`,
          atMs: NOW_MS - i * QUARTER_MS,
          value: '100.5',
          unit,
        });
      }
    }
  }
  return rows;
}

function weather(query: URLSearchParams): unknown {
  const lats = (query.get('latitude') ?? '').split(',').map(Number);
  const lons = (query.get('longitude') ?? '').split(',').map(Number);
  const startS = Math.floor(NOW_MS / 86_400_000) * 86_400 - Number(query.get('past_days')) * 86_400;
  const time = Array.from({ length: (Number(query.get('past_days')) + 7) * 24 }, (_, i) => startS + i * 3600);
  return lats.map((latitude, n) => ({
    latitude,
    longitude: lons[n],
    utc_offset_seconds: 0,
    hourly_units: { time: 'unixtime', temperature_2m: '°C', precipitation: 'mm' },
    hourly: { time, temperature_2m: time.map(() => 11.5), precipitation: time.map(() => 0.1) },
  }));
}

async function run(days: number): Promise<void> {
  const server = await startReplayServer({ openMeteo: weather, usgs: gaugeRows(days), usgsPage: 50_000 });
  const client = createClient({ contact: 'bench@example.org', timeoutMs: 30_000, parallelPerHost: 4 });
  const started = performance.now();
  const refreshed = await refreshLakes(
    Array.from({ length: LAKES }, (_, n) => lakeOf(n)),
    {
      client,
      services: {
        contact: 'bench@example.org',
        baseUrls: server.baseUrls,
        usgsKeyEnv: 'X',
        timeoutMs: 30_000,
        parallelPerHost: 4,
      },
      nowMs: NOW_MS,
      pastDays: days,
    },
  );
  const ms = performance.now() - started;
  const by = new Map<string, number>();
  for (const { service } of server.seen) by.set(service, (by.get(service) ?? 0) + 1);
  const values = refreshed.reduce((sum, r) => sum + r.observations.length, 0);
  const failed = refreshed.flatMap((r) => r.retrievals).filter((r) => !r.ok).length;
  const split = [...by].map(([service, n]) => `${service} ${n}`).join(', ');
  console.log(
    `${LAKES} lakes, ${LAKES * 2} gauges, ${days} days: ${server.seen.length} requests (${split}), ` +
      `${values} values, ${failed} failures, ${Math.round(ms)} ms on loopback`,
  );
  await client.close();
  await server.close();
}

await run(1);
await run(30);
