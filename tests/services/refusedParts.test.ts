/** What one bad part of a reply may cost: itself, and a sentence. Bodies are made up unless they say otherwise. */
import { createServer, type Server } from 'node:http';
import type { AddressInfo } from 'node:net';
import { afterEach, describe, expect, it } from 'vitest';
import { refreshLakes } from '../../src/services/index.ts';
import { mapFloodStatus, mapStageflow } from '../../src/services/nwps.ts';
import { mapAlerts } from '../../src/services/nws/alerts.ts';
import { mapGrid } from '../../src/services/nws/grid.ts';
import { mapStation } from '../../src/services/nws/observations.ts';
import { startReplayServer, type ReplayOptions, type ReplayServer } from '../helpers/replayServer.ts';
import {
  gauge,
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
let plain: Server | null = null;
afterEach(async () => {
  await server?.close();
  plain?.closeAllConnections();
  await new Promise((done) => (plain === null ? done(null) : plain.close(done)));
  server = null;
  plain = null;
});
const start = async (options: ReplayOptions): Promise<ReplayServer> =>
  (server = await startReplayServer(options));

const iso = (ms: number): string => new Date(ms).toISOString().replace('.000Z', '+00:00');

describe('a forecast grid with a layer that has values and no unit', () => {
  /** A recorded grid; the layer of the chance of thunder as it was once seen: one value, no `uom`. */
  const grid = (): unknown => {
    const body = hydrated(recordedJson('nws/relative-dates/e2e_gridpoints_LZK_83,73.json')) as {
      properties: Record<string, unknown>;
    };
    return {
      ...body,
      properties: {
        ...body.properties,
        updateTime: iso(NOW_MS - HOUR_MS),
        probabilityOfThunder: { values: [{ validTime: `${iso(NOW_MS + HOUR_MS)}/PT6H`, value: 15 }] },
      },
    };
  };

  it('loses that layer alone: temperature, wind and rain stay', async () => {
    const replay = await start({ nwsGrid: grid });
    const [refreshed] = await refreshLakes(
      [inventedLake({ weather: ['nws'] })],
      testDeps(replay, testClient()),
    );
    const kinds = new Set(refreshed?.observations.map((o) => o.variable));
    expect([...kinds]).toEqual(expect.arrayContaining(['air_temp', 'wind_speed', 'rain']));
    expect(kinds.has('thunder')).toBe(false);
    const problems = refreshed?.retrievals.filter((r) => !r.ok).map((r) => r.problem) ?? [];
    expect(problems.some((p) => p.includes('gave no unit for thunder'))).toBe(true);
  });

  it('is refused whole, with the reason, when no layer can be used', () => {
    const body = {
      properties: {
        updateTime: iso(NOW_MS),
        temperature: { uom: 'furlong', values: [{ validTime: `${iso(NOW_MS)}/PT6H`, value: 1 }] },
      },
    };
    expect(() => mapGrid(body, 'x', 'c', NOW_MS)).toThrow('the unit "furlong" for air_temp');
  });
});

describe('a station report with a field in an unknown unit', () => {
  it('keeps the other fields and names this one once', () => {
    const report = (minutes: number) => ({
      properties: {
        timestamp: iso(NOW_MS - minutes * 60_000),
        temperature: { value: 9, unitCode: 'wmoUnit:degC' },
        windSpeed: { value: 3, unitCode: 'wmoUnit:furlong' },
      },
    });
    const noted = new Set<string>();
    const found = mapStation({ features: [report(5), report(65)] }, 'x', 'KAAA', NOW_MS, (p) => noted.add(p));
    expect(found.map((o) => o.variable)).toEqual(['air_temp', 'air_temp']);
    expect([...noted]).toEqual([expect.stringContaining('the unit "wmoUnit:furlong" for wind_speed')]);
  });
});

describe('an official statement that cannot be read', () => {
  it('does not look like none, and does not cost the others', () => {
    const noted: string[] = [];
    const good = { id: 'a', event: 'Wind Advisory', status: 'Actual', severity: 'Moderate' };
    const found = mapAlerts(
      { features: [{ properties: { id: 'b', event: null } }, { properties: good }] },
      'x',
      NOW_MS,
      (problem) => noted.push(problem),
    );
    expect(found.map((a) => a.event)).toEqual([
      'Official statement that could not be read here',
      'Wind Advisory',
    ]);
    expect(noted).toHaveLength(1);
  });
});

describe('a river gauge of the prediction service', () => {
  const observed = {
    primaryName: 'Stage',
    primaryUnits: 'ft',
    data: [{ validTime: iso(NOW_MS - HOUR_MS), primary: 10 }],
  };

  it('keeps what was observed when its forecast has no issue time', () => {
    const noted: string[] = [];
    const forecast = { data: [{ validTime: iso(NOW_MS + HOUR_MS), primary: 11 }] };
    const found = mapStageflow({ observed, forecast }, gauge({ service: 'nwps' }), 'x', (p) => noted.push(p));
    expect(found.map((o) => o.kind)).toEqual(['observed']);
    expect(noted).toEqual([expect.stringContaining('without its issue time')]);
  });

  it('keeps its flood category when the thresholds are in an unknown unit', () => {
    const noted: string[] = [];
    const status = mapFloodStatus(
      {
        status: { observed: { floodCategory: 'minor', validTime: iso(NOW_MS - HOUR_MS) } },
        flood: { stageUnits: 'furlong', categories: { minor: { stage: 12 } } },
      },
      'x',
      's',
      NOW_MS,
      (problem) => noted.push(problem),
    );
    expect(status).toMatchObject({ observed: 'minor', thresholdsM: {} });
    expect(noted).toHaveLength(1);
  });

  it('calls a flood category unknown that is dated in the future', () => {
    const status = mapFloodStatus(
      { status: { observed: { floodCategory: 'no_flooding', validTime: iso(NOW_MS + 2 * HOUR_MS) } } },
      'x',
      's',
      NOW_MS,
    );
    expect(status.observed).toBe('unknown');
  });
});

describe('a row of a gauge that cannot be read', () => {
  it('costs itself alone, and the sentence says how many', async () => {
    const feature = (properties: Record<string, unknown>) => ({ properties });
    const good = {
      time_series_id: 's',
      monitoring_location_id: 'USGS-00000001',
      parameter_code: '00062',
      time: iso(NOW_MS - HOUR_MS),
      value: '600',
      unit_of_measure: 'ft',
    };
    const body = { type: 'FeatureCollection', features: [feature({ ...good, time: 7 }), feature(good)] };
    const base = await serve((response) => response.end(JSON.stringify(body)));
    const deps = testDeps(null, testClient());
    const [refreshed] = await refreshLakes([inventedLake({ weather: [], gauges: [gauge()] })], {
      ...deps,
      services: { ...deps.services, baseUrls: { usgs: base } },
    });
    expect(refreshed?.observations).toHaveLength(1);
    expect(refreshed?.retrievals.filter((r) => !r.ok).map((r) => r.problem)).toEqual([
      'USGS: 1 of 2 rows could not be read and were not used.',
    ]);
  });
});

describe('two values for one instant', () => {
  const refreshRows = async (rows: readonly (readonly [value: string, modified?: string])[]) => {
    const features = rows.map(([value, last_modified]) => ({
      properties: {
        time_series_id: 's',
        monitoring_location_id: 'USGS-00000001',
        parameter_code: '00062',
        time: iso(NOW_MS - HOUR_MS),
        value,
        unit_of_measure: 'ft',
        ...(last_modified === undefined ? {} : { last_modified }),
      },
    }));
    const base = await serve((response) =>
      response.end(JSON.stringify({ type: 'FeatureCollection', features })),
    );
    const deps = testDeps(null, testClient());
    const [refreshed] = await refreshLakes([inventedLake({ weather: [], gauges: [gauge()] })], {
      ...deps,
      services: { ...deps.services, baseUrls: { usgs: base } },
    });
    return refreshed?.observations.map(({ value, doubt }) => [Math.round(value / 0.3048), doubt?.code]);
  };

  it('that differ leave it in doubt', async () => {
    expect(await refreshRows([['616'], ['628']])).toEqual([[616, 'doubt.twoValues']]);
  });
  it('that say the same do not', async () => {
    expect(await refreshRows([['616'], ['616.02']])).toEqual([[616, undefined]]);
    expect(await refreshRows([['616'], ['616']])).toEqual([[616, undefined]]);
  });
  it('of which one is newer are a revision', async () => {
    const [old, young] = ['2026-03-06T10:20:00Z', '2026-03-06T10:50:00Z'];
    expect(
      await refreshRows([
        ['628', young],
        ['616', old],
      ]),
    ).toEqual([[628, undefined]]);
    expect(
      await refreshRows([
        ['616', old],
        ['628', young],
      ]),
    ).toEqual([[628, undefined]]);
  });
});

/** A bare server on loopback, for what no recorded service does. */
async function serve(
  answer: (response: import('node:http').ServerResponse, count: number) => void,
): Promise<string> {
  let count = 0;
  plain = createServer((_request, response) => {
    count += 1;
    answer(response, count);
  });
  await new Promise<void>((ready) => plain?.listen(0, '127.0.0.1', ready));
  return `http://127.0.0.1:${(plain.address() as AddressInfo).port}`;
}

describe('a stamp in the future', () => {
  const MINUTE = 60_000;
  const refreshWith = async (aheadMs: readonly number[], wallMs = NOW_MS) => {
    const replay = await start({
      eccc: () => ({
        features: aheadMs.map((ahead) => ({
          properties: { STATION_NUMBER: '05BB001', DATETIME: iso(NOW_MS + ahead), LEVEL: 2, DISCHARGE: null },
        })),
      }),
    });
    const lake = inventedLake({ weather: [], gauges: [gauge({ service: 'eccc', station: '05BB001' })] });
    const [refreshed] = await refreshLakes([lake], { ...testDeps(replay, testClient()), wallMs });
    return refreshed;
  };

  it.each([2 * HOUR_MS, 24 * HOUR_MS, 10 * 365 * 24 * HOUR_MS, 11 * MINUTE])(
    'is refused %i ms ahead, and said',
    async (ahead) => {
      const refreshed = await refreshWith([-HOUR_MS, ahead]);
      expect(refreshed?.observations.map((o) => o.atMs)).toEqual([NOW_MS - HOUR_MS]);
      expect(refreshed?.retrievals.find((r) => !r.ok)?.problem).toContain('stamped in the future');
    },
  );

  it.each([
    [11 * MINUTE, true],
    [6 * HOUR_MS, true],
    [10 * 365 * 24 * HOUR_MS, false],
  ])('%i ms ahead leaves in doubt what the gauge sent of the last day: %s', async (ahead, isClock) => {
    const refreshed = await refreshWith([-30 * HOUR_MS, -HOUR_MS, ahead]);
    expect(refreshed?.observations.map(({ doubt }) => doubt?.code)).toEqual([
      undefined,
      isClock ? 'doubt.clock' : undefined,
    ]);
  });

  it('is no fault of a clock where a past morning is asked for and the value has come since', async () => {
    const refreshed = await refreshWith([-HOUR_MS, 6 * HOUR_MS], NOW_MS + 7 * HOUR_MS);
    expect(refreshed?.observations.map(({ doubt }) => doubt?.code)).toEqual([undefined]);
  });

  it('is taken where clocks differ by less than ten minutes', async () => {
    const refreshed = await refreshWith([-HOUR_MS, 9 * MINUTE]);
    expect(refreshed?.observations).toHaveLength(2);
    expect(refreshed?.retrievals.every((r) => r.ok)).toBe(true);
  });

  it('stands on every hour of a forecast, where it belongs', async () => {
    const replay = await start({ openMeteo: weatherBody });
    const [refreshed] = await refreshLakes([inventedLake()], testDeps(replay, testClient()));
    expect(refreshed?.observations.some((o) => o.kind === 'forecast' && o.atMs > NOW_MS + HOUR_MS)).toBe(
      true,
    );
    expect(refreshed?.retrievals.every((r) => r.ok)).toBe(true);
  });
});

describe('an answer of "not changed" that nobody asked for', () => {
  it('is a failure: it brings nothing', async () => {
    const base = await serve((response) => response.writeHead(304).end());
    const client = testClient({ attempts: 2 });
    await expect(client.get({ url: `${base}/x`, service: 'The service' })).rejects.toThrow(
      'The service answered "not changed" (304) although nothing older was named; it brought nothing.',
    );
  });
});

describe('pages that each come just in time', () => {
  it('are given up when the whole takes six times the limit of one', async () => {
    const timeoutMs = 200;
    let asked = 0;
    const base = await serve((response, count) => {
      asked = count;
      const next = { rel: 'next', href: `${base}/ogcapi/v1/collections/continuous/items?page=${count}` };
      const body = {
        type: 'FeatureCollection',
        features: [
          {
            properties: {
              time_series_id: 's',
              monitoring_location_id: 'USGS-00000001',
              parameter_code: '00062',
              time: iso(NOW_MS - HOUR_MS),
              value: '600',
              unit_of_measure: 'ft',
            },
          },
        ],
        links: count < 45 ? [next] : [],
      };
      setTimeout(() => response.end(JSON.stringify(body)), timeoutMs * 0.75);
    });
    const deps = testDeps(null, testClient({ timeoutMs: 2000, attempts: 1 }));
    const [refreshed] = await refreshLakes([inventedLake({ weather: [], gauges: [gauge()] })], {
      ...deps,
      services: { ...deps.services, timeoutMs, baseUrls: { usgs: base } },
    });
    expect(refreshed?.observations).toEqual([]);
    expect(refreshed?.retrievals[0]?.problem).toBe(
      'USGS took more than 1.2 s for one answer in many parts; nothing of it was used.',
    );
    expect(asked).toBeLessThan(15);
  });
});

describe('a stream that has daily values only', () => {
  const stream = gauge({ station: 'USGS-00000003', variable: 'discharge', parameter: '00060' });
  const day = (date: string, value: string) => ({
    site: 'USGS-00000003',
    parameter: '00060',
    series: 'd',
    statistic: '00003',
    date,
    value,
    unit: 'ft^3/s',
  });

  it('gives them, each marked as the mean of a day and stamped with its end', async () => {
    const replay = await start({ usgsDaily: [day('2026-03-04', '100'), day('2026-03-05', '120')] });
    const lake = inventedLake({ weather: [], gauges: [stream] });
    const [refreshed] = await refreshLakes([lake], testDeps(replay, testClient()));
    expect(refreshed?.observations).toMatchObject([
      { variable: 'discharge', periodS: 86_400, atMs: Date.UTC(2026, 2, 5, 6) },
      {
        variable: 'discharge',
        periodS: 86_400,
        atMs: Date.UTC(2026, 2, 6, 6),
        station: 'USGS-00000003/00060/daily/d',
      },
    ]);
    expect(refreshed?.observations[1]?.value).toBeCloseTo(120 * 0.3048 ** 3, 9);
    expect(refreshed?.retrievals.every((r) => r.ok)).toBe(true);
  });

  it('is not asked for them while it has finer ones', async () => {
    const replay = await start({
      usgs: [
        {
          site: 'USGS-00000003',
          parameter: '00060',
          series: 'c',
          atMs: NOW_MS - HOUR_MS,
          value: '90',
          unit: 'ft^3/s',
        },
      ],
      usgsDaily: [day('2026-03-05', '120')],
    });
    const lake = inventedLake({ weather: [], gauges: [stream] });
    const [refreshed] = await refreshLakes([lake], testDeps(replay, testClient()));
    expect(refreshed?.observations.map((o) => o.periodS)).toEqual([0]);
    expect(replay.seen.some((r) => r.path.includes('/daily/'))).toBe(false);
  });
});
