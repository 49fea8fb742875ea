/** What a group of filters shares that foresee the same readings: weights by record, and the scale of the interval. */

/**
 * Weights of the members from the logarithm of their support; they sum to 1.
 *
 * @param support logarithm of each member's support, at least one member
 * @param weights written to, as long as `support`
 */
export function weigh(support: Float64Array, weights: Float64Array): void {
  const best = Math.max(...support);
  let total = 0;
  support.forEach((value, i) => (total += weights[i] = Math.exp(value - best)));
  weights.forEach((value, i) => (weights[i] = value / total));
}

/** What a member's record still counts for at the next reading. */
export const MEMORY = 0.98;

/** Share of readings that may fall outside an 80 % interval. */
const OUTSIDE = 0.2;
/** How fast what is learnt of the scatter follows the readings. */
export const FOLLOW = 0.05;
const LEAST = 0.15;
const MOST = 4;

/**
 * What a variance is multiplied by so that 80 % of the readings fall into the 80 % interval: one outside widens it four
 * times as much as one inside narrows it.
 */
export class IntervalScale {
  constructor(private scale: number) {}

  get value(): number {
    return this.scale;
  }

  copyFrom(other: IntervalScale): void {
    this.scale = other.scale;
  }

  learn(outside: boolean): void {
    const step = Math.exp(FOLLOW * ((outside ? 1 : 0) - OUTSIDE));
    this.scale = Math.min(MOST, Math.max(LEAST, this.scale * step));
  }
}
