import { dayNumber } from '../../units/time/index.ts';
import { impossible } from '../refusal.ts';
import type { RefusedReading, WaterReading } from '../lake/types.ts';
import type { RiverForcing } from './forcing.ts';

/**
 * Standard deviation of one hour about the day's mean, K. Flowing water is mixed and its daily swing is small beside
 * a lake's surface; it differs so much with depth and shade that the hour widens the error instead of shifting the
 * value (common practice, no source).
 */
const HOUR_SD_C = 0.5;

/** A day's readings as one value of the daily mean. */
export interface RiverReading {
  readonly waterC: number;
  readonly noiseVar: number;
  /** The reading that stands for the day when it has to be named. */
  readonly reading: WaterReading;
}

/** Sorts readings onto the days; what cannot be used comes back with its reason. */
export function placeRiverReadings(
  { firstDay, count, dead }: RiverForcing,
  readings: readonly WaterReading[],
): { byDay: Map<number, RiverReading>; refused: RefusedReading[] } {
  const groups = new Map<number, WaterReading[]>();
  const refused: RefusedReading[] = [];
  for (const reading of readings) {
    const j = dayNumber(reading.date) - firstDay;
    const problem = impossible(reading.waterC, 'river');
    if (problem !== undefined) refused.push({ reading, reason: problem });
    else if (j < 0 || j >= count || dead[j] === 1)
      refused.push({ reading, reason: { code: 'noWeatherThatDay' } });
    else groups.set(j, [...(groups.get(j) ?? []), reading]);
  }
  return { byDay: new Map([...groups].map(([j, group]) => [j, dailyMean(group)])), refused };
}

function dailyMean(group: readonly WaterReading[]): RiverReading {
  const noise = (r: WaterReading): number =>
    Math.max(0.02, r.sdC) ** 2 + (r.hour === undefined ? 0 : HOUR_SD_C ** 2);
  const reading = group.reduce((a, b) => (noise(b) < noise(a) ? b : a));
  const weight = group.reduce((sum, r) => sum + 1 / noise(r), 0);
  const sum = group.reduce((total, r) => total + r.waterC / noise(r), 0);
  return { waterC: Math.max(0, sum / weight), noiseVar: noise(reading), reading };
}
