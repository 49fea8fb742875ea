import { scoreHindcast, type HindcastScore } from '../src/cli/hindcastScore.ts';
import { addDays } from '../src/units/time/calendar.ts';
import { nowcastLake } from '../src/water/lake/index.ts';
import { readingsEvery, type ObservedLake } from './lake-data.ts';

/**
 * Scores the held-out years of a lake with a reading every so many days, known the day after.
 * The day-of-year mean is that of the years before the held-out ones.
 */
export function scoreLake(lake: ObservedLake, everyDays: number): HindcastScore {
  const readings = readingsEvery(lake, everyDays);
  const { days } = nowcastLake(lake.site, lake.weather, readings, { readingLagDays: 1 });
  const heldOut = days.filter((day) => day.date >= lake.heldOutFrom);
  const given = new Map(readings.map((r) => [r.date, r.waterC]));
  const score = scoreHindcast(heldOut, lake.water, (date) => lastBefore(given, date));
  if (score === null) throw new Error(`${lake.name} has no observed day to score.`);
  return score;
}

/** The last reading of the sixty days before a date: what somebody would hold who has no model. */
export function lastBefore(given: ReadonlyMap<string, number>, date: string): number | undefined {
  for (let back = 1; back <= 60; back++) {
    const value = given.get(addDays(date, -back));
    if (value !== undefined) return value;
  }
  return undefined;
}

export function medianOf(values: readonly number[]): number {
  const sorted = [...values].sort((a, b) => a - b);
  const middle = sorted.length >> 1;
  return sorted.length % 2 === 1 ? sorted[middle]! : (sorted[middle - 1]! + sorted[middle]!) / 2;
}
