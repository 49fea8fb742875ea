import { DAY_MS } from '../../units/time/index.ts';

/** A year's band needs values from this many different days; less would call a season's span a year's. */
const MIN_DAYS = 180;

export interface BandPosition {
  /** Lowest and highest daily level of the year, m; null with too little record. */
  readonly lowM: number | null;
  readonly highM: number | null;
  /** 0 at the lowest, 1 at the highest level of the year; below 0 or above 1 outside it; null when unknown. */
  readonly share: number | null;
  /** Above (positive) or below normal pool, m; null when normal pool is not known. */
  readonly vsNormalM: number | null;
  /** Days of the year that the band rests on. */
  readonly days: number;
}

/**
 * Where a level stands in the band of the year before and against normal pool.
 *
 * @param points      levels of the same gauge and datum, single or daily values, any order
 * @param asOfMs      instant of the level, epoch ms; only the 365 days before count
 * @param levelM      level at that instant, m above the gauge's datum
 * @param normalPoolM normal pool on the same datum, m
 */
export function bandPosition(
  points: readonly { readonly atMs: number; readonly levelM: number }[],
  asOfMs: number,
  levelM: number,
  normalPoolM?: number,
): BandPosition {
  const vsNormalM = normalPoolM === undefined ? null : levelM - normalPoolM;
  const sums = new Map<number, { sum: number; count: number }>();
  for (const p of points) {
    if (p.atMs > asOfMs || p.atMs <= asOfMs - 365 * DAY_MS || !Number.isFinite(p.levelM)) continue;
    const day = Math.floor(p.atMs / DAY_MS);
    const { sum, count } = sums.get(day) ?? { sum: 0, count: 0 };
    sums.set(day, { sum: sum + p.levelM, count: count + 1 });
  }
  const days = sums.size;
  if (days < MIN_DAYS) return { lowM: null, highM: null, share: null, vsNormalM, days };
  // Daily means: one spike of a sensor is not the year's flood.
  const means = [...sums.values()].map(({ sum, count }) => sum / count);
  const lowM = Math.min(...means);
  const highM = Math.max(...means);
  return { lowM, highM, share: highM > lowM ? (levelM - lowM) / (highM - lowM) : null, vsNormalM, days };
}
