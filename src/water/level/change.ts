import { item } from '../../units/index.ts';
import { HOUR_MS } from '../../units/time/index.ts';
import { median, theilSen } from '../../science/index.ts';

/** No staff or pressure gauge on a lake is better than this in a change, m. */
const FLOOR_M = 0.01;
/** Doubt when too few values are there to judge the noise, m. */
const UNKNOWN_M = 0.03;
/** Multiple of the residual scale that noise alone passes in about one case in thirty. */
const FACTOR = 3;
/** Median absolute deviation to standard deviation of a normal distribution. */
const MAD_TO_SD = 1.4826;
/** Hours of record that show how much wind and sensor move the gauge, at least. */
const NOISE_H = 24;

export interface LevelPoint {
  readonly atMs: number;
  readonly levelM: number;
}

export interface LevelChange {
  /** Rise (positive) over the span, m. */
  readonly changeM: number;
  readonly rateMPerH: number;
  /** Change that wind set-up, seiche and sensor can pretend, m. */
  readonly noiseM: number;
  /** True when the change is larger than the noise. */
  readonly significant: boolean;
}

/**
 * Change of a lake level over the hours before an instant.
 *
 * Medians of a short window at both ends, so that one spike cannot make a flood; the noise is the scatter about a
 * robust line through hourly medians of the span (at least a day), which wind set-up and seiche widen as they should.
 * Values in between may be missing; the ends may not.
 *
 * @param points levels of one gauge and one datum, any order
 * @param asOfMs end of the span, epoch ms; later points are not looked at
 * @param spanH  span, h, 1 to 24 * 31
 * @param tiltM  change that the wind alone can have made at the gauge between both ends, m, 0 or more
 * @returns change, or null when either end has no value within its window
 * @throws RangeError for a span outside its range
 */
export function levelChange(
  points: readonly LevelPoint[],
  asOfMs: number,
  spanH: number,
  tiltM = 0,
): LevelChange | null {
  if (!(spanH >= 1 && spanH <= 24 * 31))
    throw new RangeError(`spanH must be between 1 and 744, got ${spanH}`);
  const from = asOfMs - Math.max(spanH, NOISE_H) * HOUR_MS - 3 * HOUR_MS;
  const used = points
    .filter((p) => Number.isFinite(p.levelM) && p.atMs > from && p.atMs <= asOfMs)
    .sort((a, b) => a.atMs - b.atMs);
  const windowMs = endWindowMs(used, spanH);
  const end = endOf(used, asOfMs, windowMs);
  const start = endOf(used, asOfMs - spanH * HOUR_MS, windowMs);
  if (!end || !start) return null;
  const elapsedH = (end.atMs - start.atMs) / HOUR_MS;
  // Irregular series can put the two medians nearer or farther than asked; the rate is theirs, the change the span's.
  const rateMPerH = (end.levelM - start.levelM) / elapsedH;
  const changeM = rateMPerH * spanH;
  const noiseM = Math.max(noise(used), tiltM);
  return { changeM, rateMPerH, noiseM, significant: Math.abs(changeM) > noiseM };
}

/** Window wide enough for three values of the series, at least an hour, at most a third of the span. */
function endWindowMs(used: readonly LevelPoint[], spanH: number): number {
  const steps = used.slice(1).map((p, i) => p.atMs - (used[i]?.atMs ?? p.atMs));
  // A single value has no step, NaN, and finds nothing in its window.
  return Math.min((spanH * HOUR_MS) / 3, Math.max(HOUR_MS, 3 * median(steps)));
}

/** Median level and mean time of the window that closes at an instant. */
function endOf(used: readonly LevelPoint[], atMs: number, windowMs: number): LevelPoint | null {
  const inside = used.filter((p) => p.atMs > atMs - windowMs && p.atMs <= atMs);
  if (inside.length === 0) return null;
  return {
    atMs: inside.reduce((sum, p) => sum + p.atMs, 0) / inside.length,
    levelM: median(inside.map((p) => p.levelM)),
  };
}

function noise(used: readonly LevelPoint[]): number {
  const byHour = new Map<number, number[]>();
  for (const p of used) {
    const hour = Math.floor(p.atMs / HOUR_MS);
    byHour.set(hour, [...(byHour.get(hour) ?? []), p.levelM]);
  }
  if (byHour.size < 4) return UNKNOWN_M;
  const first = item(used, 0).atMs;
  const xs = [...byHour.keys()].map((hour) => hour - first / HOUR_MS);
  const ys = [...byHour.values()].map(median);
  const { slope } = theilSen(xs, ys);
  const rest = ys.map((y, i) => y - slope * item(xs, i));
  const middle = median(rest);
  const scale = MAD_TO_SD * median(rest.map((r) => Math.abs(r - middle)));
  return Math.max(FLOOR_M, FACTOR * scale);
}
