/**
 * Daily mean solar radiation guessed from the day's range of air temperature (Hargreaves' form).
 *
 * @param aboveAirWm2 radiation above the atmosphere, W/m2
 * @param rangeC highest minus lowest air temperature of the day, K
 * @returns W/m2
 * @see Allen et al. (1998), FAO Irrigation and Drainage Paper 56, eq. 50
 */
export function sunFromAirRange(aboveAirWm2: number, rangeC: number): number {
  const clearness = 0.165 * Math.sqrt(Math.min(25, Math.max(1, rangeC)));
  return aboveAirWm2 * Math.min(0.75, Math.max(0.12, clearness));
}
