import { normalCdf } from './normal.ts';

export interface MannKendall {
  /** Number of rises minus number of falls over all pairs. */
  readonly s: number;
  /** Variance of s without a trend, ties taken into account. */
  readonly variance: number;
  /** Standard score with continuity correction; 0 when s or the variance is 0. */
  readonly z: number;
  /** Two-sided probability of so large a score without a trend; 1 when z is 0. */
  readonly p: number;
}

/**
 * Mann-Kendall test for a trend in equally or unequally spaced values in time order.
 *
 * The probability is the normal approximation, published for more than ten values, and takes the values as
 * independent. Daily temperatures are not, so p is too hopeful there: judge by size of the slope as well.
 *
 * @param ys values in time order, any unit
 * @returns score, its variance, standard score and two-sided probability
 * @throws RangeError when a value is not finite
 * @see Mann (1945); Kendall (1975); US EPA QA/G-9S (2006), section 4.3.4
 * @example mannKendall([10, 10, 10, 5, 10, 20, 18, 17, 15, 24, 15]).s // 22
 */
export function mannKendall(ys: readonly number[]): MannKendall {
  if (ys.some((y) => !Number.isFinite(y))) throw new RangeError('mannKendall needs finite values');
  const n = ys.length;
  let s = 0;
  for (const [i, early] of ys.entries()) for (const late of ys.slice(i + 1)) s += Math.sign(late - early);
  const variance = (n * (n - 1) * (2 * n + 5) - tieTerm(ys)) / 18;
  const z = variance > 0 ? (s - Math.sign(s)) / Math.sqrt(variance) : 0;
  return { s, variance, z, p: 2 * normalCdf(-Math.abs(z)) };
}

/** Sum of t(t-1)(2t+5) over the groups of t equal values. */
export function tieTerm(values: readonly number[]): number {
  const counts = new Map<number, number>();
  for (const v of values) counts.set(v, (counts.get(v) ?? 0) + 1);
  let sum = 0;
  for (const t of counts.values()) sum += t * (t - 1) * (2 * t + 5);
  return sum;
}
