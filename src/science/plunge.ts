import { requireRange } from './range.ts';

const GRAVITY = 9.81;

/**
 * Reduced gravity of an inflow against the water it meets.
 *
 * @param inflowDensity  kg/m3
 * @param ambientDensity kg/m3
 * @returns m/s2; positive plunges, zero or negative floats
 * @throws RangeError for densities that are not water
 */
export function reducedGravity(inflowDensity: number, ambientDensity: number): number {
  requireRange('inflowDensity', inflowDensity, 900, 1500);
  requireRange('ambientDensity', ambientDensity, 900, 1500);
  return (GRAVITY * (inflowDensity - ambientDensity)) / ambientDensity;
}

/**
 * Depth at which a denser inflow dives under, in a rectangular section.
 *
 * @param reducedGravityMs2 m/s2
 * @param flowM2s           flow per width, m2/s, 0 or more
 * @param froude            densimetric Froude number at the plunge, 0.3 to 0.8; 0.67 is published for cold inflow
 * @returns depth, m; null when the inflow floats
 * @throws RangeError outside the ranges
 * @see Morris and Fan, Reservoir Sedimentation Handbook, table 14.2; Farrell and Stefan (1986)
 * @example plungeDepthM(0.014702, 1, 0.67) // 5.33
 */
export function plungeDepthM(reducedGravityMs2: number, flowM2s: number, froude = 0.67): number | null {
  requireRange('flowM2s', flowM2s, 0, 1e5);
  requireRange('froude', froude, 0.3, 0.8);
  if (reducedGravityMs2 <= 0) return null;
  return ((flowM2s * flowM2s) / (froude * froude * reducedGravityMs2)) ** (1 / 3);
}
