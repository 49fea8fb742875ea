/** Six parameters of the lake equation, fitted to one lake. */
export type LakeParameters = readonly [number, number, number, number, number, number];

const DAYS_PER_YEAR = 365.25;
const DENSEST_C = 4;

/**
 * Surface temperature after one day by the published one-lake equation, for a lake with years of its own data and
 * as the yardstick of the uncalibrated model.
 *
 * dT/dt = (a1 + a2 Ta - a3 T + a5 cos(2 pi (t/year - a6))) / delta, delta = exp(-(T - 4)/a4) above 4 degC, 1 below.
 *
 * @param waterC surface temperature at the day's start, degC
 * @param airC mean air temperature of the day, degC
 * @param dayOfYear 1 to 366
 * @returns degC, never below 0
 * @see Piccolroaz, Toffolon and Majone (2013), Hydrol. Earth Syst. Sci. 17, 3323 (equation from memory)
 */
export function stepLake(a: LakeParameters, waterC: number, airC: number, dayOfYear: number): number {
  const season = a[4] * Math.cos(2 * Math.PI * (dayOfYear / DAYS_PER_YEAR - a[5]));
  const delta = waterC > DENSEST_C ? Math.exp(-(waterC - DENSEST_C) / a[3]) : 1;
  const rate = a[2] / delta;
  const source = (a[0] + a[1] * airC + season) / delta;
  // Exact for the day's forcing and the layer held, so a thin layer cannot overshoot.
  const next = rate > 1e-9 ? source / rate + (waterC - source / rate) * Math.exp(-rate) : waterC + source;
  return Math.max(0, next);
}
