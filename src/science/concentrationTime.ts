import { requireRange } from './range.ts';

const FT = 0.3048;

/**
 * Lag of a watershed (centre of the rain to peak of the runoff) by the NRCS equation.
 *
 * @param lengthM     flow length, m, above 0 to 100 000
 * @param slope       mean land slope, m/m, above 0 to 2
 * @param curveNumber 1 to 100 (published for 50 to 95 and watersheds below 8 km2)
 * @returns hours; the time of concentration is this over 0.6
 * @throws RangeError outside the ranges
 * @see USDA NRCS, National Engineering Handbook 630, ch. 15
 * @example nrcsLagH(4200, 0.02, 82) // 1.72
 */
export function nrcsLagH(lengthM: number, slope: number, curveNumber: number): number {
  requireRange('lengthM', lengthM, Number.MIN_VALUE, 1e5);
  requireRange('slope', slope, Number.MIN_VALUE, 2);
  requireRange('curveNumber', curveNumber, 1, 100);
  const storageIn = 1000 / curveNumber - 10;
  return ((lengthM / FT) ** 0.8 * (storageIn + 1) ** 0.7) / (1900 * Math.sqrt(slope * 100));
}
