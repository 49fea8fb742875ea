import { scoreHindcast, type HindcastScore } from '../src/cli/hindcastScore.ts';
import { dayNumber } from '../src/units/time/calendar.ts';
import type { LakeDay, WaterReading } from '../src/water/lake/index.ts';
import { nowcastRiver, type RiverBase, type RiverKind } from '../src/water/river/index.ts';
import { lastBefore } from './lake-score.ts';
import type { ObservedRiver } from './river-data.ts';

/** Both rivers lie within half a degree of it. */
const SWISS_LATITUDE_DEG = 46.6;

export type Belief = Readonly<Partial<Record<RiverBase, number>>>;

export interface RiverCase {
  readonly kind: RiverKind;
  readonly belief?: Belief;
  /** 0 for no readings. */
  readonly everyDays: number;
  /** First date of readings; the whole record when absent. */
  readonly from?: string;
  /** Weekday of all readings, 0 for Sunday. */
  readonly weekday?: number;
}

function riverReadings(
  { water }: ObservedRiver,
  { everyDays, from = '', weekday }: Pick<RiverCase, 'everyDays' | 'from' | 'weekday'>,
): WaterReading[] {
  const readings: WaterReading[] = [];
  if (everyDays === 0) return readings;
  let last = -Infinity;
  for (const [date, waterC] of water) {
    const day = dayNumber(date);
    if (date < from || day - last < everyDays) continue;
    if (weekday !== undefined && new Date(date).getUTCDay() !== weekday) continue;
    last = day;
    readings.push({ date, waterC, depthM: 1, sdC: 0.1, source: 'logger' });
  }
  return readings;
}

/** Estimates of all days; readings are known one day after they were taken. */
function runRiver(river: ObservedRiver, c: RiverCase): LakeDay[] {
  return nowcastRiver(c.kind, river.weather, riverReadings(river, c), {
    readingLagDays: 1,
    latDeg: SWISS_LATITUDE_DEG,
    ...(c.belief && { belief: c.belief }),
  }).days;
}

/** Scores the held-out years; the readings of the years before have taught the filter. */
export function scoreRiver(river: ObservedRiver, c: RiverCase): HindcastScore {
  const given = new Map(riverReadings(river, c).map((r) => [r.date, r.waterC]));
  const heldOut = runRiver(river, c).filter(({ date }) => date >= river.heldOutFrom);
  return scoreHindcast(heldOut, river.water, (date) => lastBefore(given, date))!;
}

/** Weekly readings over the held-out years, each weekday in turn: dams keep weeks, so the weekday matters. */
export function scoreWeekdays(
  river: ObservedRiver,
  c: Omit<RiverCase, 'everyDays' | 'weekday'>,
  weekdays: readonly number[] = [0, 1, 2, 3, 4, 5, 6],
): Tally {
  const tally = new Tally();
  for (const weekday of weekdays)
    for (const day of runRiver(river, { ...c, everyDays: 7, weekday }))
      if (day.date >= river.heldOutFrom) tally.add(day, river.water.get(day.date));
  return tally;
}

/** Years of weather before the first reading: enough for the usual flow and for two winters. */
const YEARS_BEFORE = 4;

/**
 * Errors in the first and in the second year of readings, over every start in the held-out years.
 *
 * @param everyYears years from one start to the next
 */
export function scoreYearsOfReadings(
  river: ObservedRiver,
  c: Omit<RiverCase, 'from'>,
  everyYears = 1,
): readonly [Tally, Tally] {
  const tallies = [new Tally(), new Tally()] as const;
  const lastYear = Number(river.weather.at(-1)!.date.slice(0, 4));
  for (let year = Number(river.heldOutFrom.slice(0, 4)); year < lastYear; year += everyYears) {
    const weather = river.weather.filter(
      ({ date }) => date >= `${year - YEARS_BEFORE}-01-01` && date < `${year + 2}-01-01`,
    );
    const days = runRiver({ ...river, weather }, { ...c, from: `${year}-01-01` });
    tallies.forEach((tally, i) => {
      for (const day of days)
        if (day.date.startsWith(`${year + i}-`) && day.readingAgeDays !== null)
          tally.add(day, river.water.get(day.date));
    });
  }
  return tallies;
}

/** Errors of the held-out days whose air is missing, 6 days in every 23, and of those days with their air known. */
export function scoreGaps(river: ObservedRiver, c: RiverCase): { gap: Tally; known: Tally } {
  const missing = new Set(river.weather.filter((_, i) => i % 23 < 6).map(({ date }) => date));
  const weather = river.weather.map((day) => (missing.has(day.date) ? { ...day, airC: null } : day));
  const tallyOf = (days: readonly LakeDay[]): Tally => {
    const tally = new Tally();
    for (const day of days)
      if (day.date >= river.heldOutFrom && missing.has(day.date)) tally.add(day, river.water.get(day.date));
    return tally;
  };
  return { gap: tallyOf(runRiver({ ...river, weather }, c)), known: tallyOf(runRiver(river, c)) };
}

export class Tally {
  private days = 0;
  private squares = 0;
  private inside = 0;

  add(day: LakeDay, waterC: number | undefined): void {
    if (waterC === undefined) return;
    this.days++;
    this.squares += (day.waterC - waterC) ** 2;
    if (waterC >= day.lowC && waterC <= day.highC) this.inside++;
  }

  get rmseC(): number {
    return Math.sqrt(this.squares / this.days);
  }

  get coverage(): number {
    return this.inside / this.days;
  }
}
