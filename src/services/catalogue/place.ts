import { z } from 'zod';
import type { HttpClient } from '../http/types.ts';
import { check, parseJson } from '../parse.ts';

const NAME = 'Open-Meteo';

/** What the weather service knows of a position. */
export interface PlaceFacts {
  readonly elevationM: number;
  /** IANA zone. */
  readonly zone: string;
}

const replySchema = z.object({ elevation: z.number(), timezone: z.string() });

/**
 * Elevation and zone of a position, from the forecast service's own reply (`timezone=auto`).
 *
 * @throws ThawlineError `service`
 */
export async function placeFacts(
  client: HttpClient,
  base: string,
  latDeg: number,
  lonDeg: number,
): Promise<PlaceFacts> {
  const url = `${base}/v1/forecast?latitude=${latDeg}&longitude=${lonDeg}&hourly=temperature_2m&forecast_days=1&timezone=auto`;
  const { text } = await client.get({ url, service: NAME });
  const { elevation, timezone } = check(replySchema, parseJson(text, NAME), NAME);
  return { elevationM: elevation, zone: timezone };
}

/** Great-circle distance, km, on a sphere of 6,371 km. */
export function distanceKm(
  from: { readonly latDeg: number; readonly lonDeg: number },
  to: { readonly latDeg: number; readonly lonDeg: number },
): number {
  const rad = Math.PI / 180;
  const dLat = (to.latDeg - from.latDeg) * rad;
  const dLon = (to.lonDeg - from.lonDeg) * rad;
  const h =
    Math.sin(dLat / 2) ** 2 +
    Math.cos(from.latDeg * rad) * Math.cos(to.latDeg * rad) * Math.sin(dLon / 2) ** 2;
  return 2 * 6371 * Math.asin(Math.min(1, Math.sqrt(h)));
}
