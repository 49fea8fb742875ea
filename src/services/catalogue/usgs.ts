/**
 * Gauges of the US network near a position. The bounding-box questions are written from the service's documentation; no
 * recorded reply to them was at hand, so their shape is tested on replies made by hand.
 */
import { z } from 'zod';
import type { HttpClient } from '../http/types.ts';
import { check, instantMs, finite, looseNumber, parseJson } from '../parse.ts';
import { latestOf, nearestFirst, type GaugeNearby } from './gauge.ts';
import { distanceKm } from './place.ts';

const NAME = 'USGS';
const DAY_MS = 86_400_000;
/** A series that ended longer ago is no gauge any more. */
const ALIVE_MS = 10 * DAY_MS;
const MOST_ROWS = 2000;

/** What a lake is read by, and how the service names it. */
const WANTED = {
  '00062': 'level',
  '62614': 'level',
  '62615': 'level',
  '00060': 'discharge',
  '00010': 'water_temp',
  '63680': 'turbidity',
} as const;
type Parameter = keyof typeof WANTED;
const isWanted = (code: string): code is Parameter => Object.hasOwn(WANTED, code);
/** What levels of a parameter count from, where the parameter itself says it. */
const DATUM: Partial<Record<Parameter, string>> = { '62614': 'NGVD29', '62615': 'NAVD88' };

const pointSchema = z.object({ coordinates: z.array(z.number()).min(2) }).nullish();
const seriesSchema = z.object({
  features: z.array(
    z.object({
      geometry: pointSchema,
      properties: z.object({
        monitoring_location_id: z.string(),
        parameter_code: z.string(),
        computation_identifier: z.string().nullish(),
        computation_period_identifier: z.string().nullish(),
        end_utc: z.string().nullish(),
        end: z.string().nullish(),
      }),
    }),
  ),
});
const siteSchema = z.object({
  features: z.array(
    z.object({
      id: z.string(),
      geometry: pointSchema,
      properties: z.object({ monitoring_location_name: z.string().nullish() }),
    }),
  ),
});
const latestSchema = z.object({
  features: z.array(
    z.object({
      properties: z.object({
        monitoring_location_id: z.string(),
        parameter_code: z.string(),
        time: z.string(),
        value: looseNumber,
        unit_of_measure: z.string().nullish(),
      }),
    }),
  ),
});

/** West, south, east, north of a square around a position. */
export function boxAround(
  latDeg: number,
  lonDeg: number,
  halfKm: number,
): readonly [number, number, number, number] {
  const dLat = halfKm / 111.2;
  const dLon = halfKm / (111.2 * Math.max(0.1, Math.cos((latDeg * Math.PI) / 180)));
  const round = (deg: number): number => Math.round(deg * 1e4) / 1e4;
  return [round(lonDeg - dLon), round(latDeg - dLat), round(lonDeg + dLon), round(latDeg + dLat)];
}

/**
 * Living gauges within a square, nearest first, each with its newest value.
 *
 * @throws ThawlineError `service`
 */
export async function usgsNearby(
  client: HttpClient,
  base: string,
  at: { readonly latDeg: number; readonly lonDeg: number; readonly halfKm: number },
  nowMs: number,
  headers: Readonly<Record<string, string>> = {},
): Promise<GaugeNearby[]> {
  const ask = async (collection: string, query: string): Promise<unknown> => {
    const url = `${base}/ogcapi/v1/collections/${collection}/items?f=json&limit=${MOST_ROWS}&${query}`;
    return parseJson((await client.get({ url, service: NAME, headers })).text, NAME);
  };
  const bbox = `bbox=${boxAround(at.latDeg, at.lonDeg, at.halfKm).join(',')}`;
  const codes = Object.keys(WANTED).join(',');
  const series = check(
    seriesSchema,
    await ask('time-series-metadata', `${bbox}&parameter_code=${codes}`),
    NAME,
  );
  const alive = series.features.filter(({ properties: p }) => {
    // v0 gives an end without a zone beside end_utc; v1 gives one with an offset.
    const endMs = instantMs(p.end_utc) ?? instantMs(p.end) ?? instantMs(`${p.end_utc ?? ''}Z`);
    const isInstant = (p.computation_identifier ?? 'Instantaneous') === 'Instantaneous';
    return isWanted(p.parameter_code) && isInstant && (endMs === null || nowMs - endMs < ALIVE_MS);
  });
  if (alive.length === 0) return [];
  const sites = check(siteSchema, await ask('monitoring-locations', bbox), NAME).features;
  const stations = [...new Set(alive.map(({ properties }) => properties.monitoring_location_id))];
  const list = stations.slice(0, 100).map(encodeURIComponent).join(',');
  const newest = check(
    latestSchema,
    await ask(
      'latest-continuous',
      `monitoring_location_id=${list}&parameter_code=${codes}&skipGeometry=true`,
    ),
    NAME,
  ).features.map(({ properties }) => properties);
  const found = new Map<string, GaugeNearby>();
  for (const { geometry, properties: p } of alive) {
    const code = p.parameter_code;
    const key = `${p.monitoring_location_id} ${code}`;
    if (!isWanted(code) || found.has(key)) continue;
    const site = sites.find(({ id }) => id === p.monitoring_location_id);
    const [lonDeg, latDeg] = site?.geometry?.coordinates ?? geometry?.coordinates ?? [];
    if (lonDeg === undefined || latDeg === undefined) continue;
    const row = newest.find(
      (one) => one.monitoring_location_id === p.monitoring_location_id && one.parameter_code === code,
    );
    const value = finite(row?.value);
    const rowMs = instantMs(row?.time);
    const datum = DATUM[code];
    found.set(key, {
      service: 'usgs',
      station: p.monitoring_location_id,
      name: site?.properties.monitoring_location_name ?? p.monitoring_location_id,
      variable: WANTED[code],
      parameter: code,
      ...(datum === undefined ? {} : { datum }),
      distanceKm: distanceKm(at, { latDeg, lonDeg }),
      latest: latestOf(value, row?.unit_of_measure ?? '', rowMs, nowMs),
    });
  }
  return nearestFirst([...found.values()]);
}
