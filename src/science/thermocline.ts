import { waterDensity } from './density.ts';
import { ROUNDED_GRAVITY_MS2 } from './gravity.ts';
import { requireRange } from './range.ts';

/** Scatter of lakes about the relation, as a share of the depth (from memory). */
const SCATTER = 0.3;
/** Stress of the wind of late summer storms on water, N/m2: 10 m/s and a drag of 1.3e-3 (common practice, no source). */
const STORM_STRESS = 0.156;
/** Basins above which the second relation does not hold, m. */
const SMALL_BASIN_M = 5000;
/** Water below the layer of a temperate lake in late summer, degC (common practice, no source). */
const DEEP_C = 10;

export interface Thermocline {
  readonly depthM: number;
  /** Most lakes lie between. */
  readonly lowM: number;
  readonly highM: number;
}

/**
 * Depth of the layer between warm and cold water of a stratified lake in midsummer, from its longest open water.
 *
 * @param lengthM  longest straight line over open water, m, 50 to 300,000
 * @param surfaceC water at the surface, degC, 12 to 40
 * @returns m; the interval takes in a third of scatter on either side and, for basins under 5 km, a second relation
 * @throws RangeError outside the ranges
 * @see Hanna (1990), Can. J. Fish. Aquat. Sci. 47, 1627: log10 of the depth is 0.336 log10 of the length - 0.245 (from memory)
 * @see Gorham and Boyce (1989), J. Great Lakes Res. 15, 233, abstract: 2.0 (stress / (g x density contrast))^1/2 x length^1/2
 *   for basins under 5 km
 * @example thermoclineM(3000, 26).depthM // 8.4
 */
export function thermoclineM(lengthM: number, surfaceC: number): Thermocline {
  requireRange('lengthM', lengthM, 50, 300_000);
  requireRange('surfaceC', surfaceC, 12, 40);
  const depthM = 10 ** (0.336 * Math.log10(lengthM) - 0.245);
  const contrast = waterDensity(DEEP_C) - waterDensity(surfaceC);
  const second =
    lengthM < SMALL_BASIN_M
      ? 2 * Math.sqrt(STORM_STRESS / (ROUNDED_GRAVITY_MS2 * contrast)) * Math.sqrt(lengthM)
      : depthM;
  return {
    depthM,
    lowM: Math.min(depthM * (1 - SCATTER), second),
    highM: Math.max(depthM * (1 + SCATTER), second),
  };
}
