import { z } from 'zod';
import type { HttpClient } from '../http/types.ts';
import { check, parseJson } from '../parse.ts';

/** Written from the service's documentation; no recorded reply was at hand, so its shape is tested on replies made by hand. */
export const GEOCODING_BASE = 'https://geocoding-api.open-meteo.com';
const NAME = 'Open-Meteo geocoding';
const MOST_PLACES = 8;

export interface FoundPlace {
  readonly name: string;
  /** Wider places, nearest first: county, state, country. */
  readonly within: string;
  readonly latDeg: number;
  readonly lonDeg: number;
  readonly elevationM: number | null;
  /** IANA zone. */
  readonly zone: string | null;
}

const replySchema = z.object({
  results: z
    .array(
      z.object({
        name: z.string(),
        latitude: z.number(),
        longitude: z.number(),
        elevation: z.number().nullish(),
        timezone: z.string().nullish(),
        admin1: z.string().nullish(),
        admin2: z.string().nullish(),
        country: z.string().nullish(),
      }),
    )
    .nullish(),
});

/**
 * Places of a name, the likeliest first; none is an answer too.
 *
 * @throws ThawlineError `service` when it does not answer or in a shape that is not known
 */
export async function findPlaces(
  client: HttpClient,
  name: string,
  base = GEOCODING_BASE,
): Promise<FoundPlace[]> {
  const query = new URLSearchParams({ name, count: String(MOST_PLACES), language: 'en', format: 'json' });
  const { text } = await client.get({ url: `${base}/v1/search?${query.toString()}`, service: NAME });
  const { results } = check(replySchema, parseJson(text, NAME), NAME);
  return (results ?? []).map((one) => ({
    name: one.name,
    within: [one.admin2, one.admin1, one.country].filter(Boolean).join(', '),
    latDeg: one.latitude,
    lonDeg: one.longitude,
    elevationM: one.elevation ?? null,
    zone: one.timezone ?? null,
  }));
}
