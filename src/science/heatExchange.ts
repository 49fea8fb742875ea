import { requireRange } from './range.ts';

/** Coefficients of the evaporative wind function f = a + b W^c, W in m/s at 2 m, f in W/(m2 mmHg). */
export interface WindFunction {
  readonly a: number;
  readonly b: number;
  readonly c: number;
}
/** CE-QUAL-W2 defaults (from memory). */
const WIND_FUNCTION: WindFunction = { a: 9.2, b: 0.46, c: 2 };

/** Bowen's ratio, mmHg/K. */
const BOWEN = 0.47;

/**
 * Evaporative wind function.
 *
 * @param windMs wind at 2 m, m/s, 0 to 60
 * @param fn     coefficients
 * @returns W/(m2 mmHg)
 * @throws RangeError outside the range
 * @see Edinger, Brady and Geyer (1974); CE-QUAL-W2 source, heat exchange
 */
export function windFunction(windMs: number, fn: WindFunction = WIND_FUNCTION): number {
  requireRange('windMs', windMs, 0, 60);
  return fn.a + fn.b * windMs ** fn.c;
}

/** What one wind does to any water below it. */
export interface SurfaceWind {
  /** Evaporation per vapour pressure, W/(m2 mmHg), and sensible heat per temperature, W/(m2 K). */
  readonly evaporationWm2MmHg: number;
  readonly sensibleWm2K: number;
}

/** The wind's part of `evaporationWm2` and `sensibleWm2`, for those who ask for many waters below one air; m/s at 2 m. */
export function surfaceWind(windMs: number): SurfaceWind {
  const f = windFunction(windMs);
  return { evaporationWm2MmHg: f, sensibleWm2K: BOWEN * f };
}

/** Saturation vapour pressure in mmHg in the form CE-QUAL-W2 uses, degC in. */
export function saturationMmHg(tempC: number): number {
  return Math.exp(2.3026 * ((7.5 * tempC) / (tempC + 237.3) + 0.6609));
}

/** Slope of {@link saturationMmHg}, mmHg/K, degC in. */
export function saturationSlopeMmHgK(tempC: number): number {
  return (saturationMmHg(tempC) * 2.3026 * 7.5 * 237.3) / (tempC + 237.3) ** 2;
}

/**
 * Heat a water surface loses by evaporation (negative: condensation warms it): one term of the balance by itself, as
 * tests hold the models of the water against it.
 *
 * @param waterC surface temperature, degC, -2 to 50
 * @param dewC   dew point of the air, degC, -60 to 50
 * @param windMs wind at 2 m, m/s, 0 to 60
 * @returns W/m2, loss positive
 * @throws RangeError outside the ranges
 * @internal
 * @example evaporationWm2(20, 15, 3) // 63.3
 */
export function evaporationWm2(waterC: number, dewC: number, windMs: number): number {
  requireRange('waterC', waterC, -2, 50);
  requireRange('dewC', dewC, -60, 50);
  return surfaceWind(windMs).evaporationWm2MmHg * (saturationMmHg(waterC) - saturationMmHg(dewC));
}

/**
 * Heat a water surface loses to colder air by contact.
 *
 * @param waterC surface temperature, degC
 * @param airC   air temperature, degC
 * @param windMs wind at 2 m, m/s, 0 to 60
 * @returns W/m2, loss positive
 * @throws RangeError for a wind outside its range
 * @internal
 */
export function sensibleWm2(waterC: number, airC: number, windMs: number): number {
  return surfaceWind(windMs).sensibleWm2K * (waterC - airC);
}
