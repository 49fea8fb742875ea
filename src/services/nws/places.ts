import { z } from 'zod';
import { ThawlineError } from '../../units/index.ts';
import type { LakeConfig } from '../../config/index.ts';
import { ATTRIBUTIONS } from '../attributions.ts';
import type { HttpClient } from '../http/types.ts';
import { check, parseJson } from '../parse.ts';

const NAME = ATTRIBUTIONS.nws.name;
const MAX_STATIONS = 3;

/** The forecast cell of a lake, and the stations nearest to it. */
export interface Place {
  readonly cell: string; // `LZK/83,73`
  readonly stations: readonly string[];
}

const pointSchema = z.object({
  properties: z.object({
    gridId: z.string().regex(/^[A-Z0-9]{2,4}$/),
    gridX: z.number().int(),
    gridY: z.number().int(),
  }),
});
const stationsSchema = z.object({
  features: z.array(z.object({ properties: z.object({ stationIdentifier: z.string() }) })).nullish(),
});

export function cellOf(body: unknown): string {
  const { gridId, gridX, gridY } = check(pointSchema, body, NAME).properties;
  return `${gridId}/${gridX},${gridY}`;
}

export function stationsOf(body: unknown): string[] {
  return (check(stationsSchema, body, NAME).features ?? [])
    .map((f) => f.properties.stationIdentifier)
    .filter((id) => /^[A-Z0-9]{3,8}$/i.test(id))
    .slice(0, MAX_STATIONS);
}

/** At most four decimals: more are answered with a redirect. */
export function pointText(lake: LakeConfig): string {
  const short = (deg: number): string => String(Number(deg.toFixed(4)));
  return `${short(lake.latDeg)},${short(lake.lonDeg)}`;
}

/** Cells move now and then, so a place is kept for the life of a client and dropped on the first 404. */
const known = new WeakMap<object, Map<string, Place>>();

export async function placeOf(
  client: HttpClient,
  base: string,
  lake: LakeConfig,
): Promise<{ place: Place; cached: boolean }> {
  const memory = known.get(client.session) ?? new Map<string, Place>();
  known.set(client.session, memory);
  const point = pointText(lake);
  const cached = memory.get(point);
  if (cached !== undefined) return { place: cached, cached: true };
  const ask = async (path: string): Promise<unknown> =>
    parseJson((await client.get({ url: `${base}${path}`, service: NAME })).text, NAME);
  const cell = cellOf(await ask(`/points/${point}`));
  const stations = await ask(`/gridpoints/${cell}/stations`).then(stationsOf, (error: unknown) => {
    // Without stations there is still a forecast.
    if (error instanceof ThawlineError) return null;
    throw error;
  });
  const place = { cell, stations: stations ?? [] };
  if (stations !== null) memory.set(point, place);
  return { place, cached: false };
}

export function forgetPlace(client: HttpClient, lake: LakeConfig): void {
  known.get(client.session)?.delete(pointText(lake));
}
