import { item } from '../../units/index.ts';
import { HOUR_MS } from '../../units/time/index.ts';
import { median } from '../../science/index.ts';

/** No staff or pressure gauge on a lake is better than this in a change, m. */
const FLOOR_M = 0.01;
/** Doubt when too few values are there to judge the noise, m. */
const UNKNOWN_M = 0.03;
/** Multiple of the residual scale that noise alone passes in about one case in thirty. */
const FACTOR = 3;
/** Median absolute deviation to standard deviation of a normal distribution. */
const MAD_TO_SD = 1.4826;
/** Hours of record that show how much sensor and seiche move the gauge, at least. */
const NOISE_H = 24;
/** Weights of the middle of a cubic fitted to nine values at equal steps (Savitzky and Golay 1964, table I). */
const SMOOTHING = [-21, 14, 39, 54, 59, 54, 39, 14, -21].map((weight) => weight / 231);
const MIDDLE = 4;
/** What is left of the standard deviation of independent values about that cubic: sqrt(1 - 59 / 231). */
const LEFT_OF_SD = Math.sqrt(1 - 59 / 231);
/** Scatter is not judged on fewer values. */
const FEWEST_RESTS = 4;

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
 * Medians of a short window at both ends, so that one spike cannot make a flood; the noise is what sensor
 * and seiche do from hour to hour over the span (at least a day), and what the wind can have done.
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
  // A single value has no step, NaN, and finds nothing in its window.
  return Math.min((spanH * HOUR_MS) / 3, Math.max(HOUR_MS, 3 * median(stepsMs(used))));
}

const stepsMs = (used: readonly LevelPoint[]): number[] =>
  used.slice(1).map((p, i) => p.atMs - item(used, i).atMs);

/** Median level and mean time of the window that closes at an instant. */
function endOf(used: readonly LevelPoint[], atMs: number, windowMs: number): LevelPoint | null {
  const inside = used.filter((p) => p.atMs > atMs - windowMs && p.atMs <= atMs);
  if (inside.length === 0) return null;
  return {
    atMs: inside.reduce((sum, p) => sum + p.atMs, 0) / inside.length,
    levelM: median(inside.map((p) => p.levelM)),
  };
}

/**
 * What sensor, waves and seiche do to one value: the scatter about a cubic through nine neighbours, which follows a rise,
 * its end, a tide and the daily swing below turbines, so that none of them is taken for noise.
 */
function noise(used: readonly LevelPoint[]): number {
  const stepH = Math.max(1, Math.round(median(stepsMs(used)) / HOUR_MS));
  const bySlot = new Map<number, number[]>();
  for (const p of used) {
    const slot = Math.floor(p.atMs / (stepH * HOUR_MS));
    bySlot.set(slot, [...(bySlot.get(slot) ?? []), p.levelM]);
  }
  const levels = new Map([...bySlot].map(([slot, values]) => [slot, median(values)]));
  const rest = [...levels].flatMap(([slot, levelM]) => {
    const near = SMOOTHING.map((weight, i) => weight * (levels.get(slot + i - MIDDLE) ?? Number.NaN));
    const smoothM = near.reduce((sum, part) => sum + part, 0);
    return Number.isNaN(smoothM) ? [] : [Math.abs(levelM - smoothM)];
  });
  if (rest.length < FEWEST_RESTS) return UNKNOWN_M;
  return Math.max(FLOOR_M, (FACTOR * MAD_TO_SD * median(rest)) / LEFT_OF_SD);
}
