import { requireRange } from './range.ts';
import { dewPointC } from './vapour.ts';

/**
 * Wet-bulb temperature from air temperature and relative humidity at sea-level pressure.
 *
 * The regression was published for 5 to 99 % and -20 to 50 degC. Weather services report 100 % on every foggy
 * night, so beyond its range the result is held between dew point and air temperature, where physics puts it.
 *
 * @param airC  air temperature, degC, -60 to 60
 * @param rhPct relative humidity, percent, 0 to 100
 * @returns wet-bulb temperature, degC; error -1.0 to +0.65 (+0.8 at 40 degC), mean below 0.3 in the published range
 * @throws RangeError outside the ranges
 * @see Stull (2011), J. Appl. Meteor. Climatol. 50, 2267, eq. 1 (coefficients from memory)
 * @example wetBulbC(20, 50) // 13.7
 */
export function wetBulbC(airC: number, rhPct: number): number {
  requireRange('airC', airC, -60, 60);
  requireRange('rhPct', rhPct, 0, 100);
  const stull =
    airC * Math.atan(0.151977 * Math.sqrt(rhPct + 8.313659)) +
    Math.atan(airC + rhPct) -
    Math.atan(rhPct - 1.676331) +
    0.00391838 * rhPct ** 1.5 * Math.atan(0.023101 * rhPct) -
    4.686035;
  return Math.min(airC, Math.max(dewPointC(airC, rhPct), stull));
}

/**
 * Bracket for the temperature of falling rain: near the wet-bulb temperature when the drops evaporate on their
 * way through dry air, near the air temperature when they do not. Published evidence leaves it between the two.
 *
 * @param airC  air temperature near the ground, degC, -60 to 60
 * @param rhPct relative humidity, percent, 0 to 100
 * @returns lower and upper bound, degC; neither below 0, because below it falls as ice
 * @throws RangeError outside the ranges
 * @see Kinzer and Gunn (1951), J. Meteor. 8, 71 (from memory)
 */
export function rainBracketC(airC: number, rhPct: number): { lowC: number; highC: number } {
  return { lowC: Math.max(0, wetBulbC(airC, rhPct)), highC: Math.max(0, airC) };
}
