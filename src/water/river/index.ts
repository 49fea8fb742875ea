export { stepStream, streamRate, type StreamParameters } from './air2stream.ts';
export { creekDays } from './creekDays.ts';
export { nowcastRiver } from './nowcast.ts';
export { FITTED } from './parameters.ts';
export { nowcastPool } from './pool.ts';
export type { RiverBase, RiverKind, RiverOptions, RiverWeatherDay } from './types.ts';
