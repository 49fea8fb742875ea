import { requireRange } from './range.ts';

const MM_PER_IN = 25.4;

/**
 * Storm runoff by the curve number method, US units.
 *
 * @param rainIn      rain of the storm, inches, 0 to 40
 * @param curveNumber curve number, 1 to 100 (published for 40 to 98, weaker for less than half an inch of runoff)
 * @returns runoff, inches, 0 to the rain
 * @throws RangeError outside the ranges
 * @see USDA (1986), TR-55, eq. 2-1 to 2-4
 * @example runoffIn(6, 70) // 2.81
 */
export function runoffIn(rainIn: number, curveNumber: number): number {
  requireRange('rainIn', rainIn, 0, 40);
  requireRange('curveNumber', curveNumber, 1, 100);
  const storage = 1000 / curveNumber - 10;
  const abstraction = 0.2 * storage;
  if (rainIn <= abstraction) return 0;
  return (rainIn - abstraction) ** 2 / (rainIn + 0.8 * storage);
}

/**
 * Storm runoff by the curve number method.
 *
 * @param rainMm      rain of the storm, mm, 0 to 1016
 * @param curveNumber curve number, 1 to 100
 * @returns runoff, mm
 * @throws RangeError outside the ranges
 * @see {@link runoffIn}
 */
export function runoffMm(rainMm: number, curveNumber: number): number {
  return runoffIn(rainMm / MM_PER_IN, curveNumber) * MM_PER_IN;
}
