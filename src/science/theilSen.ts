import { median } from './median.ts';

export interface TheilSen {
  /** Median of the slopes of all pairs, unit of y over unit of x. */
  readonly slope: number;
  /** 95 % confidence bounds of the slope. */
  readonly low: number;
  readonly high: number;
}

/** Two-sided 95 % quantile of the standard normal distribution. */
const Z95 = 1.959963984540054;

/**
 * Theil-Sen slope: the median of the slopes of all pairs, which one wild value in five cannot move.
 *
 * @param xs positions (times), any unit, same length as ys; pairs at the same position are left out
 * @param ys values
 * @returns slope with its 95 % confidence bounds; all NaN when no two positions differ
 * @throws RangeError when lengths differ or a value is not finite
 * @see Sen (1968), J. Am. Stat. Assoc. 63, 1379
 * @example theilSen([0, 1, 3, 6], [5, 6.2, 7.1, 9.4]).slope // 0.7167
 */
export function theilSen(xs: readonly number[], ys: readonly number[]): TheilSen {
  if (xs.length !== ys.length) throw new RangeError('theilSen needs as many positions as values');
  if ([...xs, ...ys].some((v) => !Number.isFinite(v))) throw new RangeError('theilSen needs finite values');
  const slopes: number[] = [];
  for (let i = 0; i < xs.length; i++) {
    for (let j = i + 1; j < xs.length; j++) {
      const run = (xs[j] ?? 0) - (xs[i] ?? 0);
      if (run !== 0) slopes.push(((ys[j] ?? 0) - (ys[i] ?? 0)) / run);
    }
  }
  slopes.sort((a, b) => a - b);
  if (slopes.length === 0) return { slope: NaN, low: NaN, high: NaN };

  const n = xs.length;
  const variance = (n * (n - 1) * (2 * n + 5) - tieTerm(xs) - tieTerm(ys)) / 18;
  const half = Z95 * Math.sqrt(Math.max(0, variance));
  const last = slopes.length - 1;
  // Round halves to even, as the reference implementation does.
  const upper = Math.min(roundEven((slopes.length + half) / 2), last);
  const lower = Math.max(roundEven((slopes.length - half) / 2) - 1, 0);
  return { slope: median(slopes), low: slopes[lower] ?? NaN, high: slopes[upper] ?? NaN };
}

function roundEven(x: number): number {
  const floor = Math.floor(x);
  return x - floor === 0.5 ? floor + (floor % 2) : Math.round(x);
}

/** Sum of t(t-1)(2t+5) over the groups of t equal values. */
function tieTerm(values: readonly number[]): number {
  const counts = new Map<number, number>();
  for (const v of values) counts.set(v, (counts.get(v) ?? 0) + 1);
  let sum = 0;
  for (const t of counts.values()) sum += t * (t - 1) * (2 * t + 5);
  return sum;
}
