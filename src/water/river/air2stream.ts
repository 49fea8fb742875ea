/** Parameters of the eight-parameter stream equation; the discharge enters as its ratio to the mean. */
export interface StreamParameters {
  /** a1, K/d; a2 and a3, 1/d; a4, exponent of the discharge ratio; a5 and a6, K/d; a7, share of a year; a8, 1/d. */
  readonly a: readonly [number, number, number, number, number, number, number, number];
}

const DAYS_PER_YEAR = 365.25;
/** Below this ratio the power law of the depth is not to be believed. */
const LOWEST_RATIO = 0.02;

/**
 * How fast a stream relaxes and how strongly air drives it.
 *
 * @param dischargeRatio discharge over its long-term mean, above 0
 * @returns relaxation rate, 1/d, and change of the water a day per K of air, 1/d
 */
export function streamRate(
  { a }: StreamParameters,
  dischargeRatio: number,
): { ratePerDay: number; airPerDay: number } {
  const q = Math.max(LOWEST_RATIO, dischargeRatio);
  const inertia = q ** a[3];
  return { ratePerDay: (a[2] + q * a[7]) / inertia, airPerDay: a[1] / inertia };
}

/**
 * Water temperature of a stream after one day: relaxation to air plus what the discharge carries.
 *
 * dT/dt = (a1 + a2 Ta - a3 T + q (a5 + a6 cos(2 pi (t/year - a7)) - a8 T)) / q^a4, solved exactly over the day with
 * the day's forcing held, so that no step is unstable however low the discharge.
 *
 * @param waterC water temperature at the day's start, degC
 * @param airC mean air temperature of the day, degC
 * @param dischargeRatio discharge over its long-term mean, above 0
 * @param dayOfYear 1 to 366
 * @param warmerC mean air of the place above that of the fit, K: what does not follow the day's air (ground water, sun,
 *   what the discharge carries) is taken to be warmer by as much. 0 where the fit is used as it is
 * @returns degC, never below 0
 * @see Toffolon and Piccolroaz (2015), Environ. Res. Lett. 10, 114011 (equation from memory)
 */
export function stepStream(
  parameters: StreamParameters,
  waterC: number,
  airC: number,
  dischargeRatio: number,
  dayOfYear: number,
  warmerC = 0,
): number {
  const { a } = parameters;
  const q = Math.max(LOWEST_RATIO, dischargeRatio);
  const season = a[4] + a[5] * Math.cos(2 * Math.PI * (dayOfYear / DAYS_PER_YEAR - a[6]));
  const { ratePerDay: rate, airPerDay } = streamRate(parameters, q);
  const source = (a[0] + a[1] * airC + q * season) / q ** a[3] + warmerC * (rate - airPerDay);
  const next = rate > 1e-9 ? source / rate + (waterC - source / rate) * Math.exp(-rate) : waterC + source;
  return Math.max(0, next);
}
