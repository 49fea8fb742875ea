/** Serves the bundled invented data on loopback in the form of the public services' replies, so that the demonstration goes the whole way. */
import { createServer } from 'node:http';
import type { AddressInfo } from 'node:net';

export interface DemoData {
  readonly latitude: number;
  readonly longitude: number;
  readonly asOf: string;
  readonly hourly: Readonly<Record<string, readonly number[]>>;
  readonly gauges: {
    readonly time: readonly number[];
    readonly levelFt: readonly number[];
    readonly dischargeFt3s: readonly number[];
    readonly waterC: readonly number[];
  };
  readonly dailyLevels: { readonly date: readonly string[]; readonly levelFt: readonly number[] };
}

/** Units as the weather service names them. */
export const WEATHER_UNITS: Record<string, string> = {
  temperature_2m: '°C',
  relative_humidity_2m: '%',
  precipitation: 'mm',
  wind_speed_10m: 'km/h',
  wind_gusts_10m: 'km/h',
  wind_direction_10m: '°',
  cloud_cover: '%',
  surface_pressure: 'hPa',
  shortwave_radiation: 'W/m²',
};

/** All hours, or those of the dates that are asked for, as an archive is asked. */
function hoursAsked({ hourly }: DemoData, query: URLSearchParams): DemoData['hourly'] {
  const [from, to] = [query.get('start_date'), query.get('end_date')];
  if (from === null || to === null) return hourly;
  const isAsked = (hourly['time'] ?? []).map((time) => {
    const date = new Date(time * 1000).toISOString().slice(0, 10);
    return from <= date && date <= to;
  });
  return Object.fromEntries(
    Object.entries(hourly).map(([column, values]) => [column, values.filter((_, i) => isAsked[i])]),
  );
}

function weather(data: DemoData, query: URLSearchParams): unknown {
  return {
    latitude: data.latitude,
    longitude: data.longitude,
    utc_offset_seconds: 0,
    timezone: 'GMT',
    timezone_abbreviation: 'GMT',
    hourly_units: { time: 'unixtime', ...WEATHER_UNITS },
    hourly: hoursAsked(data, query),
  };
}

const SERIES = {
  '00062': {
    id: 'demo-level',
    unit: 'ft',
    of: (gauges: DemoData['gauges']) => gauges.levelFt,
    site: 'USGS-00000101',
  },
  '00060': {
    id: 'demo-discharge',
    unit: 'ft^3/s',
    of: (gauges: DemoData['gauges']) => gauges.dischargeFt3s,
    site: 'USGS-00000102',
  },
  '00010': {
    id: 'demo-water',
    unit: 'degC',
    of: (gauges: DemoData['gauges']) => gauges.waterC,
    site: 'USGS-00000101',
  },
} as const;

function gaugeRows(data: DemoData, query: URLSearchParams): unknown {
  const sites = (query.get('monitoring_location_id') ?? '').split(',');
  const wanted = (query.get('parameter_code') ?? '').split(',');
  const [from, to] = (query.get('time') ?? '').split('/').map((text) => Date.parse(text));
  const features = Object.entries(SERIES)
    .filter(([code, series]) => wanted.includes(code) && sites.includes(series.site))
    .flatMap(([code, series]) =>
      data.gauges.time.flatMap((time, index) => {
        const atMs = time * 1000;
        if (atMs < (from ?? -Infinity) || atMs > (to ?? Infinity)) return [];
        return [
          {
            type: 'Feature',
            id: `${series.id}-${time}`,
            geometry: null,
            properties: {
              time_series_id: series.id,
              monitoring_location_id: series.site,
              parameter_code: code,
              statistic_id: '00011',
              time: new Date(atMs).toISOString(),
              value: String(series.of(data.gauges)[index]),
              unit_of_measure: series.unit,
              approval_status: 'Provisional',
              qualifier: null,
              last_modified: data.asOf,
            },
          },
        ];
      }),
    );
  return { type: 'FeatureCollection', features, numberReturned: features.length, links: [] };
}

function dailyRows(data: DemoData, query: URLSearchParams): unknown {
  const { site, id, unit } = SERIES['00062'];
  const asked =
    (query.get('monitoring_location_id') ?? '').split(',').includes(site) &&
    (query.get('parameter_code') ?? '').split(',').includes('00062');
  const [from = '', to = ''] = (query.get('time') ?? '').split('/');
  const features = data.dailyLevels.date.flatMap((date, index) =>
    !asked || date < from || date > to
      ? []
      : [
          {
            type: 'Feature',
            id: `${id}-${date}`,
            geometry: null,
            properties: {
              time_series_id: `${id}-daily`,
              monitoring_location_id: site,
              parameter_code: '00062',
              statistic_id: '00003',
              time: date,
              value: String(data.dailyLevels.levelFt[index]),
              unit_of_measure: unit,
              approval_status: 'Provisional',
              qualifier: null,
              last_modified: data.asOf,
            },
          },
        ],
  );
  return { type: 'FeatureCollection', features, numberReturned: features.length, links: [] };
}

/** @returns the base address and how to stop */
export async function startDemoServer(data: DemoData): Promise<{ url: string; close: () => Promise<void> }> {
  const server = createServer((request, response) => {
    const url = new URL(request.url ?? '/', 'http://127.0.0.1');
    const body = url.pathname.startsWith('/v1/')
      ? weather(data, url.searchParams)
      : url.pathname.includes('/collections/daily/')
        ? dailyRows(data, url.searchParams)
        : url.pathname.includes('/collections/')
          ? gaugeRows(data, url.searchParams)
          : null;
    response.writeHead(body === null ? 404 : 200, { 'content-type': 'application/json' });
    response.end(JSON.stringify(body ?? { error: true, reason: 'not part of the demonstration' }));
  });
  await new Promise<void>((resolve) => server.listen(0, '127.0.0.1', resolve));
  const { port } = server.address() as AddressInfo;
  return {
    url: `http://127.0.0.1:${port}`,
    close: () => new Promise((resolve) => server.close(() => resolve())),
  };
}
