import { requireRange } from './range.ts';
import { saturationVapourHpa } from './vapour.ts';

/** Stefan-Boltzmann constant, W/(m2 K4), as rounded in the sources of the check values. */
const SIGMA = 5.67e-8;
const KELVIN = 273.15;
const WATER_EMISSIVITY = 0.97;

/**
 * Longwave radiation that the sky sends down.
 *
 * @param airC     air temperature near the ground, degC, -60 to 60
 * @param cloudPct cloud cover, percent, 0 to 100
 * @returns W/m2
 * @throws RangeError outside the ranges
 * @see Swinbank (1963), Q. J. R. Meteorol. Soc. 89, 339, with the cloud factor of the CE-QUAL-W2 manual
 * @example longwaveDownWm2(10, 50) // 285.4
 */
export function longwaveDownWm2(airC: number, cloudPct: number): number {
  requireRange('airC', airC, -60, 60);
  requireRange('cloudPct', cloudPct, 0, 100);
  const kelvin = airC + KELVIN;
  return 9.37e-6 * kelvin ** 6 * SIGMA * (1 + 0.17 * (cloudPct / 100) ** 2);
}

/**
 * Longwave radiation that a water surface sends up.
 *
 * @param waterC surface temperature, degC, -2 to 50
 * @returns W/m2
 * @throws RangeError outside the range
 * @example longwaveUpWm2(10) // 353.5
 */
export function longwaveUpWm2(waterC: number): number {
  requireRange('waterC', waterC, -2, 50);
  return WATER_EMISSIVITY * SIGMA * (waterC + KELVIN) ** 4;
}

/**
 * Longwave radiation that a clear sky sends down: a dry one sends less, which the air temperature alone does not tell.
 *
 * @param airC air temperature near the ground, degC, -60 to 60
 * @param dewC dew point near the ground, degC, -60 to 60
 * @returns W/m2
 * @throws RangeError outside the ranges
 * @see Brutsaert (1975), Water Resour. Res. 11, 742 (formula from memory)
 * @example clearSkyLongwaveWm2(15, 8) // 302.9
 */
export function clearSkyLongwaveWm2(airC: number, dewC: number): number {
  requireRange('airC', airC, -60, 60);
  const kelvin = airC + KELVIN;
  return 1.24 * (saturationVapourHpa(dewC) / kelvin) ** (1 / 7) * SIGMA * kelvin ** 4;
}
