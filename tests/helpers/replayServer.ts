import { createServer, type IncomingMessage, type ServerResponse } from 'node:http';
import type { AddressInfo } from 'node:net';

/** How a service misbehaves; `stale` ages the times of USGS rows and of the NWS grid by 88 h. */
export type Fault = 'down' | 'slow' | '429' | '500' | 'html' | 'empty' | 'stale';
export type ReplayService =
  'open-meteo' | 'open-meteo-archive' | 'usgs' | 'nws' | 'nwps' | 'cwms' | 'ea' | 'eccc';

export interface UsgsReplayRow {
  readonly site: string; // `USGS-00000001`
  readonly parameter: string;
  readonly series: string;
  readonly atMs: number;
  readonly value: string | null;
  readonly unit: string;
  readonly approved?: boolean;
  readonly qualifier?: readonly string[] | null;
}

/** A daily value: its date is a label of the site's calendar. */
export interface UsgsReplayDay {
  readonly site: string;
  readonly parameter: string;
  readonly series: string;
  readonly statistic: string;
  readonly date: string;
  readonly value: string | null;
  readonly unit: string;
}

export interface SeenRequest {
  readonly service: ReplayService | 'unknown';
  readonly path: string;
  readonly query: URLSearchParams;
  readonly headers: IncomingMessage['headers'];
}

export interface ReplayOptions {
  /** Body for a forecast request; given one `latitude,longitude` list, so return an array for several points. */
  readonly openMeteo?: (query: URLSearchParams) => unknown;
  /** A request for a point at this latitude is refused with 400. */
  readonly refusedLatitude?: number;
  readonly openMeteoArchive?: (query: URLSearchParams) => unknown;
  /** All rows the gauges ever sent; the server filters by site, parameter and time, and pages. */
  readonly usgs?: readonly UsgsReplayRow[];
  /** All its daily values; filtered by site, parameter, statistic and date. */
  readonly usgsDaily?: readonly UsgsReplayDay[];
  /** Series that the service calls primary, for time-series-metadata. */
  readonly usgsPrimary?: readonly string[];
  /** Rows per USGS page, below what the client asks for, so that paging happens; default 1000. */
  readonly usgsPage?: number;
  readonly nwsGrid?: () => unknown;
  readonly nwsAlerts?: () => unknown;
  /** By station id. */
  readonly nwsObservations?: Readonly<Record<string, () => unknown>>;
  readonly nwpsGauge?: (id: string) => unknown;
  readonly nwpsStageflow?: (id: string) => unknown;
  readonly cwms?: (query: URLSearchParams) => unknown;
  readonly ea?: (path: string, query: URLSearchParams) => unknown;
  readonly eccc?: (query: URLSearchParams) => unknown;
  readonly fault?: Partial<Record<ReplayService, Fault>>;
  /** How long `slow` holds an answer back, ms; default 60 s. */
  readonly slowMs?: number;
}

export interface ReplayServer {
  readonly url: string;
  /** For `services.baseUrls` of a configuration. */
  readonly baseUrls: Record<ReplayService, string>;
  readonly seen: SeenRequest[];
  /** Change how a service misbehaves while running. */
  setFault(service: ReplayService, fault: Fault | null): void;
  /** Answer the next request for a path with this status and body; calls add up. */
  failOnce(path: string, status: number, body: unknown): void;
  close(): Promise<void>;
}

const STALE_MS = 88 * 3_600_000;

/** A real HTTP server on 127.0.0.1 that answers as the public services do: paths, queries, headers, paging. */
export async function startReplayServer(options: ReplayOptions): Promise<ReplayServer> {
  const seen: SeenRequest[] = [];
  const faults = new Map(Object.entries(options.fault ?? {}) as [ReplayService, Fault][]);
  const once: { path: string; status: number; body: unknown }[] = [];
  const held = new Set<NodeJS.Timeout>();
  const server = createServer((request, response) => {
    const url = new URL(request.url ?? '/', origin());
    const service = serviceOf(url.pathname);
    seen.push({ service, path: url.pathname, query: url.searchParams, headers: request.headers });
    const prepared = once.findIndex((item) => item.path === url.pathname);
    if (prepared >= 0) {
      const [item] = once.splice(prepared, 1);
      json(response, item?.status ?? 500, item?.body);
      return;
    }
    const fault = service === 'unknown' ? undefined : faults.get(service);
    if (fault === 'slow') {
      held.add(setTimeout(() => json(response, 200, {}), options.slowMs ?? 60_000));
      return;
    }
    if (fault !== undefined && misbehave(fault, request, response, service)) return;
    try {
      answer(service, url, request, response, options, fault === 'stale');
    } catch (error) {
      json(response, 500, { message: String(error) });
    }
  });
  await new Promise<void>((ready) => server.listen(0, '127.0.0.1', ready));
  const origin = (): string => `http://127.0.0.1:${(server.address() as AddressInfo).port}`;
  const url = origin();
  return {
    url,
    baseUrls: {
      'open-meteo': url,
      'open-meteo-archive': url,
      usgs: url,
      nws: url,
      nwps: url,
      cwms: url,
      ea: url,
      eccc: url,
    },
    seen,
    setFault: (service, fault) => {
      if (fault === null) faults.delete(service);
      else faults.set(service, fault);
    },
    failOnce: (path, status, body) => void once.push({ path, status, body }),
    close: async () => {
      held.forEach((timer) => clearTimeout(timer));
      server.closeAllConnections();
      await new Promise<void>((done) => server.close(() => done()));
    },
  };
}

function serviceOf(path: string): ReplayService | 'unknown' {
  if (path === '/v1/forecast') return 'open-meteo';
  if (path === '/v1/archive') return 'open-meteo-archive';
  if (path.startsWith('/ogcapi/')) return 'usgs';
  if (path.startsWith('/nwps/')) return 'nwps';
  if (path.startsWith('/cwms-data/')) return 'cwms';
  if (path.startsWith('/flood-monitoring/')) return 'ea';
  if (path.startsWith('/collections/')) return 'eccc';
  return /^\/(points|gridpoints|stations|alerts)\//.test(path) ? 'nws' : 'unknown';
}

/** @returns whether the fault was the whole answer */
function misbehave(
  fault: Fault,
  request: IncomingMessage,
  response: ServerResponse,
  service: ReplayService | 'unknown',
): boolean {
  switch (fault) {
    case 'down':
      request.socket.destroy();
      return true;
    case '429':
      json(
        response,
        429,
        { error: { code: 'OVER_RATE_LIMIT', message: 'Rate limit exceeded.' } },
        { 'retry-after': '1800' },
      );
      return true;
    case '500':
      json(response, 500, {
        title: 'Unexpected Problem',
        status: 500,
        detail: 'An unexpected problem has occurred.',
      });
      return true;
    case 'html':
      response
        .writeHead(200, { 'content-type': 'text/html' })
        .end('<!doctype html><title>Maintenance</title>');
      return true;
    case 'empty':
      if (service === 'usgs')
        json(response, 200, { type: 'FeatureCollection', features: [], numberReturned: 0, links: [] });
      else response.writeHead(200, { 'content-type': 'application/json' }).end();
      return true;
    default:
      return false;
  }
}

function answer(
  service: ReplayService | 'unknown',
  url: URL,
  request: IncomingMessage,
  response: ServerResponse,
  options: ReplayOptions,
  stale: boolean,
): void {
  const { pathname: path, searchParams: query } = url;
  const give = (make: (() => unknown) | undefined): void =>
    make === undefined
      ? json(response, 404, { title: 'Not Found', status: 404, detail: 'Nothing here.' })
      : json(response, 200, make());
  const id = path.split('/')[4] ?? '';
  const route: Record<ReplayService | 'unknown', () => void> = {
    'open-meteo': () => {
      const lats = (query.get('latitude') ?? '').split(',').map(Number);
      if (options.refusedLatitude !== undefined && lats.includes(options.refusedLatitude)) {
        json(response, 400, { error: true, reason: 'Latitude must be in range of -90 to 90°.' });
        return;
      }
      give(options.openMeteo && (() => options.openMeteo?.(query)));
    },
    'open-meteo-archive': () => give(options.openMeteoArchive && (() => options.openMeteoArchive?.(query))),
    usgs: () => usgs(url, response, options, stale),
    nws: () => nws(path, query, request, response, options, stale),
    nwps: () => {
      const make = path.endsWith('/stageflow') ? options.nwpsStageflow : options.nwpsGauge;
      give(make && (() => make(id)));
    },
    cwms: () => give(options.cwms && (() => options.cwms?.(query))),
    ea: () => give(options.ea && (() => options.ea?.(path, query))),
    eccc: () => give(options.eccc && (() => options.eccc?.(query))),
    unknown: () => give(undefined),
  };
  route[service]();
}

function usgs(url: URL, response: ServerResponse, options: ReplayOptions, stale: boolean): void {
  const { pathname: path, searchParams: query } = url;
  // Of a repeated key the service keeps only the last value.
  const list = (key: string): Set<string> | null => {
    const value = query.getAll(key).at(-1);
    return value === undefined ? null : new Set(value.split(','));
  };
  const sites = list('monitoring_location_id');
  const parameters = list('parameter_code');
  const [from, to] = (query.get('time') ?? '../..').split('/').map((t) => Date.parse(t));
  const limit = Math.min(Number(query.get('limit') ?? '10'), options.usgsPage ?? 1000);
  const offset = Number(query.get('cursor') ?? '0');
  const collection = path.split('/')[4] ?? '';
  let rows = (options.usgs ?? []).filter(
    (row) =>
      (sites === null || sites.has(row.site)) && (parameters === null || parameters.has(row.parameter)),
  );
  if (collection === 'daily') {
    const statistics = list('statistic_id');
    const [first = '', last = ''] = (query.get('time') ?? '').split('/');
    const days = (options.usgsDaily ?? []).filter(
      (day) =>
        sites?.has(day.site) === true &&
        parameters?.has(day.parameter) === true &&
        (statistics === null || statistics.has(day.statistic)) &&
        day.date >= first &&
        day.date <= last,
    );
    json(response, 200, collectionOf(days.map(dayFeature).reverse(), []));
    return;
  }
  if (stale) rows = rows.map((row) => ({ ...row, atMs: row.atMs - STALE_MS }));
  if (collection === 'time-series-metadata') {
    const series = [...new Map(rows.map((row) => [row.series, row])).values()];
    json(
      response,
      200,
      collectionOf(
        series.map((row) => seriesFeature(row, options)),
        [],
      ),
    );
    return;
  }
  if (collection === 'latest-continuous') {
    const newest = new Map<string, UsgsReplayRow>();
    for (const row of rows)
      if ((newest.get(row.series)?.atMs ?? -Infinity) < row.atMs) newest.set(row.series, row);
    rows = [...newest.values()];
  } else {
    rows = rows.filter((row) => !(row.atMs < (from ?? NaN)) && !(row.atMs > (to ?? NaN)));
  }
  // Rows come in no order a client could rely on; a fixed shuffle keeps the tests repeatable.
  rows = [...rows].sort((a, b) => shuffleKey(a) - shuffleKey(b));
  const page = rows.slice(offset, offset + limit);
  const links: { rel: string; href: string }[] = [];
  if (offset + limit < rows.length) {
    const next = new URL(url);
    next.searchParams.set('cursor', String(offset + limit));
    links.push({ rel: 'next', href: next.href });
  }
  json(response, 200, collectionOf(page.map(rowFeature), links), {
    'x-ratelimit-limit': '1000',
    'x-ratelimit-remaining': '900',
  });
}

function collectionOf(features: unknown[], links: unknown[]): unknown {
  return { type: 'FeatureCollection', features, numberReturned: features.length, links };
}

function shuffleKey(row: UsgsReplayRow): number {
  return (Math.floor(row.atMs / 60_000) * 2654435761 + row.series.length * 97) % 4294967296;
}

function dayFeature(day: UsgsReplayDay): unknown {
  return {
    type: 'Feature',
    id: `${day.series}-${day.date}`,
    geometry: null,
    properties: {
      time_series_id: day.series,
      monitoring_location_id: day.site,
      parameter_code: day.parameter,
      statistic_id: day.statistic,
      time: day.date,
      value: day.value,
      unit_of_measure: day.unit,
      approval_status: 'Approved',
      qualifier: null,
      last_modified: `${day.date}T23:00:00+00:00`,
    },
  };
}

function rowFeature(row: UsgsReplayRow): unknown {
  return {
    type: 'Feature',
    id: `${row.series}-${row.atMs}`,
    geometry: null,
    properties: {
      time_series_id: row.series,
      monitoring_location_id: row.site,
      parameter_code: row.parameter,
      statistic_id: '00011',
      time: new Date(row.atMs).toISOString().replace('.000Z', '+00:00'),
      value: row.value,
      unit_of_measure: row.unit,
      approval_status: row.approved === true ? 'Approved' : 'Provisional',
      qualifier: row.qualifier ?? null,
      last_modified: new Date(row.atMs + 600_000).toISOString(),
    },
  };
}

function seriesFeature(row: UsgsReplayRow, options: ReplayOptions): unknown {
  return {
    type: 'Feature',
    id: row.series,
    geometry: null,
    properties: {
      id: row.series,
      monitoring_location_id: row.site,
      parameter_code: row.parameter,
      statistic_id: '00011',
      primary: options.usgsPrimary?.includes(row.series) === true ? 'Primary' : null,
      end: new Date(row.atMs).toISOString(),
    },
  };
}

function nws(
  path: string,
  query: URLSearchParams,
  request: IncomingMessage,
  response: ServerResponse,
  options: ReplayOptions,
  stale: boolean,
): void {
  if (request.headers['user-agent'] === undefined) {
    json(response, 403, { title: 'Forbidden', status: 403 });
    return;
  }
  const known = new Set(['limit', 'start', 'end', 'point']);
  if ([...query.keys()].some((key) => !known.has(key))) {
    json(response, 400, { title: 'Bad Request', status: 400 });
    return;
  }
  const make = nwsBody(path, options);
  if (make === undefined) {
    json(response, 404, { title: 'Not Found', status: 404, detail: 'Not found.' });
    return;
  }
  let body = make();
  if (stale && /^\/gridpoints\/[^/]+\/[^/]+$/.test(path)) body = ageGrid(body);
  json(response, 200, body);
}

function nwsBody(path: string, options: ReplayOptions): (() => unknown) | undefined {
  if (path.startsWith('/points/')) {
    const place = { gridId: 'DMO', gridX: 12, gridY: 34, timeZone: 'America/Chicago' };
    return () => ({ properties: place });
  }
  if (path === '/alerts/active')
    return options.nwsAlerts ?? (() => ({ type: 'FeatureCollection', features: [] }));
  if (path === '/gridpoints/DMO/12,34') return options.nwsGrid;
  if (path === '/gridpoints/DMO/12,34/stations') {
    return () => ({
      type: 'FeatureCollection',
      features: Object.keys(options.nwsObservations ?? {}).map((id) => ({
        properties: { stationIdentifier: id, name: id },
      })),
    });
  }
  const station = /^\/stations\/([^/]+)\/observations$/.exec(path)?.[1];
  return station === undefined ? undefined : options.nwsObservations?.[station];
}

function ageGrid(body: unknown): unknown {
  const grid = body as { properties?: { updateTime?: string } };
  const at = Date.parse(grid.properties?.updateTime ?? '');
  return { ...grid, properties: { ...grid.properties, updateTime: new Date(at - STALE_MS).toISOString() } };
}

function json(
  response: ServerResponse,
  status: number,
  body: unknown,
  headers: Record<string, string> = {},
): void {
  response.writeHead(status, { 'content-type': 'application/json', ...headers });
  response.end(JSON.stringify(body));
}
