export { nowcastLake } from './nowcast.ts';
export { waterChange, type WaterChange } from './change.ts';
export type {
  Dating,
  LakeDay,
  LakeNowcast,
  LakeSite,
  NowcastOptions,
  RefusedReading,
  SeenDay,
  WaterReading,
  WeatherDay,
} from './types.ts';
export { AirClimate } from './airClimate.ts';
export { prepareForcing } from './forcing.ts';
export { shallowExcessC } from './readings.ts';
