import { requireRange } from './range.ts';

/**
 * Density of air-free fresh water at one atmosphere.
 *
 * @param tempC water temperature, degC, 0 to 40; a little beyond (-2 to 50) the polynomial is still smooth and is allowed
 * @returns density, kg/m3; maximum at 3.98 degC
 * @throws RangeError outside -2 to 50
 * @see Tanaka et al. (2001), Metrologia 38, 301, eq. 1
 * @example waterDensity(10) // 999.7027
 */
export function waterDensity(tempC: number): number {
  requireRange('tempC', tempC, -2, 50);
  const dist = tempC - 3.983035;
  return 999.97495 * (1 - (dist * dist * (tempC + 301.797)) / (522528.9 * (tempC + 69.34881)));
}

/** Volumetric heat capacity of fresh water, J/(m3 K), used where volumes stand for masses. */
export const WATER_HEAT_CAPACITY = 4.19e6;

/** Density of mineral sediment grains, kg/m3 (quartz, from memory). */
const GRAIN_DENSITY = 2650;

/**
 * Density of water that carries suspended sediment.
 *
 * @param tempC  water temperature, degC, -2 to 50
 * @param sscMgL suspended sediment, mg per litre of mixture, 0 to 100 000
 * @returns density, kg/m3; 100 mg/L adds 0.062
 * @throws RangeError outside the ranges
 * @see HEC-RAS Mud and Debris Flow Manual, mixture density
 * @example mixtureDensity(10, 500) // 1000.0141
 */
export function mixtureDensity(tempC: number, sscMgL: number): number {
  requireRange('sscMgL', sscMgL, 0, 100_000);
  const water = waterDensity(tempC);
  return water + (sscMgL / 1000) * (1 - water / GRAIN_DENSITY);
}
