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
  /** What each state adds to the number now; all 1 at the start. */
  readonly weights: Float64Array;
  private readonly state: Float64Array;
  private readonly covariance: Float64Array;
  private readonly gain: Float64Array;
  private readonly n: number;
  private readonly own: number;

  /**
   * @param priorSd standard error of each state before anything was seen; all states start at 0
   * @param places  how many past numbers can be remembered (see `remember`)
   */
  constructor(priorSd: ArrayLike<number>, places = 0) {
    this.own = priorSd.length;
    this.n = this.own + places;
    this.weights = new Float64Array(this.n).fill(1, 0, this.own);
    this.state = new Float64Array(this.n);
    this.gain = new Float64Array(this.n);
    this.covariance = new Float64Array(this.n * this.n);
    // What is learnt of places starts at nothing known to differ.
    for (let i = 0; i < this.own; i++) this.covariance[i * (this.n + 1)] = item(priorSd, i) ** 2;
  }

  copyFrom(other: Kalman): void {
    this.weights.set(other.weights);
    this.state.set(other.state);
    this.covariance.set(other.covariance);
  }

  get expected(): number {
    let sum = 0;
    for (let i = 0; i < this.n; i++) sum += at(this.weights, i) * at(this.state, i);
    return sum;
  }

  /** Variance of the expected number, without the noise of seeing it. */
  get variance(): number {
    let sum = 0;
    for (let i = 0; i < this.n; i++) sum += at(this.weights, i) * this.project(i);
    return sum;
  }

  varianceOf(state: number): number {
    return at(this.covariance, state * (this.n + 1));
  }

  /**
   * Keeps the number of this moment in a place, so that what is seen later still corrects it (fixed-point smoother):
   * the states have moved on, but what they shared with it is not forgotten.
   *
   * @param place 0 to `places` - 1; what was kept there before is lost
   */
  remember(place: number): void {
    const { n } = this;
    const kept = this.own + place;
    let variance = 0;
    for (let j = 0; j < n; j++) variance += at(this.weights, j) * (this.gain[j] = this.project(j));
    this.state[kept] = this.expected;
    // Its row alone: what is kept weighs nothing now, so that nothing asks what the others share with it.
    for (let j = 0; j < n; j++) this.covariance[kept * n + j] = at(this.gain, j);
    this.covariance[kept * (n + 1)] = variance;
  }

  /** What is now thought of a number kept by `remember`, and its variance. */
  remembered(place: number): { readonly value: number; readonly variance: number } {
    const kept = this.own + place;
    return { value: at(this.state, kept), variance: this.varianceOf(kept) };
  }

  /** A state forgets all but a share of itself, and grows uncertain by a variance. */
  fade(state: number, keep: number, addedVar: number): void {
    const { n } = this;
    this.state[state] = at(this.state, state) * keep;
    for (let j = 0; j < n; j++) {
      this.covariance[state * n + j] = at(this.covariance, state * n + j) * keep;
      this.covariance[j * n + state] = at(this.covariance, j * n + state) * keep;
    }
    this.loosen(state, addedVar);
  }

  loosen(state: number, addedVar: number): void {
    const own = state * (this.n + 1);
    this.covariance[own] = at(this.covariance, own) + addedVar;
  }

  /**
   * @param difference what was seen minus `expected`
   * @param noiseVar   variance of seeing it; above 0
   * @param leastVar   least that `variance` and noise together count for: more makes an outlier weigh less
   */
  update(difference: number, noiseVar: number, leastVar = 0): void {
    const { n } = this;
    let variance = 0;
    for (let i = 0; i < n; i++) variance += at(this.weights, i) * (this.gain[i] = this.project(i));
    const totalVar = Math.max(variance + noiseVar, leastVar);
    for (let i = 0; i < n; i++) {
      const share = at(this.gain, i) / totalVar;
      this.state[i] = at(this.state, i) + share * difference;
      for (let j = 0; j < n; j++)
        this.covariance[i * n + j] = at(this.covariance, i * n + j) - share * at(this.gain, j);
    }
  }

  private project(i: number): number {
    let sum = 0;
    for (let j = 0; j < this.n; j++) sum += at(this.covariance, i * this.n + j) * at(this.weights, j);
    return sum;
  }
}
