import { HOUR_MS } from '../../units/time/index.ts';
import type { Check } from './check.ts';
import type { Doubt } from './doubt.ts';
import type { Observation, Variable } from '../types.ts';

/**
 * What cannot be, in the variable's SI unit. Air temperature, pressure, wind and rain lie a little outside the records in
 * the World Weather and Climate Extremes Archive of the World Meteorological Organization (northern hemisphere -69.6 and
 * 56.7 degC; 1083.8 hPa; 113.2 m/s; 1825 mm in a day; from memory); the low end of pressure leaves room for lakes at
 * 4,500 m. The rest: common practice, no source.
 */
export const POSSIBLE: Readonly<Record<Variable, readonly [low: number, high: number]>> = {
  air_temp: [-75, 58],
  humidity: [0, 105],
  dew_point: [-80, 40],
  rain: [0, 1900],
  wind_speed: [0, 115],
  wind_gust: [0, 115],
  wind_dir: [0, 360],
  cloud: [0, 100],
  pressure: [550, 1090],
  shortwave: [-10, 1500],
  thunder: [0, 100],
  weather_code: [0, 99],
  cape: [0, 10_000],
  level: [-450, 5500],
  discharge: [-20_000, 300_000],
  inflow: [-20_000, 300_000],
  release: [-1, 300_000],
  water_temp: [-1, 42],
  turbidity: [-1, 10_000],
};

/** Most rain ever measured in an hour, mm, rounded up (305 mm in 42 min, Holt, Missouri, 1947, same archive, from memory). */
export const MOST_RAIN_PER_HOUR_MM = 320;

/** What the variable can be over the period of a value, SI. */
function boundsOf({
  variable,
  periodS,
}: Pick<Observation, 'variable' | 'periodS'>): readonly [number, number] {
  const [low, top] = POSSIBLE[variable];
  const hours = Math.max(1, (periodS * 1000) / HOUR_MS);
  return [low, variable === 'rain' ? Math.min(top, MOST_RAIN_PER_HOUR_MM * hours) : top];
}

/** Whether a value lies within what can be. */
export function isPossible(row: Pick<Observation, 'variable' | 'periodS' | 'value'>): boolean {
  const [low, high] = boundsOf(row);
  return row.value >= low && row.value <= high;
}

/** Values that no instrument in working order can give; most are a service's code for "missing". */
export const impossible: Check = (rows) => {
  const doubts = new Map<Observation, Doubt>();
  for (const row of rows) {
    if (isPossible(row)) continue;
    const [low, high] = boundsOf(row);
    doubts.set(row, { code: 'doubt.impossible', low, high });
  }
  return doubts;
};
