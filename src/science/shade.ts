/** The sun behind hills and trees. */
import { diffuseShare } from './diffuse.ts';
import { sunNear } from './sun.ts';

const RAD = Math.PI / 180;
const SOLAR_CONSTANT_WM2 = 1367;
const HOUR_MS = 3_600_000;
const STEP_MS = 15 * 60_000;

/** Heights of the horizon in evenly spaced directions from north with the sun, degrees. */
export type HorizonDeg = readonly number[];

/** Height of the horizon towards a bearing, between the directions that are given. @param deg 0 to 360 */
export function horizonAtDeg(horizon: HorizonDeg, deg: number): number {
  const at = (deg / 360) * horizon.length;
  const before = horizon[Math.floor(at) % horizon.length] ?? 0;
  const after = horizon[Math.ceil(at) % horizon.length] ?? 0;
  return before + (at - Math.floor(at)) * (after - before);
}

/**
 * Share of the sky's light that is left below a horizon, for an even sky: mean of the squared cosine of its height.
 *
 * @returns 0 to 1
 * @see Oke (1987), Boundary Layer Climates, 2nd ed., appendix on view factors: sky view of a basin is cos^2 of its
 *   height (from memory)
 */
export const skyView = (horizon: HorizonDeg): number =>
  horizon.reduce((sum, deg) => sum + Math.cos(deg * RAD) ** 2, 0) / Math.max(1, horizon.length);

/** A place that the sun may reach. */
export interface SunnyPlace {
  readonly latDeg: number;
  readonly lonDeg: number;
  readonly horizonDeg: HorizonDeg;
  /** A sloping bank: bearing it looks to and its steepness, degrees; left out for water, which lies flat. */
  readonly bank?: { readonly facesDeg: number; readonly slopeDeg: number };
}

/** Whether the sun shines straight on a place. @param atMs epoch milliseconds */
export function isSunlit({ latDeg, lonDeg, horizonDeg, bank }: SunnyPlace, atMs: number): boolean {
  const { altitudeDeg, azimuthDeg } = sunNear(latDeg, lonDeg, atMs);
  if (altitudeDeg <= 0 || altitudeDeg <= horizonAtDeg(horizonDeg, azimuthDeg)) return false;
  if (bank === undefined) return true;
  const [alt, slope] = [altitudeDeg * RAD, bank.slopeDeg * RAD];
  // Angle between the sun and the upright on the slope.
  const up = Math.sin(alt) * Math.cos(slope);
  return up + Math.cos(alt) * Math.sin(slope) * Math.cos((azimuthDeg - bank.facesDeg) * RAD) > 0;
}

/**
 * Direct sun of a stretch of time, in steps of a quarter of an hour.
 *
 * @returns hours of it with its first and last instant; null where there is none
 */
export function directSun(
  place: SunnyPlace,
  fromMs: number,
  toMs: number,
): { readonly sunH: number; readonly fromMs: number; readonly toMs: number } | null {
  let [first, last, count] = [NaN, NaN, 0];
  for (let at = fromMs + STEP_MS / 2; at < toMs; at += STEP_MS) {
    if (!isSunlit(place, at)) continue;
    if (count === 0) first = at - STEP_MS / 2;
    last = at + STEP_MS / 2;
    count += 1;
  }
  return count === 0 ? null : { sunH: (count * STEP_MS) / HOUR_MS, fromMs: first, toMs: last };
}

/**
 * Share of an hour's sunlight that reaches water below a horizon: the part straight from the sun while it stands above
 * it, and the sky's part by how much sky is seen.
 *
 * @param endMs  end of the hour, epoch milliseconds
 * @param openWm2 global radiation on open ground, mean of the hour, W/m2
 * @returns 0 to 1
 */
export function sunShare(place: SunnyPlace, endMs: number, openWm2: number): number {
  let [above, lit, most] = [0, 0, 0];
  for (let at = endMs - HOUR_MS + STEP_MS / 2; at < endMs; at += STEP_MS) {
    const { altitudeDeg, azimuthDeg } = sunNear(place.latDeg, place.lonDeg, at);
    const top = Math.max(0, Math.sin(altitudeDeg * RAD));
    most += (SOLAR_CONSTANT_WM2 * top * STEP_MS) / HOUR_MS;
    above += top;
    if (top > 0 && altitudeDeg > horizonAtDeg(place.horizonDeg, azimuthDeg)) lit += top;
  }
  if (above === 0 || openWm2 <= 0) return skyView(place.horizonDeg);
  const diffuse = diffuseShare(Math.min(1.2, openWm2 / most));
  return diffuse * skyView(place.horizonDeg) + (1 - diffuse) * (lit / above);
}
