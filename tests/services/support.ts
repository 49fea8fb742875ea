import { readFileSync } from 'node:fs';
import {
  createClient,
  type ClientOptions,
  type HttpClient,
  type RefreshDeps,
} from '../../src/services/index.ts';
import type { GaugeConfig, LakeConfig } from '../../src/config/types.ts';
import type { ReplayServer } from '../helpers/replayServer.ts';

export const NOW_MS = Date.UTC(2026, 2, 6, 11, 15);
export const HOUR_MS = 3_600_000;

/** An invented lake; no such place. */
export function inventedLake(over: Partial<LakeConfig> = {}): LakeConfig {
  return {
    id: 'harrow-fork',
    name: 'Harrow Fork Lake',
    latDeg: 35.5,
    lonDeg: -86.25,
    zone: 'America/Chicago',
    waterBody: 'highland-reservoir',
    meanDepthM: 14,
    areaKm2: 21,
    bankDeg: 22,
    belowDam: false,
    species: 'largemouth',
    weather: ['open-meteo'],
    alerts: 'none',
    gauges: [],
    pockets: [],
    points: [],
    issueAt: '05:15',
    graceMinutes: 90,
    eveningOutlook: false,
    demo: true,
    ...over,
  };
}

export function gauge(over: Partial<GaugeConfig> = {}): GaugeConfig {
  return {
    service: 'usgs',
    station: 'USGS-00000001',
    variable: 'level',
    parameter: '00062',
    where: 'at the dam',
    ...over,
  };
}

export function recorded(path: string): string {
  return readFileSync(new URL(`../../fixtures/services/${path}`, import.meta.url), 'utf8');
}

export function recordedJson(path: string): unknown {
  return JSON.parse(recorded(path));
}

/** A client that never really sleeps. */
export function testClient(over: Partial<ClientOptions> = {}): HttpClient {
  return createClient({
    contact: 'ops@example.org',
    timeoutMs: 2000,
    parallelPerHost: 4,
    sleep: async () => Promise.resolve(),
    random: () => 0.5,
    ...over,
  });
}

export function testDeps(
  server: ReplayServer | null,
  client: HttpClient,
  over: Partial<RefreshDeps> = {},
): RefreshDeps {
  return {
    client,
    services: {
      contact: 'ops@example.org',
      baseUrls: server?.baseUrls ?? {},
      usgsKeyEnv: 'USGS_KEY',
      timeoutMs: 2000,
      parallelPerHost: 4,
    },
    nowMs: NOW_MS,
    pastDays: 3,
    ...over,
  };
}

/** A forecast body for the points of a query: constant, physically dull weather around `nowMs`. */
export function weatherBody(query: URLSearchParams, nowMs: number = NOW_MS): unknown {
  const lats = (query.get('latitude') ?? '').split(',').map(Number);
  const lons = (query.get('longitude') ?? '').split(',').map(Number);
  const pastDays = Number(query.get('past_days') ?? '0');
  const startS = Math.floor(nowMs / 86_400_000) * 86_400 - pastDays * 86_400;
  const time = Array.from({ length: (pastDays + 7) * 24 }, (_, i) => startS + i * 3600);
  const fill = (value: number): number[] => time.map(() => value);
  const bodies = lats.map((latitude, n) => ({
    latitude: latitude + 0.01,
    longitude: (lons[n] ?? 0) - 0.01,
    utc_offset_seconds: 0,
    timezone: 'GMT',
    hourly_units: {
      time: 'unixtime',
      temperature_2m: '°C',
      relative_humidity_2m: '%',
      precipitation: 'mm',
      wind_speed_10m: 'm/s',
      shortwave_radiation: 'W/m²',
      thunderstorm_probability: 'undefined',
    },
    hourly: {
      time,
      temperature_2m: fill(10 + n),
      relative_humidity_2m: fill(70),
      precipitation: fill(0.2),
      wind_speed_10m: fill(3),
      shortwave_radiation: fill(120),
      thunderstorm_probability: time.map(() => null),
    },
  }));
  return bodies.length === 1 ? bodies[0] : bodies;
}

const UNIT_MS: Readonly<Record<string, number>> = { d: 86_400_000, h: 3_600_000, m: 60_000, s: 1000 };

/** Turn the `date:` tokens of some recordings back into the times the service sends, as seen at `nowMs`. */
export function hydrated(value: unknown, nowMs: number = NOW_MS): unknown {
  if (Array.isArray(value)) return value.map((item) => hydrated(item, nowMs));
  if (typeof value === 'object' && value !== null) {
    return Object.fromEntries(Object.entries(value).map(([key, item]) => [key, hydrated(item, nowMs)]));
  }
  return typeof value === 'string' && value.startsWith('date:') ? hydrateToken(value, nowMs) : value;
}

function hydrateToken(token: string, nowMs: number): string {
  const pattern =
    /^date:(now(?::hour)?|today)\s*(?:(\d{2}):(\d{2}):([+-]?\d{1,2}))?\s*(?:([+-]?\d+)\s+([a-z]+))?\s*(?:\/\s*(P\S+))?$/i;
  const match = pattern.exec(token);
  if (match === null) return token;
  const [, from, hour, minute, offset, count, unit, length] = match;
  let ms = from === 'now:hour' ? Math.floor(nowMs / HOUR_MS) * HOUR_MS : nowMs;
  if (from === 'today') {
    ms =
      Math.floor(nowMs / 86_400_000) * 86_400_000 +
      (Number(hour) - Number(offset)) * HOUR_MS +
      Number(minute) * 60_000;
  }
  if (count !== undefined) ms += Number(count) * (UNIT_MS[unit?.charAt(0).toLowerCase() ?? ''] ?? 0);
  const iso = new Date(ms).toISOString().replace(/\.\d{3}Z$/, '+00:00');
  return length === undefined ? iso : `${iso}/${length}`;
}
