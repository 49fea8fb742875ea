import { requireRange } from './range.ts';

const RAD = Math.PI / 180;

/**
 * Declination of the sun from the day of the year.
 *
 * @param dayOfYear 1 (1 January) to 366
 * @returns declination, radians
 * @throws RangeError outside 1 to 366
 * @see Allen et al. (1998), FAO Irrigation and Drainage Paper 56, eq. 24
 */
export function declinationRad(dayOfYear: number): number {
  requireRange('dayOfYear', dayOfYear, 1, 366);
  return 0.409 * Math.sin(((2 * Math.PI) / 365) * dayOfYear - 1.39);
}

/**
 * Half the arc the sun stands above a given altitude, as an hour angle.
 *
 * @param latDeg     latitude, degrees north, -90 to 90
 * @param dayOfYear  1 to 366
 * @param horizonDeg altitude of the sun's centre that counts as rising, degrees
 * @returns hour angle, radians, 0 (polar night) to pi (polar day)
 * @throws RangeError outside the ranges
 * @see Allen et al. (1998), FAO-56, eq. 25, with the horizon term of spherical astronomy
 */
export function sunsetHourAngle(latDeg: number, dayOfYear: number, horizonDeg = 0): number {
  requireRange('latDeg', latDeg, -90, 90);
  const lat = latDeg * RAD;
  const dec = declinationRad(dayOfYear);
  const across = Math.cos(lat) * Math.cos(dec);
  const cosine = (Math.sin(horizonDeg * RAD) - Math.sin(lat) * Math.sin(dec)) / Math.max(across, 1e-12);
  return Math.acos(Math.min(1, Math.max(-1, cosine)));
}

/**
 * Day length from sunrise to sunset.
 *
 * @param latDeg     latitude, degrees north, -90 to 90
 * @param dayOfYear  1 to 366
 * @param horizonDeg altitude that counts as rising: -0.833 for the upper limb with refraction (almanac), 0 for the
 *                   geometric day of radiation formulas
 * @returns hours, 0 to 24; within 6 minutes of the almanac at middle latitudes
 * @throws RangeError outside the ranges
 * @example dayLengthH(36, 172, 0) // 14.45
 */
export function dayLengthH(latDeg: number, dayOfYear: number, horizonDeg = -0.833): number {
  return (24 / Math.PI) * sunsetHourAngle(latDeg, dayOfYear, horizonDeg);
}
