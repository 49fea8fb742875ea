/** The forecast of the fishing hours beside what a weather station measured in them. */
import type { LakeConfig } from '../config/types.ts';
import type { RecordView } from '../record/types.ts';
import { DAY_MS, HOUR_MS } from '../units/calendar.ts';
import { localDateAt } from '../units/localTime.ts';
import { mean } from '../signals/figure.ts';
import { hourly } from '../signals/hourly.ts';
import { sunOf } from '../signals/sky.ts';
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
  const observations = view.observations.filter(
    (row) =>
      row.variable === variable &&
      (row.kind === 'observed' || row.kind === 'analysis') &&
      row.atMs <= view.asOfMs,
  );
  if (observations.length === 0) return [];
  const station = hourly({ ...view, observations }, variable, lake.weather);
  const today = localDateAt(view.asOfMs, lake.zone);
  return issues.flatMap(({ date, issuedMs, series }) => {
    const { dawnMs, duskMs } = sunOf(lake, date);
    if (dawnMs === null || duskMs === null || date >= today) return [];
    const hours = series.hours.flatMap((hour) => {
      const said = hour[field];
      const came = station.get(hour.atMs)?.value;
      const held = station.get(hour.atMs - DAY_MS)?.value;
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
