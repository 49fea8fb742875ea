import { requireRange } from './range.ts';

/**
 * Share of the sunlight on a horizontal surface that comes from the sky and not straight from the sun.
 *
 * @param clearness global radiation over that at the top of the atmosphere, 0 to 1.2
 * @returns 0.165 (clear) to 1 (overcast)
 * @throws RangeError outside the range
 * @see Erbs, Klein and Duffie (1982), Solar Energy 28, 293, hourly correlation (coefficients from memory)
 * @example diffuseShare(0.5) // 0.6592
 */
export function diffuseShare(clearness: number): number {
  requireRange('clearness', clearness, 0, 1.2);
  if (clearness <= 0.22) return 1 - 0.09 * clearness;
  if (clearness > 0.8) return 0.165;
  return (
    0.9511 - 0.1604 * clearness + 4.388 * clearness ** 2 - 16.638 * clearness ** 3 + 12.336 * clearness ** 4
  );
}
