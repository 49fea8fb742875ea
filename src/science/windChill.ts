/** Wind speed below which, and air temperature above which, the index is not defined and air temperature stands. */
const MIN_WIND_KMH = 4.8;
const MAX_AIR_C = 10;

/**
 * Wind chill index of 2001, for a walking adult's face; a running boat adds its own speed to the wind.
 *
 * @param airC   air temperature, degC
 * @param windMs wind speed at 10 m, m/s, not negative
 * @returns wind chill, degC; the air temperature itself above 10 degC or at 4.8 km/h and less
 * @throws RangeError for a negative wind or a value that is not finite
 * @see National Weather Service and Environment Canada, index in force since 1 November 2001
 * @example windChillC(-5, 40 / 3.6) // -14.1
 */
export function windChillC(airC: number, windMs: number): number {
  if (!Number.isFinite(airC) || !(windMs >= 0 && Number.isFinite(windMs))) {
    throw new RangeError('wind chill needs a finite air temperature and a wind of 0 m/s or more');
  }
  const windKmh = windMs * 3.6;
  if (airC > MAX_AIR_C || windKmh <= MIN_WIND_KMH) return airC;
  const v = windKmh ** 0.16;
  return Math.min(airC, 13.12 + 0.6215 * airC - 11.37 * v + 0.3965 * airC * v);
}
