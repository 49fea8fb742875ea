import { item } from '../units/index.ts';
import { at } from './series.ts';

/**
 * Linear Kalman filter that is shown one number at a time.
 *
 * The states are shares of a difference, in the number's own unit times their weight: set `weights` to what each state
 * counts for now, then read `expected` and `variance`, or `update` with what was seen.
 *
 * @see Kalman (1960), J. Basic Eng. 82, 35-45; scalar measurement, so no matrix is inverted
 */
export class Kalman {
  /** What each state adds to the number now; all 1 at the start. What is kept of the past adds nothing. */
  readonly weights: Float64Array;
  /** The states, and behind them the numbers that are kept. */
  private readonly state: Float64Array;
  /** What each of them shares with each state; what two kept numbers share is asked by nobody. */
  private readonly covariance: Float64Array;
  /** Variances of the kept numbers. */
  private readonly keptVar: Float64Array;
  private readonly gain: Float64Array;
  private readonly own: number;

  /**
   * @param priorSd standard error of each state before anything was seen; all states start at 0
   * @param places  how many past numbers can be remembered (see `remember`)
   */
  constructor(priorSd: ArrayLike<number>, places = 0) {
    this.own = priorSd.length;
    const all = this.own + places;
    this.weights = new Float64Array(this.own).fill(1);
    this.state = new Float64Array(all);
    this.gain = new Float64Array(all);
    this.keptVar = new Float64Array(places);
    this.covariance = new Float64Array(all * this.own);
    // What is learnt of places starts at nothing known to differ.
    for (let i = 0; i < this.own; i++) this.covariance[i * (this.own + 1)] = item(priorSd, i) ** 2;
  }

  copyFrom(other: Kalman): void {
    this.weights.set(other.weights);
    this.state.set(other.state);
    this.covariance.set(other.covariance);
    this.keptVar.set(other.keptVar);
  }

  get expected(): number {
    let sum = 0;
    for (let i = 0; i < this.own; i++) sum += at(this.weights, i) * at(this.state, i);
    return sum;
  }

  /** Variance of the expected number, without the noise of seeing it. */
  get variance(): number {
    let sum = 0;
    for (let i = 0; i < this.own; i++) sum += at(this.weights, i) * this.project(i);
    return sum;
  }

  varianceOf(state: number): number {
    return at(this.covariance, state * (this.own + 1));
  }

  /**
   * Keeps the number of this moment in a place, so that what is seen later still corrects it (fixed-point smoother):
   * the states have moved on, but what they shared with it is not forgotten.
   *
   * @param place 0 to `places` - 1; what was kept there before is lost
   */
  remember(place: number): void {
    const { own } = this;
    const kept = own + place;
    let variance = 0;
    for (let j = 0; j < own; j++) variance += at(this.weights, j) * (this.gain[j] = this.project(j));
    this.state[kept] = this.expected;
    for (let j = 0; j < own; j++) this.covariance[kept * own + j] = at(this.gain, j);
    this.keptVar[place] = variance;
  }

  /** What is now thought of a number kept by `remember`, and its variance. */
  remembered(place: number): { readonly value: number; readonly variance: number } {
    return { value: at(this.state, this.own + place), variance: at(this.keptVar, place) };
  }

  /** A state forgets all but a share of itself, and grows uncertain by a variance. */
  fade(state: number, keep: number, addedVar: number): void {
    const { own, covariance } = this;
    this.state[state] = at(this.state, state) * keep;
    for (let j = 0; j < own; j++) covariance[state * own + j] = at(covariance, state * own + j) * keep;
    for (let i = state; i < covariance.length; i += own) covariance[i] = at(covariance, i) * keep;
    this.loosen(state, addedVar);
  }

  loosen(state: number, addedVar: number): void {
    const own = state * (this.own + 1);
    this.covariance[own] = at(this.covariance, own) + addedVar;
  }

  /**
   * @param difference what was seen minus `expected`
   * @param noiseVar   variance of seeing it; above 0
   * @param leastVar   least that `variance` and noise together count for: more makes an outlier weigh less
   */
  update(difference: number, noiseVar: number, leastVar = 0): void {
    const { own, state, covariance, gain, keptVar } = this;
    let variance = 0;
    for (let i = 0; i < state.length; i++) gain[i] = this.project(i);
    for (let i = 0; i < own; i++) variance += at(this.weights, i) * at(gain, i);
    const totalVar = Math.max(variance + noiseVar, leastVar);
    for (let i = 0; i < state.length; i++) {
      const share = at(gain, i) / totalVar;
      state[i] = at(state, i) + share * difference;
      for (let j = 0; j < own; j++)
        covariance[i * own + j] = at(covariance, i * own + j) - share * at(gain, j);
      if (i >= own) keptVar[i - own] = at(keptVar, i - own) - share * at(gain, i);
    }
  }

  private project(i: number): number {
    const { own, covariance, weights } = this;
    let sum = 0;
    for (let j = 0; j < own; j++) sum += at(covariance, i * own + j) * at(weights, j);
    return sum;
  }
}
