import { requireRange } from './range.ts';

/**
 * Saturation vapour pressure over a water surface (also below freezing, where ice would be lower).
 *
 * @param airC  temperature, degC, -60 to 60 (published for -40 to 50)
 * @returns vapour pressure, hPa; relative error below 0.4 % in the published range
 * @throws RangeError outside -60 to 60
 * @see Alduchov and Eskridge (1996), J. Appl. Meteor. 35, 601, eq. 21 (coefficients from memory)
 * @example saturationVapourHpa(20) // 23.33
 */
export function saturationVapourHpa(airC: number): number {
  requireRange('airC', airC, -60, 60);
  return 6.1094 * Math.exp((17.625 * airC) / (airC + 243.04));
}

/**
 * Dew point over a water surface from air temperature and relative humidity.
 *
 * @param airC  air temperature, degC, -60 to 60
 * @param rhPct relative humidity, percent, above 0 to 100; values below 1 count as 1
 * @returns dew point, degC, never above the air temperature
 * @throws RangeError outside the ranges
 * @see inverse of {@link saturationVapourHpa}
 * @example dewPointC(20, 50) // 9.26
 */
export function dewPointC(airC: number, rhPct: number): number {
  requireRange('airC', airC, -60, 60);
  requireRange('rhPct', rhPct, 0, 100);
  const gamma = Math.log(Math.max(rhPct, 1) / 100) + (17.625 * airC) / (243.04 + airC);
  return (243.04 * gamma) / (17.625 - gamma);
}

/**
 * Relative humidity over a water surface from air temperature and dew point.
 *
 * @param airC  air temperature, degC, -60 to 60
 * @param dewC  dew point, degC, -60 to 60; above the air temperature it counts as that
 * @returns percent, above 0 to 100
 * @throws RangeError outside the ranges
 * @see quotient of {@link saturationVapourHpa} at the dew point and at the air temperature
 * @example humidityPct(20, 9.26) // 50
 */
export function humidityPct(airC: number, dewC: number): number {
  return Math.min(100, (100 * saturationVapourHpa(dewC)) / saturationVapourHpa(airC));
}
