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
/** An eager scale follows its first readings this much, and half as much after so many. */
const EAGER_FOLLOW = 0.5;
const EAGER_READINGS = 8;
const LEAST_SCALE = 0.15;
const MOST_SCALE = 4;

/**
 * What a variance is multiplied by so that 80 % of the readings fall into the 80 % interval: one outside widens it four
 * times as much as one inside narrows it. An eager one lets the first readings say most, for waters that differ among
 * themselves by more than any start could know.
 */
export class IntervalScale {
  private readings = 0;

  constructor(
    private scale: number,
    private readonly eager = false,
  ) {}

  get value(): number {
    return this.scale;
  }

  copyFrom(other: IntervalScale): void {
    this.scale = other.scale;
    this.readings = other.readings;
  }

  learn(outside: boolean): void {
    const follow = this.eager
      ? Math.max(FOLLOW, EAGER_FOLLOW / (1 + this.readings / EAGER_READINGS))
      : FOLLOW;
    this.readings++;
    const step = Math.exp(follow * ((outside ? 1 : 0) - OUTSIDE));
    this.scale = Math.min(MOST_SCALE, Math.max(LEAST_SCALE, this.scale * step));
  }
}
