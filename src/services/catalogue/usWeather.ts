/** What the US services know of a position: forecast office and cell, and flood gauges near by. */
import { z } from 'zod';
import type { HttpClient } from '../http/types.ts';
import { statusOf } from '../http/errors.ts';
import { check, parseJson } from '../parse.ts';
import { boxAround } from './usgs.ts';
import { distanceKm } from './place.ts';

const NWS = 'NWS';
const NWPS = 'NWPS';
/** The whole country times out; a box of a quarter degree to each side holds every gauge of one lake. */
const MOST_HALF_KM = 25;

const pointSchema = z.object({
  properties: z.object({
    cwa: z.string().nullish(),
    gridId: z.string(),
    gridX: z.number(),
    gridY: z.number(),
  }),
});

export interface Office {
  readonly office: string;
  /** `OHX/50,40` */
  readonly cell: string;
}

/** The forecast office of a position; null outside the US. @throws ThawlineError `service` when it cannot be told */
export async function officeOf(
  client: HttpClient,
  base: string,
  latDeg: number,
  lonDeg: number,
): Promise<Office | null> {
  const short = (deg: number): string => String(Number(deg.toFixed(4)));
  try {
    const { text } = await client.get({
      url: `${base}/points/${short(latDeg)},${short(lonDeg)}`,
      service: NWS,
    });
    const { cwa, gridId, gridX, gridY } = check(pointSchema, parseJson(text, NWS), NWS).properties;
    return { office: cwa ?? gridId, cell: `${gridId}/${gridX},${gridY}` };
  } catch (error) {
    if (statusOf(error) === 404) return null;
    throw error;
  }
}

export interface FloodGauge {
  readonly id: string;
  readonly name: string;
  readonly distanceKm: number;
}

const gaugesSchema = z.object({
  gauges: z.array(
    z.object({ lid: z.string(), name: z.string().nullish(), latitude: z.number(), longitude: z.number() }),
  ),
});

/** Flood gauges within a small square, nearest first. @throws ThawlineError `service` */
export async function floodGaugesNearby(
  client: HttpClient,
  base: string,
  at: { readonly latDeg: number; readonly lonDeg: number; readonly halfKm: number },
): Promise<FloodGauge[]> {
  const [west, south, east, north] = boxAround(at.latDeg, at.lonDeg, Math.min(at.halfKm, MOST_HALF_KM));
  const url = `${base}/nwps/v1/gauges?bbox.xmin=${west}&bbox.ymin=${south}&bbox.xmax=${east}&bbox.ymax=${north}&srid=EPSG_4326`;
  const { text } = await client.get({ url, service: NWPS });
  return check(gaugesSchema, parseJson(text, NWPS), NWPS)
    .gauges.map(({ lid, name, latitude, longitude }) => ({
      id: lid,
      name: name ?? lid,
      distanceKm: distanceKm(at, { latDeg: latitude, lonDeg: longitude }),
    }))
    .sort((a, b) => a.distanceKm - b.distanceKm);
}
