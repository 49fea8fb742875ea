/**
 * Sum of daily means above a base.
 *
 * @param dailyMeansC daily mean temperatures, degC, one a day; a day that is missing must be left out by the caller
 * @param baseC       base temperature, degC
 * @returns degree-days, K d, 0 or more
 * @throws RangeError when a value is not finite
 * @see US National Weather Service, cooling degree days, with any base
 * @example degreeDays([12, 9, 15], 10) // 7
 */
export function degreeDays(dailyMeansC: readonly number[], baseC: number): number {
  if (dailyMeansC.some((t) => !Number.isFinite(t))) throw new RangeError('degreeDays needs finite values');
  return dailyMeansC.reduce((sum, t) => sum + Math.max(0, t - baseC), 0);
}
