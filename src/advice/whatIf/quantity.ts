import { z } from 'zod';
import type { UnitSystem } from '../../units/index.ts';
import type { WrittenFault } from './facts.ts';

interface Unit {
  readonly factor: number;
  readonly offset?: number;
}

const FAHRENHEIT: Unit = { factor: 1 / 1.8, offset: -32 / 1.8 };
const FAHRENHEIT_STEP: Unit = { factor: 1 / 1.8 };
const ONE: Unit = { factor: 1 };

/** Kinds of quantity a conditions file may hold: units as SI = number x factor + offset, the unit a bare number takes, range in SI. */
const KINDS = {
  temperature: {
    units: { F: FAHRENHEIT, '°F': FAHRENHEIT, degF: FAHRENHEIT, C: ONE, '°C': ONE, degC: ONE },
    us: 'F',
    metric: 'C',
    range: [-40, 55],
    example: '47 F',
  },
  temperatureDifference: {
    units: {
      F: FAHRENHEIT_STEP,
      '°F': FAHRENHEIT_STEP,
      degF: FAHRENHEIT_STEP,
      C: ONE,
      '°C': ONE,
      degC: ONE,
      K: ONE,
    },
    us: 'F',
    metric: 'C',
    range: [-40, 40],
    example: '3 F',
  },
  temperatureRate: {
    units: { 'F/day': FAHRENHEIT_STEP, '°F/day': FAHRENHEIT_STEP, 'C/day': ONE, '°C/day': ONE },
    us: 'F/day',
    metric: 'C/day',
    range: [-20, 20],
    example: '2 F/day',
  },
  rain: {
    units: { in: { factor: 25.4 }, inch: { factor: 25.4 }, mm: ONE, cm: { factor: 10 } },
    us: 'in',
    metric: 'mm',
    range: [0, 1000],
    example: '1.5 in',
  },
  level: {
    units: { ft: { factor: 0.3048 }, in: { factor: 0.0254 }, m: ONE, cm: { factor: 0.01 } },
    us: 'ft',
    metric: 'm',
    range: [-30, 30],
    example: '0.4 ft',
  },
  flow: {
    units: { cfs: { factor: 0.028316846592 }, 'ft3/s': { factor: 0.028316846592 }, 'm3/s': ONE, cms: ONE },
    us: 'cfs',
    metric: 'm3/s',
    range: [0, 100_000],
    example: '8000 cfs',
  },
  length: {
    units: {
      ft: { factor: 0.3048 },
      in: { factor: 0.0254 },
      yd: { factor: 0.9144 },
      mi: { factor: 1609.344 },
      m: ONE,
      cm: { factor: 0.01 },
      km: { factor: 1000 },
    },
    us: 'ft',
    metric: 'm',
    range: [0, 500_000],
    example: '4 ft',
  },
  wind: {
    units: {
      mph: { factor: 0.44704 },
      'km/h': { factor: 1 / 3.6 },
      kph: { factor: 1 / 3.6 },
      'm/s': ONE,
      kt: { factor: 0.514444 },
      knots: { factor: 0.514444 },
    },
    us: 'mph',
    metric: 'km/h',
    range: [0, 80],
    example: '8 mph',
  },
  current: {
    units: { 'ft/s': { factor: 0.3048 }, 'm/s': ONE, mph: { factor: 0.44704 } },
    us: 'ft/s',
    metric: 'm/s',
    range: [0, 6],
    example: '0.8 ft/s',
  },
  oxygen: {
    units: { 'mg/L': ONE, 'mg/l': ONE, ppm: ONE },
    us: 'mg/L',
    metric: 'mg/L',
    range: [0, 25],
    example: '2 mg/L',
  },
  hours: { units: { h: ONE, hours: ONE }, us: 'h', metric: 'h', range: [0, 2000], example: '14 h' },
  days: { units: { d: ONE, days: ONE }, us: 'd', metric: 'd', range: [-60, 60], example: '4 days' },
  percent: { units: { '%': ONE }, us: '%', metric: '%', range: [0, 100], example: '60 %' },
  angle: { units: { deg: ONE, '°': ONE }, us: 'deg', metric: 'deg', range: [0.5, 90], example: '30 deg' },
  latitude: { units: { deg: ONE, '°': ONE }, us: 'deg', metric: 'deg', range: [-66, 66], example: '35.5' },
  ratio: { units: { x: ONE }, us: 'x', metric: 'x', range: [0, 100], example: '2.5 x' },
} as const satisfies Record<
  string,
  {
    units: Readonly<Record<string, Unit>>;
    us: string;
    metric: string;
    range: readonly [number, number];
    example: string;
  }
>;

export type WrittenKind = keyof typeof KINDS;

/** Kinds whose unit is the same in both systems: a bare number is never ambiguous. */
const UNAMBIGUOUS: readonly WrittenKind[] = [
  'oxygen',
  'hours',
  'days',
  'percent',
  'angle',
  'latitude',
  'ratio',
];

type Read =
  | { readonly si: number }
  /** A sentence for whoever wrote a file, and the same as a code for who filled in a form. */
  | { readonly problem: string; readonly fault: WrittenFault };

/**
 * Without the last digits that a conversion leaves behind: what stands on a bound in one unit (19.2 C) stands on it in
 * another (66.56 F), so that the same day gives the same advice in both.
 */
const tidy = (si: number): number => Number(Number(si.toPrecision(12)).toFixed(12));

/** A number, and its unit where one is written. */
const WRITTEN = /^([+-]?(?:\d+(?:\.\d*)?|\.\d+))\s*([^\s\d.].*)?$/;

/**
 * SI value of a quantity as written, `47 F` or a bare number read in the units of `system`.
 *
 * @returns the value, or what was found and what is expected
 */
export function readWritten(written: string | number, kind: WrittenKind, system?: UnitSystem): Read {
  const spec = KINDS[kind];
  const known: Readonly<Record<string, Unit>> = spec.units;
  const units = Object.keys(known);
  const faulty = (code: WrittenFault['code'], found: string, problem: string): Read => ({
    problem,
    fault: { code, found, units, example: spec.example },
  });
  const expected = `a number and a unit (${units.join(', ')}), for example "${spec.example}"`;
  const match = WRITTEN.exec(String(written).trim());
  const found = String(written);
  if (match?.[1] === undefined)
    return faulty('notQuantity', found, `found ${JSON.stringify(written)}, expected ${expected}`);
  let name = match[2];
  if (name === undefined) {
    if (system === undefined && !UNAMBIGUOUS.includes(kind)) {
      return faulty(
        'noUnit',
        found,
        `found ${JSON.stringify(written)} without a unit, expected ${expected}; or set "units: us" or "units: metric" at the top`,
      );
    }
    name = spec[system ?? 'us'];
  }
  const unit = known[name];
  if (unit === undefined)
    return faulty('unknownUnit', name, `found the unit "${name}", expected ${expected}`);
  const si = tidy(Number(match[1]) * unit.factor + (unit.offset ?? 0));
  const [low, high] = spec.range;
  if (si < low || si > high) {
    return faulty(
      'outOfRange',
      found,
      `found "${written}", which is out of range. Check the number and its unit; expected ${expected}`,
    );
  }
  return { si };
}

/** System of the unit that a quantity is written in; undefined without one, and for units that both use. */
export function systemOf(written: string | number, kind: WrittenKind): UnitSystem | undefined {
  if (UNAMBIGUOUS.includes(kind)) return undefined;
  const name = WRITTEN.exec(String(written).trim())?.[2];
  if (name === undefined || name === 'kt' || name === 'knots') return undefined;
  return METRIC.has(name) ? 'metric' : 'us';
}

const METRIC: ReadonlySet<string> = new Set([
  ...['C', '°C', 'degC', 'K', 'C/day', '°C/day'],
  ...['mm', 'cm', 'm', 'km', 'm3/s', 'cms', 'm/s', 'km/h', 'kph'],
]);

const KIND_OF = new WeakMap<z.ZodType, WrittenKind>();

/** Schema of a quantity as written; its unit is checked by the file as a whole, which knows `units`. */
export function written(kind: WrittenKind, what: string) {
  const schema = z.union([z.string(), z.number()]).describe(`${what}, e.g. "${KINDS[kind].example}"`);
  KIND_OF.set(schema, kind);
  return schema.optional();
}

/** Kind of quantity of a schema made by `written`; undefined for any other. */
export function kindOf(schema: z.ZodType): WrittenKind | undefined {
  return schema instanceof z.ZodOptional
    ? KIND_OF.get(schema.def.innerType as z.ZodType)
    : KIND_OF.get(schema);
}

/** Example of a kind as a reader would write it. */
export const exampleOf = (kind: WrittenKind): string => KINDS[kind].example;
