/** What moves the water decides how it answers to air and flow. */
export type RiverKind = 'lowland' | 'regulated';

/** One local day; discharge may be absent. */
export interface RiverWeatherDay {
  readonly date: string;
  readonly airC: number | null;
  /** Daily mean discharge, m3/s. */
  readonly dischargeM3s?: number;
}
