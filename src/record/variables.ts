import { SI_UNIT, type QuantityKind } from '../units/index.ts';
import type { Variable } from './types.ts';

/** What kind of quantity each stored variable is, for printing and for the unit column of an export. */
export const VARIABLE_KIND = {
  air_temp: 'temperature',
  humidity: 'percent',
  dew_point: 'temperature',
  rain: 'rain',
  wind_speed: 'windSpeed',
  wind_gust: 'windSpeed',
  wind_dir: 'angle',
  cloud: 'percent',
  pressure: 'pressure',
  shortwave: 'irradiance',
  thunder: 'percent',
  level: 'level',
  discharge: 'flow',
  inflow: 'flow',
  release: 'flow',
  water_temp: 'temperature',
  turbidity: 'turbidity',
} as const satisfies Record<Variable, QuantityKind>;

export function siUnitOf(variable: Variable): string {
  return SI_UNIT[VARIABLE_KIND[variable]];
}
