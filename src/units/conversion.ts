/**
 * The one table of units: what may be written, what is read from services and what is shown all stand on it. Factors
 * are exact by definition (international foot, avoirdupois pound, nautical mile) but for the inch of mercury.
 */
import { fieldOf } from './sure.ts';

/** A unit as SI = number x factor + offset, with the other ways it is written. */
export interface Unit {
  readonly factor: number;
  readonly offset?: number;
  readonly also?: readonly string[];
}

const FT = 0.3048;
const MI = 5280 * FT;
const KNOT = 1852 / 3600;

const same = (...also: string[]): Unit => ({ factor: 1, also });
const times = (factor: number, ...also: string[]): Unit => ({ factor, also });

const FAHRENHEIT = ['F', 'degF', 'deg F'];
const CELSIUS = ['C', 'degC', 'deg C'];

/** Units by dimension; the key is the symbol that is shown, and the first to be named in an error. */
export const UNITS = {
  /** to degC */
  temperature: {
    '°C': same(...CELSIUS),
    '°F': { factor: 1 / 1.8, offset: -32 / 1.8, also: FAHRENHEIT },
    K: { factor: 1, offset: -273.15 },
  },
  /** to K */
  temperatureDifference: { '°C': same(...CELSIUS, 'K'), '°F': times(1 / 1.8, ...FAHRENHEIT) },
  /** to K per day */
  temperatureRate: { '°C/day': same('C/day'), '°F/day': times(1 / 1.8, 'F/day') },
  /** to m */
  length: {
    m: same('metre', 'metres', 'meter', 'meters', 'mASD', 'mAOD'),
    cm: times(0.01),
    mm: times(0.001),
    km: times(1000),
    ft: times(FT, 'feet', 'foot'),
    in: times(0.0254, 'inch', 'inches'),
    yd: times(0.9144, 'yard', 'yards'),
    mi: times(MI, 'mile', 'miles'),
  },
  /** to m2 */
  area: {
    m2: same('m²'),
    ha: times(10_000, 'hectares'),
    km2: times(1e6, 'km²'),
    acres: times(43_560 * FT * FT, 'acre'),
    mi2: times(MI * MI, 'sq mi'),
  },
  /** to kg */
  mass: {
    kg: same(),
    g: times(0.001),
    lb: times(0.45359237, 'lbs', 'pounds'),
    oz: times(0.45359237 / 16),
  },
  /** to degrees of arc */
  angle: { '°': same('deg', 'degrees', 'degree_(angle)') },
  /** to mm of water */
  rain: { mm: same(), cm: times(10), m: times(1000), in: times(25.4, 'inch', 'inches') },
  /** to m per hour */
  levelRate: { 'm/h': same(), 'ft/h': times(FT) },
  /** to m/s */
  speed: {
    'm/s': same('ms', 'm_s_1', 'm_s-1'),
    'km/h': times(1 / 3.6, 'kph', 'km_h-1'),
    mph: times(MI / 3600, 'mp/h'),
    kt: times(KNOT, 'kn', 'kts', 'knots'),
    'ft/s': times(FT),
  },
  /** to m3/s */
  flow: {
    'm³/s': same('m3/s', 'm^3/s', 'cms'),
    'L/s': times(0.001),
    'ft³/s': times(FT ** 3, 'ft3/s', 'ft^3/s', 'cfs'),
    kcfs: times(1000 * FT ** 3),
  },
  /** to hPa; inHg at 0 degC, from memory of its conventional value */
  pressure: { hPa: same('mb', 'mbar'), Pa: times(0.01), kPa: times(10), inHg: times(33.8639) },
  /** to W/m2 */
  irradiance: { 'W/m²': same('W/m2', 'W_m-2') },
  /** to J/kg */
  stormEnergy: { 'J/kg': same('J_kg-1', 'm²/s²') },
  /** to FNU */
  turbidity: { FNU: same('_FNU') },
  /** to mg/L */
  oxygen: { 'mg/L': same('mg/l', 'ppm') },
  /** to % */
  percent: { '%': same('percent') },
  /** to a share of 1 */
  share: { '%': times(0.01) },
  hours: { h: same('hours') },
  days: { days: same('d') },
  seconds: { s: same() },
  turnRate: { 'turns/s': same() },
  ratio: { x: same() },
  count: { '': same('wmo code') },
} as const satisfies Record<string, Readonly<Record<string, Unit>>>;

export type Dimension = keyof typeof UNITS;

/** The unit of a dimension by its shown symbol. @throws ThawlineError `internal` when the dimension has no such unit */
export function unitOf(dimension: Dimension, symbol: string): Unit {
  return fieldOf(UNITS[dimension] as Readonly<Record<string, Unit>>, symbol);
}

/** Every way a unit of a dimension may be written, the shown symbols first. */
export function unitNames(dimension: Dimension): readonly string[] {
  const units = Object.entries(UNITS[dimension] as Readonly<Record<string, Unit>>);
  return [...units.map(([symbol]) => symbol), ...units.flatMap(([, { also = [] }]) => also)];
}

/**
 * The unit that a word names within a dimension; letters of either case where they cannot be confused (`FT`, `degc`).
 *
 * @returns null when the dimension has no unit of that name
 */
export function unitNamed(dimension: Dimension, word: string): Unit | null {
  const units = Object.entries(UNITS[dimension] as Readonly<Record<string, Unit>>);
  const named = (same: (name: string) => boolean): Unit[] =>
    units.filter(([symbol, { also = [] }]) => [symbol, ...also].some(same)).map(([, unit]) => unit);
  const [exact] = named((name) => name === word);
  if (exact !== undefined) return exact;
  const [loose, ...more] = named((name) => name.toLowerCase() === word.toLowerCase());
  return loose !== undefined && more.length === 0 ? loose : null;
}

/** SI value of a number in a unit. */
export const toSiValue = (number: number, unit: Unit): number => number * unit.factor + (unit.offset ?? 0);
/** Number in a unit of an SI value. */
export const fromSiValue = (si: number, unit: Unit): number => (si - (unit.offset ?? 0)) / unit.factor;
