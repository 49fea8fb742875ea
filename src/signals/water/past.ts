import type { LakeConfig } from '../../config/index.ts';
import type { RecordView } from '../../record/index.ts';
import { localDateAt } from '../../units/time/index.ts';
import type { WaterReading } from '../../water/lake/index.ts';
import type { RiverWeatherDay } from '../../water/river/index.ts';
import { weatherOf } from '../weather/index.ts';
import { dailyDischarge, withDischarge } from './model.ts';
import { lakeReadings } from './readings.ts';
import { modelDay } from './table.ts';

/** What the record holds for running the water model over its past: days of weather up to yesterday, and readings. */
export function pastWater(
  view: RecordView,
  lake: LakeConfig,
): { readonly weather: readonly RiverWeatherDay[]; readonly readings: readonly WaterReading[] } {
  const { days } = weatherOf(view, lake);
  const today = localDateAt(view.asOfMs, lake.zone);
  const { covered } = days;
  const past =
    covered === null ? [] : days.between(covered.first, covered.last).filter(({ date }) => date < today);
  const weather = withDischarge(past.map(modelDay), dailyDischarge(view, lake));
  return { weather, readings: lakeReadings(view, lake).filter(({ date }) => date < today) };
}
