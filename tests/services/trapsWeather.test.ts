/** Known faults of the public weather services, each as a test; see fixtures/services/README.md for the recordings. */
import { afterEach, describe, expect, it } from 'vitest';
import { ATTRIBUTIONS, refreshLakes } from '../../src/services/index.ts';
import { mapAlerts } from '../../src/services/nws/alerts.ts';
import { mapGrid } from '../../src/services/nws/grid.ts';
import { mapStation, mergeStations } from '../../src/services/nws/observations.ts';
import { expand, prorate } from '../../src/services/nws/runs.ts';
import { mapOpenMeteo } from '../../src/services/openMeteo/map.ts';
import { startReplayServer, type ReplayOptions, type ReplayServer } from '../helpers/replayServer.ts';
import {
  HOUR_MS,
  hydrated,
  inventedLake,
  NOW_MS,
  recordedJson,
  testClient,
  testDeps,
  weatherBody,
} from './support.ts';

let server: ReplayServer | null = null;
afterEach(async () => {
  await server?.close();
  server = null;
});
const start = async (options: ReplayOptions): Promise<ReplayServer> =>
  (server = await startReplayServer(options));

const TORONTO = { id: 'x', latDeg: 43.7, lonDeg: -79.4 };
const toronto = () => recordedJson('open-meteo/forecast_toronto_2026-03-05.json');

describe('a cell of a service', () => {
  const cell = (longitude: number) => ({ ...(toronto() as object), longitude });
  it.each([
    [-179.98, 179.99],
    [179.99, -179.98],
    [179.9, -179.9],
  ])('at longitude %d is that of a lake at %d, over the line where the day changes', (there, lonDeg) => {
    expect(
      mapOpenMeteo(cell(there), [{ ...TORONTO, lonDeg }], Date.UTC(2026, 2, 5)).flat().length,
    ).toBeGreaterThan(100);
  });

  it.each([
    [179.4, -179.98],
    [0, 180],
    [79.4, -79.4],
  ])('at longitude %d is another place than %d', (there, lonDeg) => {
    expect(() => mapOpenMeteo(cell(there), [{ ...TORONTO, lonDeg }], 0)).toThrow(/another place/);
  });
});

describe('trap 6, past hours of a model are not observations', () => {
  it('calls every past hour of the recorded reply "model" and every coming one "forecast"', () => {
    const now = Date.UTC(2026, 2, 6, 2);
    const [found] = mapOpenMeteo(toronto(), [TORONTO], now);
    const kinds = new Set(found?.map((o) => `${o.kind} ${o.atMs <= now ? 'past' : 'coming'}`));
    expect(kinds).toEqual(new Set(['model past', 'forecast coming']));
    expect(found?.filter((o) => o.kind === 'forecast').every((o) => o.issuedMs === now)).toBe(true);
  });

  it('knows why: the recorded radar analysis has a dry 18 September where the model had 51.5 mm', () => {
    const iem = recordedJson('iem/iemre_multiday_2026-09-12_23.json') as {
      data: { date: string; mrms_precip_in: number }[];
    };
    expect(iem.data.find((day) => day.date === '2026-09-18')?.mrms_precip_in).toBe(0);
  });
});

describe('trap 7, one offset is applied to every row', () => {
  it('reads local hours over the spring change as evenly spaced instants', () => {
    const [found] = mapOpenMeteo(toronto(), [TORONTO], Date.UTC(2026, 2, 5));
    const times = (found ?? []).filter((o) => o.variable === 'air_temp').map((o) => o.atMs);
    expect(times[0]).toBe(Date.UTC(2026, 2, 4, 5));
    expect(new Set(times.slice(1).map((t, i) => t - (times[i] ?? 0)))).toEqual(new Set([HOUR_MS]));
  });

  it('reads the recorded autumn change likewise', () => {
    const point = { id: 'x', latDeg: 36.07, lonDeg: -79.11 };
    const [found] = mapOpenMeteo(
      recordedJson('open-meteo/previous_runs_dst_fall.json'),
      [point],
      Date.UTC(2026, 0, 1),
    );
    const rain = (found ?? []).filter((o) => o.variable === 'rain');
    expect(rain[0]?.atMs).toBe(Date.UTC(2025, 10, 1, 4));
    expect(rain.at(-1)?.atMs).toBe(Date.UTC(2025, 10, 4, 3));
  });

  it('asks for unix times and no zone', async () => {
    const replay = await start({ openMeteo: weatherBody });
    await refreshLakes([inventedLake()], testDeps(replay, testClient()));
    expect(replay.seen[0]?.query.get('timeformat')).toBe('unixtime');
    expect(replay.seen[0]?.query.has('timezone')).toBe(false);
  });
});

describe('trap 8, oddities of the weather body', () => {
  it('converts by the unit given, also "mp/h" and "inch"', () => {
    const [found] = mapOpenMeteo(toronto(), [TORONTO], 0);
    expect(found?.find((o) => o.variable === 'wind_speed')?.value).toBeCloseTo(4 * 0.44704, 9);
    expect(found?.find((o) => o.variable === 'air_temp')?.value).toBeCloseTo(0, 9);
    expect(found?.find((o) => o.variable === 'rain')).toMatchObject({ periodS: 3600 });
  });

  it('leaves nulls out, and a variable the model does not have', () => {
    const body = weatherBody(new URLSearchParams('latitude=43.7&longitude=-79.4&past_days=1')) as {
      hourly: Record<string, (number | null)[]>;
    };
    body.hourly['temperature_2m']?.fill(null, 5);
    const [found] = mapOpenMeteo(body, [TORONTO], NOW_MS);
    expect(found?.filter((o) => o.variable === 'air_temp')).toHaveLength(5);
    expect(found?.some((o) => o.variable === 'thunder')).toBe(false);
  });

  it('refuses an error body whatever the status', () => {
    expect(() => mapOpenMeteo(recordedJson('open-meteo/error_400.json'), [TORONTO], 0)).toThrow(
      "Open-Meteo refused the request: Parameter 'start_date' is out of allowed range from 2016-01-01 to 2026-10-09.",
    );
  });

  it('refuses a column in an unknown unit by name, and keeps the others', () => {
    const body = weatherBody(new URLSearchParams('latitude=43.7&longitude=-79.4')) as {
      hourly_units: Record<string, string>;
    };
    body.hourly_units['precipitation'] = 'furlong';
    const noted: string[] = [];
    const [found] = mapOpenMeteo(body, [TORONTO], 0, (problem, id) => noted.push(`${id}: ${problem}`));
    expect(noted).toEqual([
      expect.stringContaining(`${TORONTO.id}: Open-Meteo gave the unit "furlong" for rain`),
    ]);
    expect(found?.some((o) => o.variable === 'rain')).toBe(false);
    expect(found?.some((o) => o.variable === 'air_temp')).toBe(true);
  });

  it('asks for one day more than needed, since rain is that of the hour before', async () => {
    const replay = await start({ openMeteo: weatherBody });
    await refreshLakes([inventedLake()], testDeps(replay, testClient(), { pastDays: 3 }));
    expect(replay.seen[0]?.query.get('past_days')).toBe('4');
  });
});

describe('trap 9, terms of the free weather service', () => {
  it('carries name, link and licence to stand next to the data', () => {
    expect(ATTRIBUTIONS['open-meteo'].attribution).toContain('Open-Meteo.com');
    expect(ATTRIBUTIONS['open-meteo'].licence).toContain('https://creativecommons.org/licenses/by/4.0/');
  });

  it('stops before the limit per minute is reached', async () => {
    const replay = await start({ openMeteo: weatherBody });
    const host = new URL(replay.url).host;
    const client = testClient({
      budgets: { [host]: [{ windowMs: 60_000, max: 2 }] },
      maxWaitMs: 1000,
      nowMs: () => NOW_MS,
    });
    const get = async () =>
      client.get({ url: `${replay.url}/v1/forecast?latitude=1&longitude=1`, service: 'Open-Meteo' });
    await get();
    await get();
    await expect(get()).rejects.toMatchObject({ retryable: true, retryAfterMs: 60_000 });
    expect(replay.seen).toHaveLength(2);
  });
});

describe('trap 10, the raw grid', () => {
  const issued = Date.UTC(2022, 1, 4, 3, 15, 41);
  const grid = () => mapGrid(recordedJson('nws/library/detailed_forecast.json'), 'x', 'TAE/58,65', issued);

  it('expands merged hours and clips the past', () => {
    const air = grid().filter((o) => o.variable === 'air_temp');
    expect(air[0]?.atMs).toBe(Date.UTC(2022, 1, 4, 4));
    expect(air.at(-1)?.atMs).toBe(Date.UTC(2022, 1, 11, 10));
    expect(new Set(air.slice(1).map((o, i) => o.atMs - (air[i]?.atMs ?? 0)))).toEqual(new Set([HOUR_MS]));
  });

  it('shares rain totals over their hours and loses none: 20.07 mm in the recorded grid', () => {
    // The total was added up by hand from the recorded runs; all of it falls after the issue.
    const rain = grid().filter((o) => o.variable === 'rain');
    expect(rain.reduce((sum, o) => sum + o.value, 0)).toBeCloseTo(20.07, 1);
    expect(rain.every((o) => o.periodS === 3600)).toBe(true);
  });

  it('does not continue the rain as zero where its runs end', () => {
    const rain = grid().filter((o) => o.variable === 'rain');
    const air = grid().filter((o) => o.variable === 'air_temp');
    expect(rain.at(-1)?.atMs).toBe(Date.UTC(2022, 1, 10, 12));
    expect(rain.at(-1)?.atMs).toBeLessThan(air.at(-1)?.atMs ?? 0);
  });

  it('reads runs as long as P6DT15H, and half hours only when wholly covered', () => {
    const at = Date.UTC(2026, 0, 1);
    expect(expand([{ startMs: at, endMs: at + 159 * HOUR_MS, value: 1 }], 0)).toHaveLength(159);
    const half = [{ startMs: at + HOUR_MS / 2, endMs: at + 2 * HOUR_MS, value: 3 }];
    expect(prorate(half, 0)).toEqual([[at + 2 * HOUR_MS, 2]]);
  });

  it('accepts empty layers without a unit', () => {
    expect(grid().some((o) => o.variable === 'thunder')).toBe(false);
  });
});

describe('trap 11, failures of the weather service', () => {
  const lake = inventedLake({ weather: ['nws'] });
  const fresh = () =>
    hydrated({ ...(recordedJson('nws/relative-dates/e2e_gridpoints_LZK_83,73.json') as object) });
  const grid = () => {
    const body = fresh() as { properties: Record<string, unknown> };
    return {
      ...body,
      properties: { ...body.properties, updateTime: new Date(NOW_MS - HOUR_MS).toISOString() },
    };
  };

  it('refuses an 88-hour-old grid served with status 200', async () => {
    const replay = await start({ nwsGrid: grid, fault: { nws: 'stale' } });
    const [refreshed] = await refreshLakes([lake], testDeps(replay, testClient()));
    expect(refreshed?.observations).toEqual([]);
    expect(refreshed?.retrievals[0]?.problem).toBe(
      'National Weather Service still serves a forecast issued 89 h ago; it was not used.',
    );
  });

  it('looks the cell up afresh when it has moved', async () => {
    const replay = await start({ nwsGrid: grid });
    const client = testClient();
    const deps = testDeps(replay, client);
    await refreshLakes([lake], deps);
    replay.failOnce('/gridpoints/DMO/12,34', 404, recordedJson('nws/problems/InvalidPoint_404.json'));
    const before = replay.seen.length;
    const [refreshed] = await refreshLakes([lake], deps);
    expect(
      replay.seen
        .slice(before)
        .map((r) => r.path)
        .slice(0, 4),
    ).toEqual([
      '/gridpoints/DMO/12,34',
      '/points/35.5,-86.25',
      '/gridpoints/DMO/12,34/stations',
      '/gridpoints/DMO/12,34',
    ]);
    expect(refreshed?.retrievals[0]?.ok).toBe(true);
  });

  it('names the reason of an expired grid in one sentence', async () => {
    const replay = await start({ nwsGrid: grid });
    const expired = recordedJson('nws/problems/ForecastGridExpired_503.json');
    for (let i = 0; i < 3; i += 1) replay.failOnce('/gridpoints/DMO/12,34', 503, expired);
    const [refreshed] = await refreshLakes([lake], testDeps(replay, testClient()));
    expect(refreshed?.retrievals[0]?.problem).toBe(
      'National Weather Service answered 503: it is unavailable for now ("The requested forecast grid was issued 2020-07-07T12:17:50+00:00 and has expired").',
    );
  });
});

describe('trap 12, headers and nulls of the weather service', () => {
  it('sends a User-Agent with the contact, and no parameter the service does not know', async () => {
    const replay = await start({
      nwsObservations: {
        KDEM: () => hydrated(recordedJson('nws/relative-dates/e2e_stations_KLIT_observations__limit=1.json')),
      },
    });
    await refreshLakes([inventedLake({ weather: ['nws'], alerts: 'nws' })], testDeps(replay, testClient()));
    expect(replay.seen.every((r) => r.headers['user-agent'] === 'thawline (ops@example.org)')).toBe(true);
    expect(replay.seen.map((r) => r.path)).toContain('/stations/KDEM/observations');
  });

  it('does not read null rain as zero, and converts by the unit code', () => {
    const body = recordedJson('nws/relative-dates/e2e_stations_KLIT_observations__limit=1.json');
    const found = mapStation(body, 'x', 'KLIT', Date.UTC(2024, 1, 20, 16));
    expect(found.some((o) => o.variable === 'rain')).toBe(false);
    expect(found.find((o) => o.variable === 'wind_speed')?.value).toBeCloseTo(1.5, 9);
    expect(found.find((o) => o.variable === 'pressure')?.value).toBeCloseTo(1024.3, 9);
  });

  it('merges reports: the nearest station speaks, the next one fills its gaps', () => {
    const at = (variable: 'air_temp' | 'rain', station: string, minute: number, value: number) =>
      ({
        lake: 'x',
        variable,
        source: 'nws',
        station,
        kind: 'observed',
        atMs: NOW_MS + minute * 60_000,
        periodS: 0,
        value,
        issuedMs: null,
      }) as const;
    const merged = mergeStations([
      [at('air_temp', 'NEAR', 0, 10), at('air_temp', 'NEAR', 20, 11)],
      [at('air_temp', 'FAR', 30, 15), at('rain', 'FAR', 30, 2)],
    ]);
    expect(merged.map((o) => [o.variable, o.station, o.value])).toEqual([
      ['air_temp', 'NEAR', 11],
      ['rain', 'FAR', 2],
    ]);
  });
});

describe('trap 13, official alerts', () => {
  it('asks by point, and tells "none" from "not checked"', async () => {
    const replay = await start({});
    const lake = inventedLake({ weather: [], alerts: 'nws' });
    const [checked] = await refreshLakes([lake], testDeps(replay, testClient()));
    expect(replay.seen[0]?.query.get('point')).toBe('35.5,-86.25');
    expect(checked).toMatchObject({ alerts: [], alertsCheckedMs: NOW_MS });
    replay.setFault('nws', '500');
    const [failed] = await refreshLakes([lake], testDeps(replay, testClient()));
    expect(failed).toMatchObject({ alerts: [], alertsCheckedMs: null });
  });

  it('drops a test and keeps the real alert beside it', () => {
    const alerts = mapAlerts(
      recordedJson('nws/alerts/nws_alerts_with_test.json'),
      'x',
      Date.UTC(2026, 2, 24, 15),
    );
    expect(alerts.map((a) => a.event)).toEqual(['Heat Advisory']);
  });

  it('keeps a hazard whose message has expired but which has not ended', () => {
    const alert = {
      event: 'Flood Watch',
      status: 'Actual',
      ends: '2026-03-06T20:00:00Z',
      expires: '2026-03-06T10:00:00Z',
    };
    const body = {
      features: [
        { properties: { ...alert, id: 'a' } },
        { properties: { ...alert, id: 'b', ends: '2026-03-06T11:00:00Z' } },
      ],
    };
    expect(mapAlerts(body, 'x', NOW_MS).map((a) => a.id)).toEqual(['a']);
  });

  it('shows an updated alert once', () => {
    const body = {
      features: [
        { properties: { id: 'urn:1', event: 'Wind Advisory', status: 'Actual', references: [] } },
        {
          properties: {
            id: 'urn:2',
            event: 'Wind Advisory',
            status: 'Actual',
            messageType: 'Update',
            references: [{ identifier: 'urn:1' }],
          },
        },
      ],
    };
    expect(mapAlerts(body, 'x', NOW_MS).map((a) => a.id)).toEqual(['urn:2']);
  });

  it('reads all recorded alerts, verbatim', () => {
    const body = hydrated(recordedJson('nws/relative-dates/testing_alerts_active__status=actual.json'));
    const alerts = mapAlerts(body, 'x', NOW_MS);
    expect(alerts.length).toBeGreaterThan(20);
    expect(alerts[0]).toMatchObject({
      event: 'Wind Advisory',
      issuer: 'NWS Nashville TN',
      severity: 'Moderate',
    });
    expect(alerts[0]?.description).toContain('WHAT...Sustained wind speeds of 25 to 30 mph');
  });
});
