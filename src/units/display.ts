import type { QuantityKind, UnitSystem } from './quantity.ts';
import { idsOf } from '../vocabulary/index.ts';
import { fromSiValue, toSiValue, unitOf, type Dimension } from './conversion.ts';

export interface DisplayUnit {
  /** Symbol printed behind the number, with the space it needs in front already left to the caller. */
  readonly symbol: string;
  /** At most. */
  readonly decimals: number;
  /** Digits that mean something where the kind spans many sizes: a creek and a river in flood are gauged to a few per cent. */
  readonly significant?: number;
  /** What it is rounded to where tenths are finer than anybody can aim; then no idle zeros follow. */
  readonly step?: number;
  readonly fromSi: (si: number) => number;
  readonly toSi: (shown: number) => number;
}

type Shown = readonly [symbol: string, decimals: number, significant?: number];

/** What each kind is shown in: its dimension, then symbol, decimals and digits in metric and, where they differ, in US units. */
const SHOWN: Readonly<Record<QuantityKind, readonly [Dimension, Shown, Shown?]>> = {
  temperature: ['temperature', ['°C', 1], ['°F', 0]],
  temperatureDifference: ['temperatureDifference', ['°C', 1], ['°F', 0]],
  temperatureError: ['temperatureDifference', ['°C', 1], ['°F', 1]],
  temperatureRate: ['temperatureRate', ['°C/day', 2], ['°F/day', 1]],
  level: ['length', ['m', 2], ['ft', 1]],
  levelChange: ['length', ['m', 2], ['ft', 1]],
  levelError: ['length', ['cm', 1], ['in', 1]],
  levelRate: ['levelRate', ['m/h', 3], ['ft/h', 2]],
  depth: ['length', ['m', 1], ['ft', 0]],
  distance: ['length', ['m', 0], ['ft', 0]],
  clarity: ['length', ['m', 1], ['ft', 1]],
  landing: ['length', ['m', 1], ['ft', 1]],
  waveHeight: ['length', ['m', 1], ['ft', 1]],
  wayByWater: ['length', ['km', 1], ['mi', 1]],
  rain: ['rain', ['mm', 0], ['in', 2]],
  windSpeed: ['speed', ['km/h', 0], ['mph', 0]],
  windSpeedError: ['speed', ['km/h', 1], ['mph', 1]],
  lureSpeed: ['speed', ['m/s', 2], ['ft/s', 1]],
  flow: ['flow', ['m³/s', 2, 3], ['ft³/s', 1, 3]],
  pressure: ['pressure', ['hPa', 0], ['inHg', 2]],
  irradiance: ['irradiance', ['W/m²', 0]],
  stormEnergy: ['stormEnergy', ['J/kg', 0]],
  turbidity: ['turbidity', ['FNU', 0]],
  percent: ['percent', ['%', 0]],
  share: ['share', ['%', 0]],
  hours: ['hours', ['h', 0]],
  days: ['days', ['days', 0]],
  seconds: ['seconds', ['s', 0]],
  angle: ['angle', ['°', 0]],
  castAngle: ['angle', ['°', 0]],
  turnRate: ['turnRate', ['turns/s', 2]],
  lineTake: ['length', ['m', 2], ['in', 0]],
  lineTest: ['mass', ['kg', 1], ['lb', 0]],
  lureMass: ['mass', ['g', 0], ['oz', 3]],
  baitLength: ['length', ['cm', 0], ['in', 0]],
  oxygen: ['oxygen', ['mg/L', 1]],
  count: ['count', ['', 0]],
};

/** Steps of kinds that people set by eye, in the unit they are shown in. */
const STEPS: Readonly<Partial<Record<QuantityKind, Readonly<Record<UnitSystem, number>>>>> = {
  landing: { metric: 0.1, us: 0.5 },
  castAngle: { metric: 5, us: 5 },
};

function shownUnit(kind: QuantityKind, system: UnitSystem): DisplayUnit {
  const [dimension, metric, us = metric] = SHOWN[kind];
  const [symbol, decimals, significant] = system === 'us' ? us : metric;
  const unit = unitOf(dimension, symbol);
  const step = STEPS[kind]?.[system];
  return {
    symbol,
    decimals,
    ...(significant === undefined ? {} : { significant }),
    ...(step === undefined ? {} : { step }),
    fromSi: (si) => fromSiValue(si, unit),
    toSi: (shown) => toSiValue(shown, unit),
  };
}

const byKind = (system: UnitSystem): Readonly<Record<QuantityKind, DisplayUnit>> =>
  Object.fromEntries(idsOf(SHOWN).map((kind) => [kind, shownUnit(kind, system)])) as Readonly<
    Record<QuantityKind, DisplayUnit>
  >;
const DISPLAY: Readonly<Record<UnitSystem, Readonly<Record<QuantityKind, DisplayUnit>>>> = {
  us: byKind('us'),
  metric: byKind('metric'),
};

/** The unit a reader of the given system sees for a kind of quantity. */
export function displayUnit(kind: QuantityKind, system: UnitSystem): DisplayUnit {
  return DISPLAY[system][kind];
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

/**
 * `12900`, `405`, `48.2`, `0.36`: as many digits as mean something. No comma between thousands: it is the decimal sign
 * of half the world, and what is printed here can be typed into a form.
 */
function significantWords(shown: number, digits: number, mostDecimals: number, signed: boolean): string {
  // A half that came through another unit and back is still a half.
  const rounded = Number((Math.abs(shown) * (1 + 1e-12)).toPrecision(digits));
  const whole = Math.floor(Math.log10(rounded)) + 1;
  const text = rounded.toFixed(Math.max(0, Math.min(mostDecimals, digits - whole)));
  const sign = Number(text) === 0 ? '' : shown < 0 ? '-' : signed ? '+' : '';
  return sign + text;
}

/** `2.5`, `11`, `35`: to the nearest step. */
function steppedWords(shown: number, step: number, decimals: number, signed: boolean): string {
  const steps = Math.sign(shown) * Math.round(Math.abs(shown) / step + 1e-9);
  const text = String(Number(Math.abs(steps * step).toFixed(decimals)));
  return (steps < 0 ? '-' : signed && steps > 0 ? '+' : '') + text;
}

/** Number as printed, without its unit: rounded half away from zero, never "-0". */
export function formatNumber(si: number, kind: QuantityKind, system: UnitSystem, signed = false): string {
  const unit = displayUnit(kind, system);
  const shown = unit.fromSi(si);
  if (kind === 'lureMass' && system === 'us') return ounces(shown);
  if (unit.significant !== undefined) return significantWords(shown, unit.significant, unit.decimals, signed);
  if (unit.step !== undefined) return steppedWords(shown, unit.step, unit.decimals, signed);
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
