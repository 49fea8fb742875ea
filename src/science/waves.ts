import { ROUNDED_GRAVITY_MS2 } from './gravity.ts';

export interface FetchWaves {
  /** Friction velocity, m/s. */
  readonly frictionMs: number;
  /** Significant wave height, m. Methods differ by 20 to 45 %: print it as a coarse class. */
  readonly heightM: number;
  /** Peak period, s. */
  readonly periodS: number;
}

/**
 * Waves that a steady wind raises over a straight fetch, fetch-limited, with an optional cap on the period in
 * shallow water (the height is then that of the shorter waves' fetch).
 *
 * @param windMs wind speed at 10 m, m/s, not negative
 * @param fetchM straight-line open water upwind, m, not negative
 * @param depthM mean depth along the fetch, m; leave out for deep water
 * @returns friction velocity, significant height and peak period; heights within about 45 % of other methods
 * @throws RangeError for negative wind or fetch, or a depth that is not positive
 * @see U.S. Army Corps of Engineers, Coastal Engineering Manual, EM 1110-2-1100, part II chapter 2
 * @example fetchWaves(10, 3000).heightM // 0.275
 */
export function fetchWaves(windMs: number, fetchM: number, depthM?: number): FetchWaves {
  if (!(windMs >= 0 && fetchM >= 0) || (depthM !== undefined && !(depthM > 0))) {
    throw new RangeError('waves need a wind and a fetch of 0 or more, and a positive depth');
  }
  const frictionMs = windMs * Math.sqrt(0.001 * (1.1 + 0.035 * windMs));
  if (windMs === 0 || fetchM === 0) return { frictionMs, heightM: 0, periodS: 0 };
  const heightOf = (fetch: number): number =>
    (Math.min(211.5, 0.0413 * Math.sqrt((ROUNDED_GRAVITY_MS2 * fetch) / frictionMs ** 2)) * frictionMs ** 2) /
    ROUNDED_GRAVITY_MS2;
  const periodS =
    (Math.min(239.8, 0.651 * Math.cbrt((ROUNDED_GRAVITY_MS2 * fetchM) / frictionMs ** 2)) * frictionMs) /
    ROUNDED_GRAVITY_MS2;
  const longestS = depthM === undefined ? Infinity : 9.78 * Math.sqrt(depthM / ROUNDED_GRAVITY_MS2);
  if (periodS <= longestS) return { frictionMs, heightM: heightOf(fetchM), periodS };
  const shorterFetchM =
    (((longestS * ROUNDED_GRAVITY_MS2) / frictionMs / 0.651) ** 3 * frictionMs ** 2) / ROUNDED_GRAVITY_MS2;
  return { frictionMs, heightM: heightOf(shorterFetchM), periodS: longestS };
}
