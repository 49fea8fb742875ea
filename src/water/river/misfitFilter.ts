import { Kalman } from '../kalman.ts';
import { DOUBTED_Z2 } from '../lastDoubt.ts';
import { Misfit } from '../misfit.ts';
import { at } from '../series.ts';
import { FEATURES } from './features.ts';

/** States: site bias, one weight a feature, fading misfit, misfit of a day or two, error of forcing. */
const BIAS = 0;
const FADING = 1 + FEATURES;
const FAST = FADING + 1;
const FORCING = FAST + 1;

/** Rivers forget a misfit in 4 to 5 days. */
const FADING_KEEP = Math.exp(-1 / 4);
const FADING_SD = 0.75;
const FAST_KEEP = Math.exp(-1);
const FAST_SD = 0.3;
/** Share of its first spread by which a site's habit may change in a day. */
const DRIFT_SHARE = 0.007;

/** First spread of bias and weights, K: a river like the one of the parameters, and a river unlike it. */
export const LIKE_SD = Float64Array.of(0.9, 0.6, 0.6, 0.2, 0.2, 0.08, 0.04, 0.04, 0.2, 0.15, 0.15, 0.3);
export const UNLIKE_SD = Float64Array.of(2, 2, 2, 1, 1, 0.2, 0.2, 0.2, 1, 1, 1, 0.3);

/** Kalman filter on the difference between readings and one free run. */
export class RiverMisfit extends Misfit {
  private taught = false;

  /**
   * @param siteSd first spread of bias and weights, K
   * @param places past days whose misfit is kept and corrected by what comes later
   */
  constructor(
    private readonly siteSd: Float64Array,
    places: number,
  ) {
    super(new Kalman([...siteSd, FADING_SD, FAST_SD, 0], places), FORCING);
  }

  copyFrom(other: RiverMisfit): void {
    this.kalman.copyFrom(other.kalman);
    this.taught = other.taught;
  }

  /** @param features of all days, one day after the other */
  observe(features: Float64Array, j: number): void {
    for (let i = 0; i < FEATURES; i++) this.kalman.weights[1 + i] = at(features, j * FEATURES + i);
  }

  /**
   * One day passes.
   *
   * @param keep share of an error of the free run that is left a day later
   * @param forcingVar variance that missing or forecast weather adds, K2
   */
  advance(keep: number, forcingVar: number): void {
    this.kalman.fade(FADING, FADING_KEEP, FADING_SD ** 2 * (1 - FADING_KEEP ** 2));
    this.kalman.fade(FAST, FAST_KEEP, FAST_SD ** 2 * (1 - FAST_KEEP ** 2));
    this.kalman.fade(FORCING, keep, forcingVar);
    // Before the first reading nothing is known that could grow old.
    if (this.taught) this.siteSd.forEach((sd, i) => this.kalman.loosen(i, (DRIFT_SHARE * sd) ** 2));
  }

  /** The free run starts anew: what the site taught stays, the misfit of the days before is forgotten. */
  restart(startVar: number): void {
    this.kalman.fade(FADING, 0, FADING_SD ** 2);
    this.kalman.fade(FAST, 0, FAST_SD ** 2);
    this.kalman.fade(FORCING, 0, startVar);
  }

  /** The water was seen to change its habit: bias and fading misfit may have moved by this much, K2. */
  loosen(variance: number): void {
    for (const state of [BIAS, FADING]) this.kalman.loosen(state, variance / 2);
  }

  /** @param noiseVar variance of the reading about the day's mean, K2 */
  assimilate(misfitC: number, noiseVar: number): void {
    const differenceC = misfitC - this.misfitC;
    this.kalman.update(differenceC, noiseVar, differenceC ** 2 / DOUBTED_Z2);
    this.taught = true;
  }
}
