/** Looking a lake up: replies made by hand from the services' documentation, over real HTTP on loopback. */
import { createServer, type Server } from 'node:http';
import type { AddressInfo } from 'node:net';
import { afterEach, describe, expect, it } from 'vitest';
import {
  distanceKm,
  findPlaces,
  floodGaugesNearby,
  officeOf,
  usgsNearby,
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
    const found = await usgsNearby(client, base, AT, NOW);
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
    expect(await usgsNearby(client, base, AT, NOW)).toEqual([]);
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
