import { Kalman } from '../kalman.ts';

/** States: a lasting part (0) and a fading one, then one number a doubt, in units of its 80 % bound. */
const FADING = 1;
const FIRST_DOUBT = 2;

/** What a reading was expected to say and how sure that was. */
export interface Expectation {
  readonly misfitC: number;
  /** Variance of the misfit, without the reading's own noise, K2. */
  readonly varK2: number;
}

/**
 * Kalman filter on the difference between the water of a pocket and its model run.
 *
 * The lasting part and the doubts belong to the pocket and stay; the fading part is forgotten as fast as the pocket
 * forgets, and grows uncertain again by as much, so that without readings its variance stays what it was.
 */
export class PocketMisfit {
  private readonly kalman: Kalman;
  private readonly fadingVarK2: number;

  /**
   * @param lastingVarK2 variance of the lasting part before any reading, K2
   * @param fadingVarK2  variance of the fading part before any reading, K2
   * @param doubts       how many doubts there are
   * @param doubtVar     variance of each doubt before any reading, in units of its 80 % bound squared
   */
  constructor(lastingVarK2: number, fadingVarK2: number, doubts: number, doubtVar: number) {
    const doubtSd = new Array<number>(doubts).fill(Math.sqrt(doubtVar));
    this.kalman = new Kalman([Math.sqrt(lastingVarK2), Math.sqrt(fadingVarK2), ...doubtSd]);
    this.fadingVarK2 = fadingVarK2;
  }

  /** Time passes; `keep` is the share of a misfit that is left after it, 0 to 1. */
  fade(keep: number): void {
    this.kalman.fade(FADING, keep, (1 - keep * keep) * this.fadingVarK2);
  }

  /** @param effectK what each doubt at its upper bound adds where and when it is asked, K */
  expect(effectK: readonly number[]): Expectation {
    this.kalman.weights.set(effectK, FIRST_DOUBT);
    return { misfitC: this.kalman.expected, varK2: this.kalman.variance };
  }

  /** Takes in a misfit that was `differenceC` away from the expected one, with noise of that variance. */
  assimilate(effectK: readonly number[], differenceC: number, noiseVarK2: number): void {
    this.kalman.weights.set(effectK, FIRST_DOUBT);
    this.kalman.update(differenceC, noiseVarK2);
  }
}
