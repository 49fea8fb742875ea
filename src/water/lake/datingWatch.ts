import { item } from '../../units/index.ts';
import { at } from '../series.ts';
import type { Dating } from './types.ts';

/** Air changes the step is explained by: tomorrow's, today's, yesterday's, the day's before, and the slow pull. */
const N = 5;
const [TOMORROW, TODAY, YESTERDAY] = [0, 1, 2];
/** A step beyond this is a bad reading, not weather, K. */
const LARGEST_STEP_C = 2;
/** Below this the water does not answer the air, degC. */
const OPEN_WATER_C = 3;
const KEEP_PER_STEP = Math.exp(-1 / 1000);
const FEWEST_STEPS = 250;
/** How sure the answer must be, standard errors; and that there is an answer at all. */
const SURE = 1.5;
const ANSWERS = 5;

/** One day's step of the water beside the air around it. */
export interface DatedStep {
  readonly stepC: number;
  readonly waterC: number;
  /** Mean air of the five days from three before the step's day to one after it, degC. */
  readonly airC: readonly [number, number, number, number, number];
  /** Relaxation rate of the free run, 1/d. */
  readonly ratePerDay: number;
}

/**
 * Tells whether a daily series carries the dates of its own days, by which day's air its steps answer.
 *
 * Water answers today's change of the air about as much as yesterday's. A series stamped a day late answers today's
 * hardly at all; one stamped a day early seems to foresee tomorrow's, which no lake does.
 */
export class DatingWatch {
  private readonly xx = new Float64Array(N * N);
  private readonly xy = new Float64Array(N);
  private yy = 0;
  private steps = 0;

  take(step: DatedStep): void {
    if (step.waterC < OPEN_WATER_C) return;
    const y = Math.min(LARGEST_STEP_C, Math.max(-LARGEST_STEP_C, step.stepC));
    const [a3, a2, a1, a0, next] = step.airC;
    const x = [next - a0, a0 - a1, a1 - a2, a2 - a3, a3 - step.waterC].map((v) => v * step.ratePerDay);
    for (let i = 0; i < N; i++) {
      this.xy[i] = KEEP_PER_STEP * at(this.xy, i) + item(x, i) * y;
      for (let j = 0; j < N; j++)
        this.xx[i * N + j] = KEEP_PER_STEP * at(this.xx, i * N + j) + item(x, i) * item(x, j);
    }
    this.yy = KEEP_PER_STEP * this.yy + y * y;
    this.steps = KEEP_PER_STEP * this.steps + 1;
  }

  /** What the steps so far say; `right` while they are too few to tell, which takes most of a year. */
  judge(): Dating {
    if (this.steps < FEWEST_STEPS) return 'right';
    const inverse = invert(this.xx);
    if (inverse === null) return 'right';
    const answerTo = Array.from({ length: N }, (_, i) => {
      let sum = 0;
      for (let j = 0; j < N; j++) sum += at(inverse, i * N + j) * at(this.xy, j);
      return sum;
    });
    const explained = answerTo.reduce((sum, value, i) => sum + value * at(this.xy, i), 0);
    const variance = (this.yy - explained) / (this.steps - N);
    const part = (i: number): number => item(answerTo, i);
    const sure = (i: number): boolean => part(i) / Math.sqrt(variance * at(inverse, i * (N + 1))) > ANSWERS;
    /** Standard errors by which the answer to one day's air stands above half of that to another's. */
    const aboveHalf = (one: number, other: number): number => {
      const spread =
        at(inverse, one * (N + 1)) + at(inverse, other * (N + 1)) / 4 - at(inverse, one * N + other);
      return (part(one) - part(other) / 2) / Math.sqrt(variance * spread);
    };
    if (sure(YESTERDAY) && aboveHalf(TODAY, YESTERDAY) < -SURE) return 'late';
    return sure(TODAY) && aboveHalf(TOMORROW, TODAY) > SURE ? 'early' : 'right';
  }
}

/** Inverse of a small symmetric positive matrix by elimination; null when it has none. */
function invert(source: Float64Array): Float64Array | null {
  const m = Float64Array.from(source);
  const inverse = new Float64Array(N * N);
  for (let i = 0; i < N; i++) inverse[i * (N + 1)] = 1;
  for (let i = 0; i < N; i++) {
    const pivot = at(m, i * (N + 1));
    if (!(pivot > 1e-9)) return null;
    for (const matrix of [m, inverse])
      for (let j = 0; j < N; j++) matrix[i * N + j] = at(matrix, i * N + j) / pivot;
    for (let k = 0; k < N; k++) {
      const factor = at(m, k * N + i);
      if (k === i || factor === 0) continue;
      for (const matrix of [m, inverse])
        for (let j = 0; j < N; j++)
          matrix[k * N + j] = at(matrix, k * N + j) - factor * at(matrix, i * N + j);
    }
  }
  return inverse;
}
