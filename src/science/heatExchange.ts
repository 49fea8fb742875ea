import { WATER_SPECIFIC_HEAT } from './density.ts';
import { requireRange } from './range.ts';

/** Coefficients of the evaporative wind function f = a + b W^c, W in m/s at 2 m, f in W/(m2 mmHg). */
export interface WindFunction {
  readonly a: number;
  readonly b: number;
  readonly c: number;
}
/** CE-QUAL-W2 defaults (from memory). */
export const WIND_FUNCTION: WindFunction = { a: 9.2, b: 0.46, c: 2 };

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

/**
 * Heat a water surface loses by evaporation (negative: condensation warms it).
 *
 * @param waterC surface temperature, degC, -2 to 50
 * @param dewC   dew point of the air, degC, -60 to 50
 * @param windMs wind at 2 m, m/s, 0 to 60
 * @returns W/m2, loss positive
 * @throws RangeError outside the ranges
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
 */
export function sensibleWm2(waterC: number, airC: number, windMs: number): number {
  return surfaceWind(windMs).sensibleWm2K * (waterC - airC);
}

export interface Equilibrium {
  /** Water temperature at which the surface neither gains nor loses heat, degC. */
  readonly temperatureC: number;
  /** Heat exchanged per degree from that temperature, W/(m2 K). */
  readonly exchangeWm2K: number;
}

/**
 * Equilibrium temperature and exchange coefficient of a water surface. Net flux = K (Te - Ts).
 *
 * British units inside, as in the published routine, so that its figures can be reproduced.
 *
 * @param airC     air temperature, degC, -60 to 60
 * @param dewC     dew point, degC, -60 to 50
 * @param windMs   wind at 2 m, m/s, 0 to 60
 * @param solarWm2 shortwave that enters the water, W/m2, 0 to 1500
 * @throws RangeError outside the ranges
 * @see Edinger, Duttweiler and Geyer (1968), Water Resour. Res. 4, 1137; CE-QUAL-W2 source, heat exchange
 * @example equilibrium(10, 5, 2, 150) // { temperatureC: 13.92, exchangeWm2K: 15.41 }
 */
export function equilibrium(airC: number, dewC: number, windMs: number, solarWm2: number): Equilibrium {
  requireRange('airC', airC, -60, 60);
  requireRange('dewC', dewC, -60, 50);
  requireRange('windMs', windMs, 0, 60);
  requireRange('solarWm2', solarWm2, 0, 1500);
  const BTU_PER_WM2 = 7.60796; // BTU/(ft2 day) per W/m2, also scales f's constant term
  const MPH = 2.23714; // mph per m/s as rounded in the routine
  const airF = airC * 1.8 + 32;
  const dewF = dewC * 1.8 + 32;
  const f = BTU_PER_WM2 * WIND_FUNCTION.a + 1.520411 * WIND_FUNCTION.b * (windMs * MPH) ** WIND_FUNCTION.c;
  const atmospheric = 3.1872e-8 * (airF + 459.67) ** 4;
  const absorbed = solarWm2 * BTU_PER_WM2;
  let temperatureF = dewF;
  let exchange = 0;
  for (let i = 0; i < 10; i++) {
    const mid = (temperatureF + dewF) / 2;
    const beta = 0.255 - 0.0085 * mid + 0.000204 * mid * mid;
    exchange = 15.7 + (0.26 + beta) * f;
    const next =
      (absorbed + atmospheric - 1801) / exchange +
      ((exchange - 15.7) * (0.26 * airF + beta * dewF)) / (exchange * (0.26 + beta));
    // The routine stops within 0.05 F and keeps the value it came in with.
    if (Math.abs(next - temperatureF) < 0.05) break;
    temperatureF = next;
  }
  return { temperatureC: (temperatureF - 32) / 1.8, exchangeWm2K: exchange * 0.23659 };
}

/**
 * Temperature of a mixed column that relaxes towards its equilibrium.
 *
 * @param startC        temperature at the start, degC
 * @param equilibriumC  equilibrium temperature, degC
 * @param exchangeWm2K  exchange coefficient, W/(m2 K), above 0
 * @param depthM        mixed depth, m, above 0
 * @param seconds       time, s, 0 or more
 * @returns degC; the exact solution of dT/dt = K (Te - T) / (rho c z)
 */
export function relaxC(
  startC: number,
  equilibriumC: number,
  exchangeWm2K: number,
  depthM: number,
  seconds: number,
): number {
  return equilibriumC + (startC - equilibriumC) * Math.exp(-seconds / responseS(exchangeWm2K, depthM));
}

/** Response time rho c z / K of a mixed column, s, with rho 999.7 kg/m3 and c 4195 J/(kg K). */
export function responseS(exchangeWm2K: number, depthM: number): number {
  requireRange('exchangeWm2K', exchangeWm2K, Number.MIN_VALUE, 1e6);
  requireRange('depthM', depthM, Number.MIN_VALUE, 1e4);
  return (999.7 * WATER_SPECIFIC_HEAT * depthM) / exchangeWm2K;
}
