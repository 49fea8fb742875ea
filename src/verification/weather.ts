/** The forecast of the fishing hours beside what a weather station measured in them. */
import type { LakeConfig } from '../config/index.ts';
import type { RecordView } from '../record/index.ts';
import { DAY_MS, HOUR_MS, localDateAt } from '../units/time/index.ts';
import { hourly, mean, sunOf } from '../signals/index.ts';
import type { Issue, Outcome } from './types.ts';

/** A mean of the fishing hours is believed from five sixths of them on. */
const ENOUGH = 5 / 6;

const OF = {
  air: { variable: 'air_temp', field: 'airC' },
  wind: { variable: 'wind_speed', field: 'windMs' },
} as const;

/**
 * One outcome an issue: mean over the hours from dawn to dusk that were still forecast and that a station measured
 * both that day and the day before, which is what is held. A model's own past is no truth, so a lake without a
 * station has no outcomes.
 */
export function weatherOutcomes(
  item: keyof typeof OF,
  issues: readonly Issue[],
  view: RecordView,
  lake: LakeConfig,
): Outcome[] {
  const { variable, field } = OF[item];
  const station = hourly(view, variable, lake.weather, ['observed', 'analysis']);
  if (station.isEmpty) return [];
  const today = localDateAt(view.asOfMs, lake.zone);
  return issues.flatMap(({ date, issuedMs, series }) => {
    const { dawnMs, duskMs } = sunOf(lake, date);
    if (dawnMs === null || duskMs === null || date >= today) return [];
    const hours = series.hours.flatMap((hour) => {
      const said = hour[field];
      const came = station.at(hour.atMs);
      const held = station.at(hour.atMs - DAY_MS);
      const ahead = hour.forecast && hour.atMs > issuedMs && hour.atMs > dawnMs && hour.atMs <= duskMs;
      return ahead && said !== undefined && came !== undefined && held !== undefined
        ? [{ said, came, held }]
        : [];
    });
    if (hours.length < ((duskMs - dawnMs) / HOUR_MS) * ENOUGH) return [];
    const of = (key: 'said' | 'came' | 'held'): number => mean(hours.map((hour) => hour[key])) ?? NaN;
    return [{ date, said: of('said'), came: of('came'), held: of('held') }];
  });
}
