/**
 * Gauges of Canada's network near a position, from its real-time collection. The fields are as recorded; the question by
 * bounding box is written from the service's documentation and tested on replies made by hand.
 */
import { z } from 'zod';
import { ATTRIBUTIONS } from '../attributions.ts';
import type { HttpClient } from '../http/types.ts';
import { check, finite, instantMs, looseNumber, parseJson } from '../parse.ts';
import { nearestFirst, type Around, type GaugeNearby } from './gauge.ts';
import { distanceKm } from './place.ts';
import { boxAround } from './usgs.ts';

const NAME = ATTRIBUTIONS.eccc.name;
/** Newest rows first: enough for every station of the box to show up, each writes every five minutes. */
const MOST_ROWS = 2000;
/** How far back a station must have spoken to count as living, ms. */
const SINCE_MS = 6 * 3_600_000;

const rowsSchema = z.object({
  features: z.array(
    z.object({
      geometry: z.object({ coordinates: z.array(z.number()).min(2) }),
      properties: z.object({
        STATION_NUMBER: z.string(),
        STATION_NAME: z.string().nullish(),
        DATETIME: z.string(),
        LEVEL: looseNumber,
        DISCHARGE: looseNumber,
      }),
    }),
  ),
});

/** @throws ThawlineError `service` */
export async function canadaNearby(
  client: HttpClient,
  base: string,
  at: Around,
  nowMs: number,
): Promise<GaugeNearby[]> {
  const box = boxAround(at.latDeg, at.lonDeg, at.halfKm).join(',');
  const since = new Date(nowMs - SINCE_MS).toISOString();
  const query = `f=json&bbox=${box}&datetime=${since}/..&sortby=-DATETIME&limit=${MOST_ROWS}`;
  const url = `${base}/collections/hydrometric-realtime/items?${query}`;
  const { features } = check(
    rowsSchema,
    parseJson((await client.get({ url, service: NAME })).text, NAME),
    NAME,
  );
  const found = new Map<string, GaugeNearby>();
  for (const { geometry, properties: row } of features) {
    const [lonDeg, latDeg] = geometry.coordinates;
    const readMs = instantMs(row.DATETIME);
    if (lonDeg === undefined || latDeg === undefined || readMs === null) continue;
    const ageMin = Math.round((nowMs - readMs) / 60_000);
    for (const [variable, unit, raw] of [
      ['level', 'm', row.LEVEL],
      ['discharge', 'm3/s', row.DISCHARGE],
    ] as const) {
      const value = finite(raw);
      const key = `${row.STATION_NUMBER} ${variable}`;
      const known = found.get(key)?.latest;
      if (value === null || (known != null && known.ageMin <= ageMin)) continue;
      found.set(key, {
        service: 'eccc',
        station: row.STATION_NUMBER,
        name: row.STATION_NAME ?? row.STATION_NUMBER,
        variable,
        distanceKm: distanceKm(at, { latDeg, lonDeg }),
        latest: { value, unit, ageMin },
      });
    }
  }
  return nearestFirst([...found.values()]);
}
