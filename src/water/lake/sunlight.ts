/**
 * Daily mean solar radiation on a horizontal plane above the atmosphere.
 *
 * @param latDeg latitude, degrees, -90 to 90
 * @param doy day of the year, 1 to 366
 * @returns W/m2; 0 in the polar night
 * @see Allen et al. (1998), FAO Irrigation and Drainage Paper 56, eq. 21 to 25
 */
export function extraterrestrialWm2(latDeg: number, doy: number): number {
  const w = (2 * Math.PI * doy) / 365;
  const declination = 0.409 * Math.sin(w - 1.39);
  const lat = (latDeg * Math.PI) / 180;
  const cosSunset = -Math.tan(lat) * Math.tan(declination);
  const sunset = Math.acos(Math.min(1, Math.max(-1, cosSunset)));
  const integral =
    sunset * Math.sin(lat) * Math.sin(declination) + Math.cos(lat) * Math.cos(declination) * Math.sin(sunset);
  return Math.max(0, (1367 / Math.PI) * (1 + 0.033 * Math.cos(w)) * integral);
}

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
