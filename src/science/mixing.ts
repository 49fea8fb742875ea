import { requireRange } from './range.ts';

/**
 * Temperature of waters mixed completely, heat capacity taken as constant.
 *
 * @param parts volume (any one unit, 0 or more) and temperature of each, degC
 * @returns degC, between the coldest and the warmest part
 * @throws RangeError when there is no water
 * @example mixedC([{ volume: 500_000, tempC: 10 }, { volume: 100_000, tempC: 16 }]) // 11
 */
export function mixedC(parts: readonly { readonly volume: number; readonly tempC: number }[]): number {
  const volume = parts.reduce((sum, p) => sum + p.volume, 0);
  requireRange('total volume', volume, Number.MIN_VALUE, Number.MAX_VALUE);
  return parts.reduce((sum, p) => sum + p.volume * p.tempC, 0) / volume;
}
