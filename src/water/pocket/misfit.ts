/** State of the filter: a lasting and a fading part, then one number a doubt, in units of its 80 % bound. */
const LASTING = 0;
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
  private readonly x: number[];
  private readonly p: number[][];
  private readonly fadingVarK2: number;

  /**
   * @param lastingVarK2 variance of the lasting part before any reading, K2
   * @param fadingVarK2  variance of the fading part before any reading, K2
   * @param doubts       how many doubts there are
   * @param doubtVar     variance of each doubt before any reading, in units of its 80 % bound squared
   */
  constructor(lastingVarK2: number, fadingVarK2: number, doubts: number, doubtVar: number) {
    const prior = [lastingVarK2, fadingVarK2, ...new Array<number>(doubts).fill(doubtVar)];
    this.x = prior.map(() => 0);
    this.p = prior.map((variance, i) => prior.map((_, j) => (i === j ? variance : 0)));
    this.fadingVarK2 = fadingVarK2;
  }

  /** Time passes; `keep` is the share of a misfit that is left after it, 0 to 1. */
  fade(keep: number): void {
    this.x[FADING] = keep * (this.x[FADING] ?? 0);
    for (const [i, row] of this.p.entries()) {
      row[FADING] = keep * (row[FADING] ?? 0);
      if (i === FADING) for (const j of row.keys()) row[j] = keep * (row[j] ?? 0);
    }
    const own = this.p[FADING];
    if (own) own[FADING] = (own[FADING] ?? 0) + (1 - keep * keep) * this.fadingVarK2;
  }

  /** @param effectK what each doubt at its upper bound adds where and when it is asked, K */
  expect(effectK: readonly number[]): Expectation {
    const h = observed(effectK);
    return { misfitC: dot(h, this.x), varK2: dot(h, this.project(h)) };
  }

  /** Takes in a misfit that was `differenceC` away from the expected one, with noise of that variance. */
  assimilate(effectK: readonly number[], differenceC: number, noiseVarK2: number): void {
    const h = observed(effectK);
    const covariance = this.project(h);
    const total = dot(h, covariance) + noiseVarK2;
    for (const [i, row] of this.p.entries()) {
      const share = (covariance[i] ?? 0) / total;
      this.x[i] = (this.x[i] ?? 0) + share * differenceC;
      for (const j of row.keys()) row[j] = (row[j] ?? 0) - share * (covariance[j] ?? 0);
    }
  }

  private project(h: readonly number[]): number[] {
    return this.p.map((row) => dot(row, h));
  }
}

/** Weight of each state in a temperature: the two parts count whole, a doubt by what it does there and then. */
function observed(effectK: readonly number[]): number[] {
  const h = new Array<number>(FIRST_DOUBT + effectK.length).fill(1);
  h[LASTING] = 1;
  for (const [k, effect] of effectK.entries()) h[FIRST_DOUBT + k] = effect;
  return h;
}

function dot(a: readonly number[], b: readonly number[]): number {
  let sum = 0;
  for (const [i, value] of a.entries()) sum += value * (b[i] ?? 0);
  return sum;
}
