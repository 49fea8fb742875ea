import { at } from '../lake/series.ts';
import { FEATURES } from './features.ts';

/** States: site bias, one weight a feature, fading misfit, misfit of a day or two, error of forcing. */
const FADING = 1 + FEATURES;
const FAST = FADING + 1;
const FORCING = FAST + 1;
const N = FORCING + 1;

/** Rivers forget a misfit in 4 to 5 days. */
const FADING_KEEP = Math.exp(-1 / 4);
const FADING_SD = 0.55;
const FAST_KEEP = Math.exp(-1);
const FAST_SD = 0.3;
/** Share of its first spread by which a site's habit may change in a day. */
const DRIFT_SHARE = 0.007;
/** A reading this many squared standard deviations off counts for less. */
export const OUTLIER_Z2 = 25;

/** First spread of bias and weights, K: a river like the one of the parameters, and a river unlike it. */
export const LIKE_SD = Float64Array.of(1, 0.8, 0.8, 0.2, 0.2, 0.04, 0.04, 0.04, 0.2, 0.15, 0.15, 0.3);
export const UNLIKE_SD = Float64Array.of(3.5, 4, 4, 1, 1, 0.2, 0.2, 0.2, 1, 1, 1, 0.3);

/** Kalman filter on the difference between readings and one free run. */
export class RiverMisfit {
  private readonly x = new Float64Array(N);
  private readonly p = new Float64Array(N * N);
  private readonly h = new Float64Array(N).fill(1);
  private readonly gain = new Float64Array(N);
  private taught = false;

  constructor(private readonly siteSd: Float64Array) {
    siteSd.forEach((sd, i) => (this.p[i * (N + 1)] = sd ** 2));
    this.p[FADING * (N + 1)] = FADING_SD ** 2;
    this.p[FAST * (N + 1)] = FAST_SD ** 2;
  }

  copyFrom(other: RiverMisfit): void {
    this.x.set(other.x);
    this.p.set(other.p);
    this.h.set(other.h);
    this.taught = other.taught;
  }

  /** @param features of all days, one day after the other */
  observe(features: Float64Array, j: number): void {
    for (let i = 0; i < FEATURES; i++) this.h[1 + i] = at(features, j * FEATURES + i);
  }

  /**
   * One day passes.
   *
   * @param keep share of an error of the free run that is left a day later
   * @param forcingVar variance that missing or forecast weather adds, K2
   */
  advance(keep: number, forcingVar: number): void {
    this.shrink(FADING, FADING_KEEP, FADING_SD ** 2 * (1 - FADING_KEEP ** 2));
    this.shrink(FAST, FAST_KEEP, FAST_SD ** 2 * (1 - FAST_KEEP ** 2));
    this.shrink(FORCING, keep, forcingVar);
    // Before the first reading nothing is known that could grow old.
    if (this.taught)
      this.siteSd.forEach(
        (sd, i) => (this.p[i * (N + 1)] = at(this.p, i * (N + 1)) + (DRIFT_SHARE * sd) ** 2),
      );
  }

  /** The free run starts anew: what the site taught stays, the misfit of the days before is forgotten. */
  restart(startVar: number): void {
    this.shrink(FADING, 0, FADING_SD ** 2);
    this.shrink(FAST, 0, FAST_SD ** 2);
    this.shrink(FORCING, 0, startVar);
  }

  /** The water was seen to change its habit: bias and fading misfit may have moved by this much, K2. */
  loosen(variance: number): void {
    for (const i of [0, FADING]) this.p[i * (N + 1)] = at(this.p, i * (N + 1)) + variance / 2;
  }

  get misfitC(): number {
    let sum = 0;
    for (let i = 0; i < N; i++) sum += at(this.h, i) * at(this.x, i);
    return sum;
  }

  get misfitVar(): number {
    let sum = 0;
    for (let i = 0; i < N; i++) sum += at(this.h, i) * this.project(i);
    return sum;
  }

  get forcingVar(): number {
    return at(this.p, FORCING * (N + 1));
  }

  /** @param noiseVar variance of the reading about the day's mean, K2 */
  assimilate(misfitC: number, noiseVar: number): void {
    const spread = this.misfitVar;
    const differenceC = misfitC - this.misfitC;
    const total = Math.max(spread + noiseVar, differenceC ** 2 / OUTLIER_Z2);
    for (let i = 0; i < N; i++) this.gain[i] = this.project(i);
    for (let i = 0; i < N; i++) {
      const share = at(this.gain, i) / total;
      this.x[i] = at(this.x, i) + share * differenceC;
      for (let j = 0; j < N; j++) this.p[i * N + j] = at(this.p, i * N + j) - share * at(this.gain, j);
    }
    this.taught = true;
  }

  private project(i: number): number {
    let sum = 0;
    for (let j = 0; j < N; j++) sum += at(this.p, i * N + j) * at(this.h, j);
    return sum;
  }

  private shrink(state: number, keep: number, addedVar: number): void {
    this.x[state] = at(this.x, state) * keep;
    for (let j = 0; j < N; j++) {
      this.p[state * N + j] = at(this.p, state * N + j) * keep;
      this.p[j * N + state] = at(this.p, j * N + state) * keep;
    }
    this.p[state * (N + 1)] = at(this.p, state * (N + 1)) + addedVar;
  }
}
