/** A reply in another unit than before: the same instants of the same series, times the number that lies between two units. */
import type { Observation, Variable } from '../record/index.ts';
import { median } from '../science/index.ts';

const SPEED = [
  [3.6, 'm/s and km/h'],
  [2.236936, 'm/s and mph'],
  [1.943844, 'm/s and knots'],
  [3.28084, 'm/s and ft/s'],
] as const;
const FLOW = [
  [35.314667, 'm3/s and ft3/s'],
  [1000, 'm3/s and L/s'],
] as const;
const FACTORS: Readonly<Partial<Record<Variable, readonly (readonly [factor: number, units: string])[]>>> = {
  wind_speed: SPEED,
  wind_gust: SPEED,
  discharge: FLOW,
  inflow: FLOW,
  release: FLOW,
};

/** Variables that are held against what the record has of the same instants. */
export const HELD_BY_FACTOR: readonly Variable[] = [
  'wind_speed',
  'wind_gust',
  'discharge',
  'inflow',
  'release',
];

/**
 * Instants that both have, how many of them must agree, and how closely. A river that has changed, and a revision of a
 * rating, are no constant multiple of what the same gauge gave for the same instants, nor is a forecast of the one
 * before; common practice, no source.
 */
const FEWEST = 6;
const AGREE = 0.9;
const CLOSE = 0.02;
/** A multiple of one value that never changes could be anything. */
const FEWEST_VALUES = 3;
/** Rounding drowns the factor of smaller values, in the variable's own unit. */
const LEAST = 0.5;

const keyOf = ({ source, station, atMs }: Observation): string => `${source} ${station} ${atMs}`;

/**
 * Between which units a series seems to have changed since the record was told the same instants.
 *
 * @param rows  one series of a reply
 * @param known what the record has of the variable
 * @returns null where it has not, or where too few instants are shared to say so
 */
export function otherUnit(rows: readonly Observation[], known: readonly Observation[]): string | null {
  const factors = rows[0] === undefined ? undefined : FACTORS[rows[0].variable];
  if (factors === undefined || known.length === 0) return null;
  const before = new Map(
    known.filter(({ doubt }) => doubt === undefined).map((row) => [keyOf(row), row.value]),
  );
  const pairs = rows.flatMap((row) => {
    const was = before.get(keyOf(row));
    return was === undefined || Math.min(was, row.value) < LEAST ? [] : [{ was, ratio: row.value / was }];
  });
  if (pairs.length < FEWEST || new Set(pairs.map(({ was }) => was)).size < FEWEST_VALUES) return null;
  const middle = median(pairs.map(({ ratio }) => ratio));
  const isNear = (ratio: number, factor: number): boolean => Math.abs(ratio / factor - 1) <= CLOSE;
  const found = factors.find(([factor]) => isNear(middle, factor) || isNear(middle, 1 / factor));
  if (found === undefined) return null;
  const agreeing = pairs.filter(({ ratio }) => isNear(ratio, middle)).length;
  return agreeing >= AGREE * pairs.length ? found[1] : null;
}
