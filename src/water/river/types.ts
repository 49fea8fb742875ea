import type { CreekParameters } from './creek.ts';
import type { NowcastOptions, WeatherDay } from '../lake/types.ts';

/** One local day; discharge may be absent, and all of the weather but the air. */
export interface RiverWeatherDay extends WeatherDay {
  /** Daily mean discharge, m3/s; negative counts as missing. */
  readonly dischargeM3s?: number;
}

/**
 * The free runs between which readings decide: a creek fed by runoff or by springs, fitted lowland stream, open water
 * like a shallow lake, fitted alpine river, lowland stream diluted by melt water.
 */
export type RiverBase = 'creek' | 'spring' | 'lowland' | 'open' | 'alpine' | 'melt';

export interface RiverOptions extends NowcastOptions {
  /** Latitude, degrees, south negative: the season of the sun on open water. 40 when absent. */
  readonly latDeg?: number;
  /** How far each free run is believed before the first reading, instead of what the kind says; sums to 1. */
  readonly belief?: Readonly<Partial<Record<RiverBase, number>>>;
  /** Area that drains to the place, km2; where it is left out the kind alone decides. */
  readonly watershedKm2?: number;
  /** Constants of a creek fed by runoff, instead of those fitted to all creeks at hand. */
  readonly creek?: CreekParameters;
}

/**
 * What feeds the water decides how it answers to air and flow: springs and shade in a stream of the lowland, the air
 * alone in a wide slow river, snow and glaciers, or a dam whose release may come from any depth.
 */
export type { RiverKind } from '../../vocabulary/index.ts';
