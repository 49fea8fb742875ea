/**
 * Fish per hour of groups of outings, as Gamma-Poisson rates.
 *
 * A group's rate is the lake's times a factor that is Gamma distributed around 1: what few outings say is drawn towards
 * the whole lake. Outings of one rate scatter more than Poisson counts do (one finds a school, another the dock that
 * was fished an hour before): each weighs 1 / (1 + mean / dispersion), the working weight of a negative binomial count,
 * so that ten fish of one lucky hour are not ten witnesses. Readers differ too; a factor of each reader, drawn towards 1
 * in the same way, is taken out before groups are set beside each other, and is told to nobody.
 *
 * See Gelman et al. (2013), Bayesian Data Analysis, 2.6 (Gamma-Poisson) and McCullagh and Nelder (1989), 6.2
 * (over-dispersion); both from memory.
 */
import { gammaQuantile } from '../science/index.ts';

/** One outing as rates see it: counts, effort, whose, and the group it belongs to. */
export interface Catch {
  readonly fish: number;
  /** above 0 */
  readonly hours: number;
  readonly reader: string;
  readonly group: string;
}

export interface Rate {
  readonly group: string;
  /** Outings. */
  readonly n: number;
  readonly readers: number;
  readonly hours: number;
  readonly fish: number;
  /** Fish per hour: middle of the posterior, and its 80 % interval. */
  readonly perHour: number;
  readonly low: number;
  readonly high: number;
}

/** Spread of the factors of groups and readers before anything is known: half of the lake's rate. Common practice, no source. */
const PRIOR_SPREAD = 0.5;
/** How many groups the prior guess of the spread is worth. Common practice, no source. */
const PRIOR_GROUPS = 3;
/** Groups are never taken for alike or for lawless, whatever few of them say. */
const SPREAD = { least: 0.2, most: 1.2 };
/** Before there is enough to see it, one outing scatters about its mean by as much again. Common practice, no source. */
const PRIOR_SCATTER = 0.5;
const PRIOR_OUTINGS = 10;
const ROUNDS = 25;

interface Side {
  readonly factor: Map<string, number>;
  spread: number;
}

const sumOf = <T>(list: readonly T[], value: (one: T) => number): number =>
  list.reduce((sum, one) => sum + value(one), 0);

/** One over the dispersion: the squared scatter of outings of one mean, beyond what counting explains. */
function scatterOf(rows: readonly Catch[], meanOf: (row: Catch) => number, fitted: number): number {
  const excess = sumOf(rows, (row) => {
    const mean = meanOf(row);
    return (row.fish - mean) ** 2 - mean;
  });
  const squares = sumOf(rows, (row) => meanOf(row) ** 2);
  const outings = rows.length;
  // What the fit took with it: residuals are smaller than errors.
  const share = Math.max(0.2, (outings - fitted) / outings);
  const seen = squares === 0 ? PRIOR_SCATTER : Math.max(0, excess / share / squares);
  return (PRIOR_SCATTER * PRIOR_OUTINGS + seen * outings) / (PRIOR_OUTINGS + outings);
}

/** Squared spread of factors around 1, from how far weighted counts lie from what was expected of them. */
function spreadOf(groups: ReadonlyMap<string, { seen: number; expected: number }>): number {
  let above = PRIOR_GROUPS * PRIOR_SPREAD ** 2;
  let weight = PRIOR_GROUPS;
  for (const { seen, expected } of groups.values()) {
    if (expected <= 0) continue;
    // Groups of which much is expected say most about the spread.
    const trust = (expected / (expected + 1 / PRIOR_SPREAD ** 2)) ** 2;
    above += trust * (((seen - expected) ** 2 - expected) / expected ** 2);
    weight += trust;
  }
  return Math.min(SPREAD.most, Math.max(SPREAD.least, Math.sqrt(Math.max(0, above / weight))));
}

function gathered(
  rows: readonly Catch[],
  keyOf: (row: Catch) => string,
  weightOf: (row: Catch) => number,
  expectedOf: (row: Catch) => number,
): Map<string, { seen: number; expected: number }> {
  const all = new Map<string, { seen: number; expected: number }>();
  for (const row of rows) {
    const key = keyOf(row);
    const known = all.get(key) ?? { seen: 0, expected: 0 };
    const weight = weightOf(row);
    all.set(key, {
      seen: known.seen + weight * row.fish,
      expected: known.expected + weight * expectedOf(row),
    });
  }
  return all;
}

/**
 * Rates of all groups, in the order in which the groups first appear.
 *
 * @param rows outings of one lake, each in one group; hours above 0
 * @returns fish per hour with an 80 % interval; empty without outings
 */
export function ratesOf(rows: readonly Catch[]): Rate[] {
  if (rows.length === 0) return [];
  // Half a fish more in all, so that a lake of blank days has a rate that is small and not zero.
  const lakeRate = (sumOf(rows, ({ fish }) => fish) + 0.5) / sumOf(rows, ({ hours }) => hours);
  const groups: Side = { factor: new Map(), spread: PRIOR_SPREAD };
  const readers: Side = { factor: new Map(), spread: PRIOR_SPREAD };
  const of = (side: Side, key: string): number => side.factor.get(key) ?? 1;
  const mean = (row: Catch): number => lakeRate * row.hours * of(groups, row.group) * of(readers, row.reader);
  let scatter = PRIOR_SCATTER;
  const weight = (row: Catch): number => 1 / (1 + mean(row) * scatter);
  const update = (
    side: Side,
    keyOf: (row: Catch) => string,
    expected: (row: Catch) => number,
  ): Map<string, { seen: number; expected: number }> => {
    const sums = gathered(rows, keyOf, weight, expected);
    side.spread = spreadOf(sums);
    const shape = 1 / side.spread ** 2;
    for (const [key, sum] of sums) side.factor.set(key, (shape + sum.seen) / (shape + sum.expected));
    return sums;
  };
  const groupOf = ({ group }: Catch): string => group;
  const isOne = new Set(rows.map(({ reader }) => reader)).size === 1;
  let sums = new Map<string, { seen: number; expected: number }>();
  for (let round = 0; round < ROUNDS; round++) {
    if (!isOne)
      update(
        readers,
        ({ reader }) => reader,
        (row) => lakeRate * row.hours * of(groups, row.group),
      );
    sums = update(groups, groupOf, (row) => lakeRate * row.hours * of(readers, row.reader));
    scatter = scatterOf(rows, mean, groups.factor.size + (isOne ? 0 : readers.factor.size) / 2);
  }
  const shape = 1 / groups.spread ** 2;
  const readerShape = 1 / readers.spread ** 2;
  const ofReaders = gathered(rows, ({ reader }) => reader, weight, mean);
  // The lake's own rate is known from so many groups and so many fish only.
  const lakeVariance =
    groups.spread ** 2 / sums.size +
    1 /
      Math.max(
        1,
        sumOf([...sums.values()], ({ seen }) => seen),
      );
  return [...sums].map(([group, { seen, expected }]) => {
    const own = rows.filter((row) => row.group === group);
    const all = sumOf(own, (row) => weight(row) * mean(row));
    // What is not known of its readers, as far as they are few.
    const readerVariance = isOne
      ? 0
      : sumOf([...gathered(own, ({ reader }) => reader, weight, mean)], ([reader, { expected: part }]) => {
          const whole = ofReaders.get(reader)?.expected ?? part;
          return (part / all) ** 2 / (readerShape + whole);
        });
    const drawn = (shape / (shape + expected)) ** 2;
    const squaredSpread = 1 / (shape + seen) + readerVariance + drawn * lakeVariance;
    const middle = (lakeRate * (shape + seen)) / (shape + expected);
    const rate = (share: number): number => middle * squaredSpread * gammaQuantile(1 / squaredSpread, share);
    return {
      group,
      n: own.length,
      readers: new Set(own.map(({ reader }) => reader)).size,
      hours: sumOf(own, ({ hours }) => hours),
      fish: sumOf(own, ({ fish }) => fish),
      perHour: rate(0.5),
      low: rate(0.1),
      high: rate(0.9),
    };
  });
}
