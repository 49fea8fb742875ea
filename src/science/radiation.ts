import { declinationRad, sunsetHourAngle } from './dayLength.ts';
import { requireRange } from './range.ts';

const RAD = Math.PI / 180;
const SOLAR_CONSTANT_WM2 = 1367;

/**
 * Global radiation on a horizontal surface under a clear sky.
 *
 * @param altitudeDeg altitude of the sun above the horizon, degrees, -90 to 90
 * @returns W/m2; 0 when the sun is down
 * @throws RangeError outside the range
 * @see Haurwitz (1945), J. Meteor. 2, 154
 * @example clearSkyWm2(30) // 487.9
 */
export function clearSkyWm2(altitudeDeg: number): number {
  requireRange('altitudeDeg', altitudeDeg, -90, 90);
  const cosZenith = Math.sin(altitudeDeg * RAD);
  return cosZenith > 0 ? 1098 * cosZenith * Math.exp(-0.059 / cosZenith) : 0;
}

/**
 * Radiation at the top of the atmosphere on a horizontal surface, mean of the whole day.
 *
 * @param latDeg    latitude, degrees north, -90 to 90
 * @param dayOfYear 1 to 366
 * @returns W/m2 (multiply by 0.0864 for MJ/m2 a day)
 * @throws RangeError outside the ranges
 * @see Allen et al. (1998), FAO-56, eq. 21 to 25
 * @example extraterrestrialWm2(-20, 246) // 372.6
 */
export function extraterrestrialWm2(latDeg: number, dayOfYear: number): number {
  requireRange('latDeg', latDeg, -90, 90);
  const lat = latDeg * RAD;
  const dec = declinationRad(dayOfYear);
  const ws = sunsetHourAngle(latDeg, dayOfYear);
  const nearness = 1 + 0.033 * Math.cos(((2 * Math.PI) / 365) * dayOfYear);
  const beam = ws * Math.sin(lat) * Math.sin(dec) + Math.cos(lat) * Math.cos(dec) * Math.sin(ws);
  return Math.max(0, (SOLAR_CONSTANT_WM2 / Math.PI) * nearness * beam);
}

/**
 * Share of the clear-sky radiation that a cloud cover lets through.
 *
 * @param cloudPct cloud cover, percent, 0 to 100
 * @returns factor, 1 (clear) to 0.25 (overcast)
 * @throws RangeError outside the range
 * @see Kasten and Czeplak (1980), Solar Energy 24, 177 (formula from memory)
 */
export function cloudTransmission(cloudPct: number): number {
  requireRange('cloudPct', cloudPct, 0, 100);
  return 1 - 0.75 * (cloudPct / 100) ** 3.4;
}
