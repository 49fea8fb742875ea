/** Looking a lake up: replies made by hand from the services' documentation, over real HTTP on loopback. */
import { readFileSync } from 'node:fs';
import { createServer, type Server } from 'node:http';
import type { AddressInfo } from 'node:net';
import { afterEach, describe, expect, it } from 'vitest';
import {
  distanceKm,
  findPlaces,
  floodGaugesNearby,
  officeOf,
  gaugesNearby,
  servicesAround,
  type HttpClient,
} from '../../src/services/index.ts';
import { suggested } from '../../src/cli/initAnswers.ts';
import { testClient } from './support.ts';

const NOW = Date.UTC(2026, 2, 6, 12);
const AT = { latDeg: 35.9, lonDeg: -86.4, halfKm: 20 };
let server: Server | undefined;
let client: HttpClient;
const asked: URL[] = [];

async function answering(answer: (url: URL) => unknown): Promise<string> {
  asked.length = 0;
  const made = createServer((request, response) => {
    const url = new URL(request.url ?? '/', 'http://127.0.0.1');
    asked.push(url);
    const body = answer(url);
    response.writeHead(body === undefined ? 404 : 200, { 'content-type': 'application/json' });
    response.end(JSON.stringify(body ?? { title: 'Not found' }));
  });
  server = made;
  await new Promise<void>((ready) => made.listen(0, '127.0.0.1', () => ready()));
  client = testClient({ attempts: 1 });
  return `http://127.0.0.1:${(made.address() as AddressInfo).port}`;
}
afterEach(async () => {
  const asked = server;
  if (asked === undefined) return;
  server = undefined;
  await client.close();
  asked.closeAllConnections();
  await new Promise<void>((closed) => asked.close(() => closed()));
});

const series = (site: string, code: string, lat: number, end: string, kind = 'Instantaneous') => ({
  geometry: { type: 'Point', coordinates: [-86.4, lat] },
  properties: { monitoring_location_id: site, parameter_code: code, computation_identifier: kind, end },
});
const usgs = (url: URL): unknown => {
  if (url.pathname.includes('time-series-metadata'))
    return {
      features: [
        series('USGS-FAR', '00062', 36.05, '2026-03-06T05:00:00-06:00'),
        series('USGS-NEAR', '00062', 35.91, '2026-03-06T05:00:00-06:00'),
        series('USGS-NEAR', '62615', 35.91, '2026-03-06T05:00:00-06:00'),
        series('USGS-OLD', '00010', 35.9, '1998-03-06T05:00:00-06:00'),
        series('USGS-NEAR', '00060', 35.91, '2026-03-06T05:00:00-06:00', 'Mean'),
        series('USGS-NEAR', '99999', 35.91, '2026-03-06T05:00:00-06:00'),
      ],
    };
  if (url.pathname.includes('monitoring-locations'))
    return {
      features: [
        {
          id: 'USGS-NEAR',
          geometry: { coordinates: [-86.4, 35.91] },
          properties: { monitoring_location_name: 'Cold Fork' },
        },
      ],
    };
  return {
    features: [
      {
        properties: {
          monitoring_location_id: 'USGS-NEAR',
          parameter_code: '62615',
          time: '2026-03-06T11:30:00Z',
          value: '616.4',
          unit_of_measure: 'ft',
        },
      },
      {
        properties: {
          monitoring_location_id: 'USGS-FAR',
          parameter_code: '00062',
          time: '2026-03-06T11:30:00Z',
          value: '500',
          unit_of_measure: 'ft',
        },
      },
    ],
  };
};

describe('gauges near by', () => {
  it('are those that live and measure what a lake is read by, nearest first, with newest value, age and datum', async () => {
    const base = await answering(usgs);
    const found = await gaugesNearby('usgs', client, base, AT, NOW);
    expect(found.map(({ station, parameter }) => `${station}/${parameter}`)).toEqual([
      'USGS-NEAR/00062',
      'USGS-NEAR/62615',
      'USGS-FAR/00062',
    ]);
    expect(found[1]).toMatchObject({
      name: 'Cold Fork',
      variable: 'level',
      datum: 'NAVD88',
      latest: { value: 616.4, unit: 'ft', ageMin: 30 },
    });
    expect(found[0]?.latest).toBeNull();
    // Of the levels the one that has a fresh value is offered.
    expect(suggested(found).map(({ parameter }) => parameter)).toEqual(['62615']);
    const box = (asked[0]?.searchParams.get('bbox') ?? '').split(',').map(Number);
    expect(box).toHaveLength(4);
    expect(distanceKm({ latDeg: box[1]!, lonDeg: -86.4 }, { latDeg: box[3]!, lonDeg: -86.4 })).toBeCloseTo(
      40,
      0,
    );
  });

  it('are none where none are', async () => {
    const base = await answering(() => ({ features: [] }));
    expect(await gaugesNearby('usgs', client, base, AT, NOW)).toEqual([]);
    expect(asked).toHaveLength(1);
  });
});

describe('flood gauges', () => {
  it('are asked for in a box that is never larger than the service bears', async () => {
    const base = await answering(() => ({
      gauges: [
        { lid: 'FARX1', name: 'Far', latitude: 36.1, longitude: -86.4 },
        { lid: 'NEAR1', name: 'Near', latitude: 35.91, longitude: -86.4 },
      ],
    }));
    const found = await floodGaugesNearby(client, base, { ...AT, halfKm: 90 });
    expect(found.map(({ id }) => id)).toEqual(['NEAR1', 'FARX1']);
    const side = (name: string): number => Number(asked[0]?.searchParams.get(`bbox.${name}`));
    expect(side('ymax') - side('ymin')).toBeLessThan(0.5);
  });
});

describe('the forecast office', () => {
  it('is named inside the US, and null elsewhere', async () => {
    const base = await answering((url) =>
      url.pathname === '/points/35.9,-86.4'
        ? { properties: { cwa: 'OHX', gridId: 'OHX', gridX: 50, gridY: 40 } }
        : undefined,
    );
    expect(await officeOf(client, base, 35.9, -86.4)).toEqual({ office: 'OHX', cell: 'OHX/50,40' });
    expect(await officeOf(client, base, 52.5, 13.4)).toBeNull();
  });
});

describe('a place name', () => {
  it('is looked up, and none is an answer', async () => {
    const base = await answering((url) =>
      url.searchParams.get('name') === 'Nowhere'
        ? { generationtime_ms: 1 }
        : {
            results: [
              {
                name: 'Ossarly',
                latitude: 35.9,
                longitude: -86.4,
                elevation: 189,
                timezone: 'America/Chicago',
                admin1: 'State',
                country: 'Country',
              },
            ],
          },
    );
    expect(await findPlaces(client, 'Ossarly', base)).toEqual([
      {
        name: 'Ossarly',
        within: 'State, Country',
        latDeg: 35.9,
        lonDeg: -86.4,
        elevationM: 189,
        zone: 'America/Chicago',
      },
    ]);
    expect(await findPlaces(client, 'Nowhere', base)).toEqual([]);
  });
});

describe('a distance', () => {
  it('is that of the great circle: a degree of latitude is 111.2 km on a sphere of 6,371 km', () => {
    expect(distanceKm({ latDeg: 0, lonDeg: 0 }, { latDeg: 1, lonDeg: 0 })).toBeCloseTo(111.195, 2);
    expect(distanceKm({ latDeg: 36, lonDeg: -86 }, { latDeg: 36, lonDeg: -86 })).toBe(0);
  });
});

describe('gauges of other networks', () => {
  const recorded = JSON.parse(
    readFileSync(
      new URL('../../fixtures/services/ea/flood-monitoring_stations_TRIMMED_10_of_all.json', import.meta.url),
      'utf8',
    ),
  ) as { items: { notation: string; lat?: number; long?: number }[] };

  it('of England: the recorded list of stations, the stage of each and not the one below its sluice', async () => {
    const dikler = { latDeg: 51.87, lonDeg: -1.74, halfKm: 20 };
    const base = await answering((url) =>
      url.pathname.endsWith('/id/stations')
        ? recorded
        : {
            items: {
              measure: 'http://x/id/measures/1029TH-level-stage-i-15_min-mASD',
              dateTime: '2026-03-06T11:45:00Z',
              value: 0.31,
            },
          },
    );
    const [first, ...others] = await gaugesNearby('ea', client, base, dikler, NOW);
    expect(first).toMatchObject({
      service: 'ea',
      station: '1029TH',
      name: 'Bourton Dickler',
      variable: 'level',
      parameter: '1029TH-level-stage-i-15_min-mASD',
      latest: { value: 0.31, unit: 'mASD', ageMin: 15 },
    });
    for (const { parameter } of others) expect(parameter).not.toContain('downstage');
    expect(asked[0]?.searchParams.get('dist')).toBe('20');
  });

  it('of Canada: level and discharge with the newest row of each station', async () => {
    const row = (minute: string, LEVEL: number | null, DISCHARGE: number | null) => ({
      geometry: { type: 'Point', coordinates: [-115.57, 51.17] },
      properties: {
        STATION_NUMBER: '05BB001',
        STATION_NAME: 'BOW RIVER AT BANFF',
        DATETIME: `2026-03-06T11:${minute}:00Z`,
        LEVEL,
        DISCHARGE,
      },
    });
    const base = await answering(() => ({ features: [row('50', 2.4, null), row('45', 2.39, 56.9)] }));
    const found = await gaugesNearby('eccc', client, base, { latDeg: 51.2, lonDeg: -115.5, halfKm: 20 }, NOW);
    expect(found.map(({ variable, latest }) => [variable, latest])).toEqual([
      ['level', { value: 2.4, unit: 'm', ageMin: 10 }],
      ['discharge', { value: 56.9, unit: 'm3/s', ageMin: 15 }],
    ]);
  });

  it('of the Corps: a project near by, of each kind one living series with its office and whole name', async () => {
    const base = await answering((url) => {
      if (url.pathname.endsWith('/catalog/LOCATIONS'))
        return {
          entries: [
            {
              office: 'LRN',
              name: 'CHT1-COLD',
              'public-name': 'Cold Hollow',
              latitude: 36.0,
              longitude: -86.4,
            },
            { office: 'LRN', name: 'FAR1', latitude: 40, longitude: -86.4 },
          ],
        };
      if (url.pathname.endsWith('/catalog/TIMESERIES'))
        return {
          entries: [
            {
              office: 'LRN',
              name: 'CHT1-COLD.Elev.Inst.1Hour.0.rev',
              extents: [{ 'latest-time': '2026-03-06T11:00:00Z' }],
            },
            {
              office: 'LRN',
              name: 'CHT1-COLD.Elev.Inst.1Day.0.old',
              extents: [{ 'latest-time': '2011-03-06T11:00:00Z' }],
            },
            { office: 'LRN', name: 'CHT1-COLD.Flow-Out.Ave.1Hour.1Hour.rev' },
            { office: 'LRN', name: 'CHT1-COLD.Stor.Inst.1Hour.0.rev' },
          ],
        };
      return {
        units: 'ft',
        values: [
          [NOW - 7_200_000, 615.2, 0],
          [NOW - 3_600_000, 615.3, 0],
          [NOW, null, 5],
        ],
      };
    });
    const found = await gaugesNearby('cwms', client, base, AT, NOW);
    expect(
      found.map(({ variable, parameter, office, station }) => [variable, parameter, office, station]),
    ).toEqual([
      ['release', 'CHT1-COLD.Flow-Out.Ave.1Hour.1Hour.rev', 'LRN', 'CHT1-COLD'],
      ['level', 'CHT1-COLD.Elev.Inst.1Hour.0.rev', 'LRN', 'CHT1-COLD'],
    ]);
    expect(found[0]?.latest).toEqual({ value: 615.3, unit: 'ft', ageMin: 60 });
    const like =
      asked.find(({ pathname }) => pathname.endsWith('TIMESERIES'))?.searchParams.get('like') ?? '';
    expect('CHT1-COLD-Forebay.Elev.Inst.1Hour.0.rev').toMatch(new RegExp(like));
  });

  it('are asked only where they can be', () => {
    const at = (latDeg: number, lonDeg: number) => servicesAround({ latDeg, lonDeg, halfKm: 20 });
    expect(at(35.9, -86.4)).toEqual(['usgs', 'cwms']);
    expect(at(52, -1)).toEqual(['ea']);
    expect(at(51.2, -115.6)).toEqual(['usgs', 'eccc']);
    expect(at(-33, 150)).toEqual([]);
  });
});
