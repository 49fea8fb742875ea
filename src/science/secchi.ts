import { requireRange } from './range.ts';

/** One local fit (Willamette River, USGS): Secchi ft = 11.123 FNU^-0.637. Elsewhere it can be off by a factor of two. */
const SCALE_M = 11.123 * 0.3048;
const EXPONENT = -0.637;

/**
 * Secchi depth from turbidity. There is no general law; this is one river's fit and serves as a rough guide.
 *
 * @param turbidityFnu turbidity, FNU, above 0 to 4000
 * @returns Secchi depth, m
 * @throws RangeError outside the range
 * @see USGS, Willamette River regression (coefficients as quoted, original not re-read)
 * @example secchiFromTurbidityM(8) // 0.9
 */
export function secchiFromTurbidityM(turbidityFnu: number): number {
  requireRange('turbidityFnu', turbidityFnu, Number.MIN_VALUE, 4000);
  return SCALE_M * turbidityFnu ** EXPONENT;
}

/**
 * Turbidity from Secchi depth, the inverse of the same local fit.
 *
 * @param secchiM Secchi depth, m, above 0 to 60
 * @returns turbidity, FNU
 * @throws RangeError outside the range
 */
export function turbidityFromSecchiFnu(secchiM: number): number {
  requireRange('secchiM', secchiM, Number.MIN_VALUE, 60);
  return (secchiM / SCALE_M) ** (1 / EXPONENT);
}
