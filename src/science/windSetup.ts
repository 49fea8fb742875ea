import { requireRange } from './range.ts';

/**
 * Rise of the water level at the downwind end of a lake while the wind blows along it.
 *
 * @param windMs   wind, m/s, 0 to 60
 * @param fetchM   length of open water upwind, m, 0 or more
 * @param depthM   mean depth along it, m, above 0
 * @param angleDeg angle between wind and lake axis, degrees
 * @returns m
 * @throws RangeError outside the ranges
 * @see Zuider Zee formula S = U^2 F cos A / (1400 D) with mph, statute miles, feet (constant from memory)
 * @example windSetupM(13.41, 4828, 6.1) // 0.029
 */
export function windSetupM(windMs: number, fetchM: number, depthM: number, angleDeg = 0): number {
  requireRange('windMs', windMs, 0, 60);
  requireRange('fetchM', fetchM, 0, 1e7);
  requireRange('depthM', depthM, Number.MIN_VALUE, 1e4);
  const mph = windMs / 0.44704;
  const miles = fetchM / 1609.344;
  const depthFt = depthM / 0.3048;
  return ((mph * mph * miles) / (1400 * depthFt)) * Math.cos((angleDeg * Math.PI) / 180) * 0.3048;
}
