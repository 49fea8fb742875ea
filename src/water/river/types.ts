import type { NowcastOptions } from '../lake/types.ts';

/**
 * What feeds the water decides how it answers to air and flow: rain and springs, snow and glaciers, or a dam whose
 * release may come from any depth.
 */
export type RiverKind = 'lowland' | 'snow-fed' | 'regulated';

/** One local day; discharge may be absent. */
export interface RiverWeatherDay {
  readonly date: string;
  /** Daily mean air temperature, degC; null when missing. */
  readonly airC: number | null;
  /** Daily mean discharge, m3/s; negative counts as missing. */
  readonly dischargeM3s?: number;
}

/** The free runs between which readings decide: fitted lowland, fitted alpine, lowland diluted by melt water. */
export type RiverBase = 'lowland' | 'alpine' | 'melt';

export interface RiverOptions extends NowcastOptions {
  /** How far each free run is believed before the first reading, instead of what the kind says; sums to 1. */
  readonly belief?: Readonly<Partial<Record<RiverBase, number>>>;
}
