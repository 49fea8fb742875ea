import type { QuantityKind, UnitSystem } from './quantity.ts';

export interface DisplayUnit {
  /** Symbol printed behind the number, with the space it needs in front already left to the caller. */
  readonly symbol: string;
  readonly decimals: number;
  readonly fromSi: (si: number) => number;
  readonly toSi: (shown: number) => number;
}

const linear = (symbol: string, decimals: number, factor: number, offset = 0): DisplayUnit => ({
  symbol,
  decimals,
  fromSi: (si) => si * factor + offset,
  toSi: (shown) => (shown - offset) / factor,
});

const FT = 1 / 0.3048;
const METRIC: Record<QuantityKind, DisplayUnit> = {
  temperature: linear('°C', 1, 1),
  temperatureDifference: linear('°C', 1, 1),
  temperatureError: linear('°C', 1, 1),
  temperatureRate: linear('°C/day', 2, 1),
  level: linear('m', 2, 1),
  levelChange: linear('m', 2, 1),
  levelError: linear('cm', 1, 100),
  levelRate: linear('m/h', 3, 1),
  depth: linear('m', 1, 1),
  distance: linear('m', 0, 1),
  clarity: linear('m', 1, 1),
  rain: linear('mm', 0, 1),
  windSpeed: linear('km/h', 0, 3.6),
  windSpeedError: linear('km/h', 1, 3.6),
  lureSpeed: linear('m/s', 2, 1),
  flow: linear('m³/s', 0, 1),
  pressure: linear('hPa', 0, 1),
  irradiance: linear('W/m²', 0, 1),
  turbidity: linear('FNU', 0, 1),
  percent: linear('%', 0, 1),
  share: linear('%', 0, 100),
  hours: linear('h', 0, 1),
  days: linear('days', 0, 1),
  seconds: linear('s', 0, 1),
  angle: linear('°', 0, 1),
  turnRate: linear('turns/s', 2, 1),
  lineTake: linear('m', 2, 1),
  lineTest: linear('kg', 1, 1),
  lureMass: linear('g', 0, 1000),
  oxygen: linear('mg/L', 1, 1),
  count: linear('', 0, 1),
};

const US: Record<QuantityKind, DisplayUnit> = {
  ...METRIC,
  temperature: linear('°F', 0, 1.8, 32),
  temperatureDifference: linear('°F', 0, 1.8),
  temperatureError: linear('°F', 1, 1.8),
  temperatureRate: linear('°F/day', 1, 1.8),
  level: linear('ft', 1, FT),
  levelChange: linear('ft', 1, FT),
  levelError: linear('in', 1, 1 / 0.0254),
  levelRate: linear('ft/h', 2, FT),
  depth: linear('ft', 0, FT),
  distance: linear('ft', 0, FT),
  clarity: linear('ft', 1, FT),
  rain: linear('in', 2, 1 / 25.4),
  windSpeed: linear('mph', 0, 3600 / 1609.344),
  windSpeedError: linear('mph', 1, 3600 / 1609.344),
  lureSpeed: linear('ft/s', 1, FT),
  flow: linear('ft³/s', 0, FT ** 3),
  pressure: linear('inHg', 2, 1 / 33.8639),
  lineTake: linear('in', 0, 1 / 0.0254),
  lineTest: linear('lb', 0, 1 / 0.45359237),
  lureMass: linear('oz', 3, 1000 / 28.349523125),
};

/** The unit a reader of the given system sees for a kind of quantity. */
export function displayUnit(kind: QuantityKind, system: UnitSystem): DisplayUnit {
  return system === 'us' ? US[kind] : METRIC[kind];
}

/** Lures are sold in fractions of an ounce: sixteenths below a half, eighths below one, quarters above. */
function ounces(oz: number): string {
  const part = oz < 0.5 ? 16 : oz < 1 ? 8 : 4;
  const count = Math.max(1, Math.round(oz * part));
  const whole = Math.floor(count / part);
  let [top, bottom] = [count % part, part];
  while (top > 0 && top % 2 === 0) [top, bottom] = [top / 2, bottom / 2];
  const fraction = top === 0 ? '' : `${top}/${bottom}`;
  return whole === 0 ? fraction : `${whole} ${fraction}`.trim();
}

/** Number as printed, without its unit: rounded half away from zero, never "-0". */
export function formatNumber(si: number, kind: QuantityKind, system: UnitSystem, signed = false): string {
  const unit = displayUnit(kind, system);
  const shown = unit.fromSi(si);
  if (kind === 'lureMass' && system === 'us') return ounces(shown);
  const scale = 10 ** unit.decimals;
  const rounded = (Math.sign(shown) * Math.round(Math.abs(shown) * scale + 1e-9)) / scale;
  const text = Math.abs(rounded).toFixed(unit.decimals);
  const sign = rounded < 0 ? '-' : signed && rounded > 0 ? '+' : '';
  return sign + text;
}

/** Number with its unit as printed: `47 °F`, `+0.3 m`, `45°`. */
export function formatQuantity(si: number, kind: QuantityKind, system: UnitSystem, signed = false): string {
  const { symbol } = displayUnit(kind, system);
  const gap = symbol === '' || symbol === '°' || symbol === '%' ? '' : ' ';
  return formatNumber(si, kind, system, signed) + gap + symbol;
}
