/** The models of a lake's water on its record: what signals and estimates are read from. */
import type { LakeConfig } from '../config/index.ts';
import type { RecordView } from '../record/index.ts';
import { simulatePockets, type SimulatedPocket } from './pocket/index.ts';
import { creekDays } from '../water/river/index.ts';
import { lakeTable, modelDay, type LakeTable } from './water/index.ts';
import { weatherOf, type Weather } from './weather/index.ts';

/** Days ahead that the pockets are simulated: through the dusk of the seventh. */
const AHEAD_DAYS = 8;

export interface WaterModels {
  readonly weather: Weather;
  readonly water: LakeTable;
  /** None on stale weather. */
  readonly pockets: readonly SimulatedPocket[];
}

/** Lake and pockets on the record's weather, as far ahead as days are told of. */
export function waterModels(view: RecordView, lake: LakeConfig): WaterModels {
  const weather = weatherOf(view, lake);
  const water = lakeTable(view, lake, weather.days);
  const { covered } = weather.days;
  const days = covered === null ? [] : weather.days.between(covered.first, covered.last);
  const creek = creekDays(days.map(modelDay), lake.latDeg);
  const pockets =
    weather.freshness === 'stale'
      ? []
      : simulatePockets(weather.table, lake, water, view.asOfMs, AHEAD_DAYS, view.readings, creek);
  return { weather, water, pockets };
}
