export { stepStream, type StreamParameters } from './air2stream.ts';
export { nowcastRiver, RIVER_PARAMETERS } from './nowcast.ts';
export { nowcastPool } from './pool.ts';
export type { RiverKind, RiverWeatherDay } from './types.ts';
