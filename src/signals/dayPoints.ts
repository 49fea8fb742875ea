/** The days that the page draws: nine behind and six ahead. */
import type { LakeConfig } from '../config/index.ts';
import { addDays, localDateAt, startOfDayMs } from '../units/time/index.ts';
import { mean } from './figure.ts';
import { gaugeValues } from './gauge.ts';
import type { LevelSeries } from './level/index.ts';
import type { WaterModels } from './models.ts';
import type { DayPoint } from './types.ts';

/** Days drawn beside today. */
const DAYS_BEHIND = 9;
const DAYS_AHEAD = 6;
/** With more than these hours forecast a day counts as forecast. */
const MOSTLY_FORECAST_H = 12;

/** One point a local date, SI; what is not known of a day is absent. */
export function dayPoints(
  asOfMs: number,
  lake: LakeConfig,
  { weather, water }: WaterModels,
  { gauge, nowM }: LevelSeries,
): DayPoint[] {
  const today = localDateAt(asOfMs, lake.zone);
  const { covered } = weather.days;
  // What a stale forecast says of the days ahead is shown nowhere.
  const ahead = covered !== null && covered.last > today && weather.freshness !== 'stale';
  const last = ahead ? covered.last : today;
  const farthest = addDays(today, DAYS_AHEAD);
  const shown = weather.days.between(addDays(today, -DAYS_BEHIND), last < farthest ? last : farthest);
  return shown.map((day) => {
    const model = water.byDate.get(day.date);
    const from = startOfDayMs(day.date, lake.zone);
    const to = startOfDayMs(addDays(day.date, 1), lake.zone);
    const levels = gauge === null ? [] : gaugeValues(gauge, from - 1, to - 1);
    const entries = {
      airMeanC: day.airC,
      airMinC: day.airMinC,
      airMaxC: day.airMaxC,
      rainMm: day.rainMm,
      windMs: day.windMs,
      cloudPct: day.cloudPct,
      waterC: model?.waterC ?? (day.date === today ? water.measured?.waterC : undefined),
      waterLowC: model?.lowC,
      waterHighC: model?.highC,
      waterRawC: model?.raw?.waterC,
      waterRawHalfC: model?.raw?.halfC,
      // Today's is the level now, as the table has it: half a day's mean is the level of no instant.
      levelM: day.date === today ? nowM : mean(levels),
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
