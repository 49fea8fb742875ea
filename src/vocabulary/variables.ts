import { idsOf } from './ids.ts';
import type { QuantityKind } from './quantities.ts';

interface VariableRow {
  readonly kind: QuantityKind;
  /** Whether a gauge may be configured for it. */
  readonly gauge?: true;
}

/** What the record stores, each with its kind of quantity and so its SI unit. */
export const VARIABLE = {
  air_temp: { kind: 'temperature' },
  humidity: { kind: 'percent' },
  dew_point: { kind: 'temperature' },
  rain: { kind: 'rain', gauge: true }, // sum of the period
  wind_speed: { kind: 'windSpeed' },
  wind_gust: { kind: 'windSpeed' },
  wind_dir: { kind: 'angle' }, // where it blows from
  cloud: { kind: 'percent' },
  pressure: { kind: 'pressure' }, // reduced to sea level
  shortwave: { kind: 'irradiance' },
  thunder: { kind: 'percent' }, // chance
  weather_code: { kind: 'count' }, // figure of WMO code table 4677
  cape: { kind: 'stormEnergy' }, // convective available potential energy
  level: { kind: 'level', gauge: true },
  discharge: { kind: 'flow', gauge: true },
  inflow: { kind: 'flow', gauge: true },
  release: { kind: 'flow', gauge: true },
  water_temp: { kind: 'temperature', gauge: true },
  turbidity: { kind: 'turbidity', gauge: true },
} as const satisfies Record<string, VariableRow>;

export type Variable = keyof typeof VARIABLE;
export const VARIABLES = idsOf(VARIABLE);

type Gauged = { [V in Variable]: (typeof VARIABLE)[V] extends { gauge: true } ? V : never }[Variable];

/** What a gauge can measure. */
export type GaugeVariable = Gauged;
const isGauged = (variable: Variable): variable is GaugeVariable => 'gauge' in VARIABLE[variable];
/** In the order in which a reader thinks of them: level first. */
export const GAUGE_VARIABLES: readonly GaugeVariable[] = [
  ...VARIABLES.filter(isGauged).filter((variable) => variable !== 'rain'),
  'rain',
];
