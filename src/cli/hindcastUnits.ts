/** Files in degrees Fahrenheit, which pass every range check on cool days, are refused by what they would mean. */
import { median } from '../science/index.ts';
import { ThawlineError } from '../units/index.ts';
import { DAY_MS } from '../units/time/index.ts';
import { AirClimate, type LakeDay, type WaterReading, type WeatherDay } from '../water/lake/index.ts';

export const CONVERT_FAHRENHEIT = 'it looks like degrees Fahrenheit; convert: (F - 32) / 1.8';

/** Fewest readings that show a unit, the share of them that must, and what the misfit must be and become. */
const READINGS = { fewest: 5, share: 0.8, farC: 6, betterBy: 3 } as const;
/** A thermometer deeper than this may stand in water that the weather does not reach, m. */
const DEEPEST_M = 3;
/** Colder than a thermometer in liquid water reads, even a poor one, degC. */
const COLDEST_C = -1;
/**
 * Degrees Fahrenheit read as Celsius stand 24 K too high at -10 degC and more above. The hottest months of the hottest
 * deserts stand about 17 K above the zonal mean of their season (monthly means from memory), sea coasts in winter 12.
 */
const AIR = { fewestDays: 30, excessC: 20 } as const;

const toC = (fahrenheit: number): number => (fahrenheit - 32) / 1.8;
const rms = (values: readonly number[]): number =>
  Math.sqrt(values.reduce((sum, v) => sum + v * v, 0) / values.length);

/**
 * @param days estimates, of which only the run without readings is looked at
 * @throws ThawlineError `usage` when the readings fit that run only after conversion from degrees Fahrenheit
 */
export function refuseFahrenheitReadings(
  path: string,
  readings: readonly WaterReading[],
  days: readonly LakeDay[],
): void {
  const freeC = new Map(days.map((day) => [day.date, day.freeC]));
  const asRead: number[] = [];
  const converted: number[] = [];
  let better = 0;
  for (const { date, waterC, depthM } of readings) {
    const expected = freeC.get(date);
    if (expected === undefined || depthM > DEEPEST_M) continue;
    asRead.push(waterC - expected);
    converted.push(toC(waterC) - expected);
    if (toC(waterC) >= COLDEST_C && Math.abs(toC(waterC) - expected) < Math.abs(waterC - expected)) better++;
  }
  if (asRead.length < READINGS.fewest || better < READINGS.share * asRead.length) return;
  const [readC, convertedC] = [rms(asRead), rms(converted)];
  if (readC <= READINGS.farC || convertedC >= readC / READINGS.betterBy) return;
  throw new ThawlineError(
    'usage',
    `${path}, column "water_c": ${better} of ${asRead.length} readings lie closer to what the weather makes of the ` +
      `lake when they are converted from degrees Fahrenheit (typically ${convertedC.toFixed(1)} K off; taken as °C, ` +
      `${readC.toFixed(1)} K); ${CONVERT_FAHRENHEIT}.`,
  );
}

/** @throws ThawlineError `usage` when the air is hotter than any place of that latitude in those seasons */
export function refuseFahrenheitAir(path: string, weather: readonly WeatherDay[], latDeg: number): void {
  const { meanC, cosC, sinC } = new AirClimate(latDeg).wave();
  const excessC = weather.flatMap(({ date, airC }) => {
    if (airC === null) return [];
    // Days since the first of a January; leap days shift it by one at most.
    const phase = (2 * Math.PI * Date.parse(date)) / (365.25 * DAY_MS);
    return [airC - (meanC + cosC * Math.cos(phase) + sinC * Math.sin(phase))];
  });
  if (excessC.length < AIR.fewestDays) return;
  const typicalC = median(excessC);
  if (typicalC === null || typicalC <= AIR.excessC) return;
  throw new ThawlineError(
    'usage',
    `${path}, column "air_c": taken as °C the values stand typically ${typicalC.toFixed(0)} K above the mean of their ` +
      `season at latitude ${latDeg}, more than anywhere on earth; ${CONVERT_FAHRENHEIT}. If they are °C, correct --lat.`,
  );
}
