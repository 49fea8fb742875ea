/** What estimates are compared with: the readings as daily means at about 1 m, and the last one held. */
import { DAY_MS } from '../units/time/index.ts';
import {
  type LakeDay,
  type LakeSite,
  prepareForcing,
  shallowExcessC,
  type WaterReading,
  type WeatherDay,
} from '../water/lake/index.ts';

const dayOf = (date: string): number => Date.parse(date) / DAY_MS;

/** Readings with an hour, converted to the mean of their day at 1 m as the model converts them; the others as they are. */
export function asDailyMeans(
  site: LakeSite,
  weather: readonly WeatherDay[],
  readings: readonly WaterReading[],
): readonly WaterReading[] {
  if (readings.every(({ hour }) => hour === undefined)) return readings;
  const { firstDay, sunWm2, windMs } = prepareForcing(site, weather);
  return readings.map((reading) => {
    const { date, hour, depthM, waterC } = reading;
    const sun = sunWm2[dayOf(date) - firstDay];
    if (hour === undefined || sun === undefined) return reading;
    const wind = windMs[dayOf(date) - firstDay] ?? Number.NaN;
    return { ...reading, waterC: Math.max(0, waterC - shallowExcessC(hour, depthM, sun, wind)) };
  });
}

/** Mean of the readings of a day that lie nearest to 1 m, by date, oldest first. */
export function dailyTruth(readings: readonly WaterReading[]): Map<string, number> {
  const byDate = new Map<string, { off: number; sum: number; count: number }>();
  for (const r of readings) {
    const off = Math.abs(Math.max(0.5, r.depthM) - 1);
    const cell = byDate.get(r.date);
    if (cell === undefined || off < cell.off - 0.25) byDate.set(r.date, { off, sum: r.waterC, count: 1 });
    else if (off <= cell.off + 0.25) {
      cell.sum += r.waterC;
      cell.count++;
    }
  }
  return new Map(
    [...byDate].sort(([a], [b]) => (a < b ? -1 : 1)).map(([date, c]) => [date, c.sum / c.count]),
  );
}

/** The newest value known on each day, when a value is known `lag` days after its own. */
export function heldReading(
  truth: ReadonlyMap<string, number>,
  days: readonly LakeDay[],
  lag: number,
): (date: string) => number | undefined {
  const held = new Map<string, number>();
  const values = [...truth].map(([date, waterC]) => ({ day: dayOf(date), waterC }));
  let last: number | undefined;
  let next = 0;
  for (const { date } of days) {
    const known = dayOf(date) - lag;
    for (let value = values[next]; value !== undefined && value.day <= known; value = values[++next])
      last = value.waterC;
    if (last !== undefined) held.set(date, last);
  }
  return (date) => held.get(date);
}
