/**
 * Counts of fish under the rules: log(fish an hour) = lake + gamma x points of the shipped rules + reader + what the
 * rules have wrong.
 *
 * What a rule has wrong is drawn towards nothing by a spread that all rules share and that the outings themselves teach
 * (hierarchical shrinkage to the shipped weights); readers likewise. Counts scatter as a negative binomial does. Fitted
 * by penalised iteratively reweighted least squares; spreads by expectation and maximisation, scatter so that Pearson's
 * sum is what it should be. Breslow and Clayton (1993), J. Amer. Stat. Assoc. 88, 9; McCullagh and Nelder (1989); both
 * from memory.
 */
import { itemAt } from '../../units/index.ts';

export interface CountRow {
  readonly fish: number;
  /** above 0 */
  readonly hours: number;
  readonly reader: string;
  /** Points that the shipped rules give the place on that day. */
  readonly points: number;
  /** How fully each candidate rule speaks, in the order of the candidates; 1 is its whole strength. */
  readonly speaks: readonly number[];
}

/** A rule that may be wrong. */
export interface Candidate {
  /**
   * One of several of which one always speaks, as each outing has its place: that all of them are worth more is the lake's
   * own rate and cannot be told apart from it, so each is told beside the mean of the others and itself.
   */
  readonly isAlternative: boolean;
  /** How much more tightly than others it is held to its shipped weight, 1 or above. */
  readonly held: number;
}

export interface Effect {
  /** Logarithm of the rate beyond what the shipped rules explain. */
  readonly value: number;
  /** Posterior spread. */
  readonly sd: number;
  /** Standard deviations of the data alone that the value lies from nothing, before it was drawn towards it. */
  readonly clear: number;
}

export interface CountFit {
  /** Logarithm of the rate that goes with a point of the shipped rules. */
  readonly perPoint: number;
  /** By candidate, in the order given. */
  readonly effects: readonly Effect[];
  /** Spread shared by all candidates. */
  readonly spread: number;
  readonly scatter: number;
}

/** Before outings say more: rules are wrong by a quarter of the rate, readers differ by half. Common practice, no source. */
const PRIOR = { rules: 0.3, rulesWorth: 2, readers: 0.5, readersWorth: 4, perPoint: 0.5, lake: 10 };
const SPREAD = { least: 0.08, most: 0.8 };
const ROUNDS = 60;
const SETTLED = 1e-5;
/** No linear predictor runs away while it is being fitted. */
const STEEPEST = 12;

type Matrix = Float64Array[];

/** Cholesky factor of a symmetric positive definite matrix, in place; the lower triangle counts. */
function factorise(a: Matrix): Matrix {
  const size = a.length;
  for (let j = 0; j < size; j++) {
    const rowJ = itemAt(a, j);
    for (let i = j; i < size; i++) {
      const rowI = itemAt(a, i);
      let sum = rowI[j] ?? 0;
      for (let k = 0; k < j; k++) sum -= (rowI[k] ?? 0) * (rowJ[k] ?? 0);
      rowI[j] = i === j ? Math.sqrt(Math.max(sum, 1e-12)) : sum / (rowJ[j] ?? 1);
    }
  }
  return a;
}

/** Solves L L' x = b. */
function solve(l: Matrix, b: Float64Array): Float64Array {
  const size = l.length;
  const x = Float64Array.from(b);
  for (let i = 0; i < size; i++) {
    const row = itemAt(l, i);
    let sum = x[i] ?? 0;
    for (let k = 0; k < i; k++) sum -= (row[k] ?? 0) * (x[k] ?? 0);
    x[i] = sum / (row[i] ?? 1);
  }
  for (let i = size - 1; i >= 0; i--) {
    let sum = x[i] ?? 0;
    for (let k = i + 1; k < size; k++) sum -= (itemAt(l, k)[i] ?? 0) * (x[k] ?? 0);
    x[i] = sum / (itemAt(l, i)[i] ?? 1);
  }
  return x;
}

/** Each candidate's value and spread, alternatives beside their mean. */
function effectsOf(
  l: Matrix,
  beta: Float64Array,
  firstRule: number,
  candidates: readonly Candidate[],
  { spread, weights }: { readonly spread: number; readonly weights: readonly number[] },
): Effect[] {
  return candidates.map(({ isAlternative }, j) => {
    const contrast = new Float64Array(beta.length);
    contrast[firstRule + j] = 1;
    if (isAlternative)
      weights.forEach((weight, k) => {
        contrast[firstRule + k] = (contrast[firstRule + k] ?? 0) - weight;
      });
    const spreadBy = solve(l, contrast);
    let [value, variance, before] = [0, 0, 0];
    contrast.forEach((c, k) => {
      value += c * (beta[k] ?? 0);
      variance += c * (spreadBy[k] ?? 0);
      if (k >= firstRule) before += (c * spread) ** 2 / (candidates[k - firstRule]?.held ?? 1) ** 2;
    });
    // What the data alone say has the variance v / k where a share k of it was let through.
    const through = Math.max(0.01, 1 - variance / before);
    return { value, sd: Math.sqrt(variance), clear: Math.abs(value) / Math.sqrt(through * variance) };
  });
}

/** Diagonal of the inverse of L L'. */
function inverseDiagonal(l: Matrix): Float64Array {
  const size = l.length;
  const unit = new Float64Array(size);
  return Float64Array.from({ length: size }, (_, i) => {
    unit.fill(0);
    unit[i] = 1;
    return solve(l, unit)[i] ?? 0;
  });
}

/** Scatter at which Pearson's sum is what it is expected to be; a little prior keeps it from the ends. */
function scatterFor(fish: Float64Array, mean: Float64Array, free: number): number {
  const pearson = (scatter: number): number => {
    let sum = 0;
    for (let i = 0; i < fish.length; i++) {
      const mu = mean[i] ?? 1;
      sum += ((fish[i] ?? 0) - mu) ** 2 / (mu + scatter * mu * mu);
    }
    return sum;
  };
  let [low, high] = [0, 10];
  if (pearson(low) <= free) return 0.02;
  for (let k = 0; k < 40; k++) {
    const middle = (low + high) / 2;
    if (pearson(middle) > free) low = middle;
    else high = middle;
  }
  return Math.max(0.02, (low + high) / 2);
}

/** Squared spread from values and their posterior variances, with what was believed before. */
const spreadOf = (prior: number, worth: number, squares: number, count: number): number =>
  Math.min(SPREAD.most, Math.max(SPREAD.least, Math.sqrt((worth * prior ** 2 + squares) / (worth + count))));

/**
 * @param candidates in the order of `speaks`
 * @throws RangeError without rows
 */
export function fitCounts(rows: readonly CountRow[], candidates: readonly Candidate[]): CountFit {
  if (rows.length === 0) throw new RangeError('a fit needs outings');
  const tightness = candidates.map(({ held }) => held);
  const readers = [...new Set(rows.map(({ reader }) => reader))];
  const columns = 2 + readers.length + tightness.length;
  const firstRule = 2 + readers.length;
  const middle = rows.reduce((sum, { points }) => sum + points, 0) / rows.length;
  const x: Matrix = rows.map(({ points, reader, speaks }) => {
    const row = new Float64Array(columns);
    row[0] = 1;
    row[1] = points - middle;
    row[2 + readers.indexOf(reader)] = 1;
    speaks.forEach((value, j) => {
      row[firstRule + j] = value;
    });
    return row;
  });
  const fish = Float64Array.from(rows, (row) => row.fish);
  const offset = Float64Array.from(rows, ({ hours }) => Math.log(hours));
  const total = fish.reduce((sum, one) => sum + one, 0);
  const hours = rows.reduce((sum, row) => sum + row.hours, 0);
  const start = Math.log((total + 0.5) / hours);
  let beta: Float64Array = new Float64Array(columns);
  beta[0] = start;
  let [ofReaders, ofRules, scatter] = [PRIOR.readers, PRIOR.rules, 0.5];
  let variance: Float64Array = new Float64Array(columns);
  let l: Matrix = [];
  for (let round = 0; round < ROUNDS; round++) {
    const penalty = Float64Array.from({ length: columns }, (_, j) => {
      if (j === 0) return 1 / PRIOR.lake ** 2;
      if (j === 1) return 1 / PRIOR.perPoint ** 2;
      if (j < firstRule) return 1 / ofReaders ** 2;
      return ((tightness[j - firstRule] ?? 1) / ofRules) ** 2;
    });
    const a: Matrix = Array.from({ length: columns }, (_, j) => {
      const row = new Float64Array(columns);
      row[j] = penalty[j] ?? 0;
      return row;
    });
    const b = new Float64Array(columns);
    // The lake's rate is drawn towards its own mean, everything else towards nothing.
    b[0] = start * (penalty[0] ?? 0);
    const mean = new Float64Array(rows.length);
    for (let i = 0; i < rows.length; i++) {
      const row = itemAt(x, i);
      let eta = offset[i] ?? 0;
      for (let j = 0; j < columns; j++) eta += (row[j] ?? 0) * (beta[j] ?? 0);
      eta = Math.max(-STEEPEST, Math.min(STEEPEST, eta));
      const mu = Math.exp(eta);
      mean[i] = mu;
      const weight = mu / (1 + scatter * mu);
      const working = eta - (offset[i] ?? 0) + ((fish[i] ?? 0) - mu) / mu;
      for (let j = 0; j < columns; j++) {
        const xj = (row[j] ?? 0) * weight;
        if (xj === 0) continue;
        b[j] = (b[j] ?? 0) + xj * working;
        const out = itemAt(a, j);
        for (let k = 0; k <= j; k++) out[k] = (out[k] ?? 0) + xj * (row[k] ?? 0);
      }
    }
    l = factorise(a);
    const next = solve(l, b);
    variance = inverseDiagonal(l);
    const moved = next.reduce((most, value, j) => Math.max(most, Math.abs(value - (beta[j] ?? 0))), 0);
    beta = next;
    const squares = (from: number, to: number, hold: (j: number) => number): number => {
      let sum = 0;
      for (let j = from; j < to; j++) sum += ((beta[j] ?? 0) ** 2 + (variance[j] ?? 0)) * hold(j) ** 2;
      return sum;
    };
    ofReaders = spreadOf(
      PRIOR.readers,
      PRIOR.readersWorth,
      squares(2, firstRule, () => 1),
      readers.length,
    );
    ofRules = spreadOf(
      PRIOR.rules,
      PRIOR.rulesWorth,
      squares(firstRule, columns, (j) => tightness[j - firstRule] ?? 1),
      tightness.length,
    );
    // Columns that are held by their prior alone use up no outing.
    const used = variance.reduce((sum, one, j) => sum + 1 - one * (penalty[j] ?? 0), 0);
    scatter = scatterFor(fish, mean, Math.max(1, rows.length - used));
    if (round > 5 && moved < SETTLED) break;
  }
  const spoken = candidates.map(({ isAlternative }, j) =>
    isAlternative ? rows.reduce((sum, { speaks }) => sum + Math.abs(speaks[j] ?? 0), 0) : 0,
  );
  const all = spoken.reduce((sum, one) => sum + one, 0);
  const weights = spoken.map((one) => (all === 0 ? 0 : one / all));
  return {
    perPoint: beta[1] ?? 0,
    effects: effectsOf(l, beta, firstRule, candidates, { spread: ofRules, weights }),
    spread: ofRules,
    scatter,
  };
}
