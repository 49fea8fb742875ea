import { ThawlineError } from '../units/index.ts';
import type { Variable } from '../record/types.ts';

type Quantity =
  | 'temperature'
  | 'percent'
  | 'rain'
  | 'speed'
  | 'angle'
  | 'pressure'
  | 'irradiance'
  | 'length'
  | 'flow'
  | 'turbidity';

const QUANTITY: Record<Variable, Quantity> = {
  air_temp: 'temperature',
  humidity: 'percent',
  dew_point: 'temperature',
  rain: 'rain',
  wind_speed: 'speed',
  wind_gust: 'speed',
  wind_dir: 'angle',
  cloud: 'percent',
  pressure: 'pressure',
  shortwave: 'irradiance',
  thunder: 'percent',
  level: 'length',
  discharge: 'flow',
  inflow: 'flow',
  release: 'flow',
  water_temp: 'temperature',
  turbidity: 'turbidity',
};

type Convert = (value: number) => number;
const times =
  (factor: number): Convert =>
  (value) =>
    value * factor;
const same = times(1);
const fromFahrenheit: Convert = (value) => (value - 32) / 1.8;

const FT_M = 0.3048;
const CFS = FT_M ** 3;

/** Keys are lower case, without the prefixes `wmoUnit:`, `unit:` and `nwsUnit:`; factors are exact by definition but inHg. */
const CONVERT: Record<Quantity, Readonly<Record<string, Convert>>> = {
  temperature: {
    degc: same,
    '°c': same,
    c: same,
    'deg c': same,
    degf: fromFahrenheit,
    '°f': fromFahrenheit,
    f: fromFahrenheit,
    'deg f': fromFahrenheit,
    k: (value) => value - 273.15,
  },
  percent: { percent: same, '%': same },
  rain: { mm: same, cm: times(10), m: times(1000), in: times(25.4), inch: times(25.4), inches: times(25.4) },
  speed: {
    'm/s': same,
    ms: same,
    m_s_1: same,
    'm_s-1': same,
    'km/h': times(1 / 3.6),
    'km_h-1': times(1 / 3.6),
    mph: times(0.44704),
    'mp/h': times(0.44704),
    kn: times(1852 / 3600),
    kt: times(1852 / 3600),
    kts: times(1852 / 3600),
  },
  angle: { '°': same, deg: same, degrees: same, 'degree_(angle)': same },
  pressure: { hpa: same, mb: same, mbar: same, pa: times(0.01), kpa: times(10), inhg: times(33.8639) },
  irradiance: { 'w/m²': same, 'w/m2': same, 'w_m-2': same },
  length: {
    m: same,
    masd: same,
    maod: same,
    mm: times(0.001),
    cm: times(0.01),
    ft: times(FT_M),
    feet: times(FT_M),
    in: times(0.0254),
  },
  flow: {
    'm3/s': same,
    'm³/s': same,
    'm^3/s': same,
    cms: same,
    'l/s': times(0.001),
    'ft3/s': times(CFS),
    'ft^3/s': times(CFS),
    'ft³/s': times(CFS),
    cfs: times(CFS),
    kcfs: times(1000 * CFS),
  },
  turbidity: { fnu: same, _fnu: same },
};

/**
 * Converter from a service's own unit to the SI unit of the variable.
 *
 * @param variable  what is measured
 * @param unit  the unit as the service wrote it
 * @throws ThawlineError naming the unit when it is missing or not one of the variable's
 */
export function toSi(variable: Variable, unit: string | null | undefined, service: string): Convert {
  const plain = (unit ?? '').trim();
  const key = plain.replace(/^(wmoUnit|nwsUnit|unit):/i, '').toLowerCase();
  const table = CONVERT[QUANTITY[variable]];
  const convert = Object.hasOwn(table, key) ? table[key] : undefined;
  if (convert === undefined) {
    const named = plain === '' ? 'no unit' : `the unit "${plain.slice(0, 40)}"`;
    throw new ThawlineError(
      'service',
      `${service} gave ${named} for ${variable}; the values were not used, because guessing a unit is worse than a gap.`,
    );
  }
  return (value) => {
    const si = convert(value);
    if (Number.isFinite(si)) return si;
    throw new ThawlineError(
      'service',
      `${service} gave a value for ${variable} that is too large to be one.`,
    );
  };
}
