/** The days that the page draws: nine behind and six ahead. */
import { addDays } from '../units/calendar.ts';
import { localDateAt, startOfDayMs } from '../units/localTime.ts';
import { mean } from './figure.ts';
import { bestGauge } from './gauge.ts';
import type { Tables } from './tables.ts';
import type { DayPoint } from './types.ts';
import { coveredDates, localDays } from './weather.ts';

/** Days drawn beside today. */
const DAYS_BEHIND = 9;
const DAYS_AHEAD = 6;
/** With more than these hours forecast a day counts as forecast. */
const MOSTLY_FORECAST_H = 12;

/** One point a local date, SI; what is not known of a day is absent. */
export function dayPoints(tables: Tables): DayPoint[] {
  const { view, lake, weather, weatherFreshness, water } = tables;
  const today = localDateAt(view.asOfMs, lake.zone);
  const covered = coveredDates(weather, lake.zone);
  const level = bestGauge(view, lake, 'level');
  const levelToday = tables.level.signals.levelM?.value;
  // What a stale forecast says of the days ahead is shown nowhere.
  const ahead = covered !== null && covered.last > today && weatherFreshness !== 'stale';
  const last = ahead ? covered.last : today;
  const farthest = addDays(today, DAYS_AHEAD);
  const shown = localDays(
    weather,
    lake.zone,
    addDays(today, -DAYS_BEHIND),
    last < farthest ? last : farthest,
  );
  return shown.map((day) => {
    const model = water.byDate.get(day.date);
    const from = startOfDayMs(day.date, lake.zone);
    const to = startOfDayMs(addDays(day.date, 1), lake.zone);
    const levels = level?.rows.filter((row) => row.atMs >= from && row.atMs < to) ?? [];
    const entries = {
      airMeanC: day.airC,
      airMinC: day.airMinC,
      airMaxC: day.airMaxC,
      rainMm: day.rainMm,
      windMs: day.windMs,
      cloudPct: day.cloudPct,
      waterC: model?.waterC,
      waterLowC: model?.lowC,
      waterHighC: model?.highC,
      // Today's is the level now, as the table has it: half a day's mean is the level of no instant.
      levelM: day.date === today ? levelToday : mean(levels.map((row) => row.value)),
    };
    return {
      date: day.date,
      forecast: day.date > today || day.forecastHours > MOSTLY_FORECAST_H,
      ...Object.fromEntries(
        Object.entries(entries).filter(([, value]) => value !== null && value !== undefined),
      ),
    };
  });
}
