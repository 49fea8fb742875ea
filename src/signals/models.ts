/** The models of a lake's water on its record: what signals and estimates are read from. */
import type { LakeConfig } from '../config/types.ts';
import { freshness } from '../record/freshness.ts';
import type { RecordView } from '../record/types.ts';
import { lakeTable, type LakeTable } from './lake.ts';
import { simulatePockets, type SimulatedPocket } from './pocketRuns.ts';
import type { Freshness } from './types.ts';
import { weatherTable, type WeatherTable } from './weather.ts';

/** A weather model is issued every six hours at least; three issues missed and it is no basis for a morning. */
const WEATHER_INTERVAL_S = 6 * 3600;
/** Days ahead that the pockets are simulated. */
const AHEAD_DAYS = 7;

export interface WaterModels {
  readonly weather: WeatherTable;
  readonly weatherFreshness: Freshness;
  readonly water: LakeTable;
  /** None on stale weather. */
  readonly pockets: readonly SimulatedPocket[];
}

/** Lake and pockets on the record's weather, a week ahead. */
export function waterModels(view: RecordView, lake: LakeConfig): WaterModels {
  const weather = weatherTable(view, lake);
  const weatherFreshness: Freshness =
    weather.lastMs === null ? 'stale' : freshness(weather.lastMs, view.asOfMs, WEATHER_INTERVAL_S);
  const water = lakeTable(view, lake, weather);
  const pockets =
    weatherFreshness === 'stale'
      ? []
      : simulatePockets(weather, lake, water, view.asOfMs, AHEAD_DAYS, view.readings);
  return { weather, weatherFreshness, water, pockets };
}
