import { Z80 } from '../../science/index.ts';
import { IntervalScale, MEMORY, weigh } from '../members.ts';
import { at } from '../series.ts';
import type { RiverFreeRun } from './freeRun.ts';
import { LIKE_SD, RiverMisfit, UNLIKE_SD } from './misfitFilter.ts';

/** Share of the belief in a free run that takes the river to be like the one it was fitted to. */
const LIKE_SHARE = 0.9;
/** No single reading decides by more than this, squared standard deviations. */
const MOST_Z2 = 16;
/** A filter believed less than this is not worth asking. */
const NEGLIGIBLE = 1e-9;
/** Variance a perfect reading has about the day's mean of the reach, K2. */
const REACH_VAR = 0.1 ** 2;

interface Member {
  readonly run: RiverFreeRun;
  readonly filter: RiverMisfit;
}

/**
 * Free runs that may suit the river, each with a filter for a river like it and one for a river unlike it, weighed
 * by how well each foresaw the readings, and one scale that keeps 80 % of the readings inside the 80 % interval.
 */
export class RiverBelief {
  private readonly members: readonly Member[];
  private readonly support: Float64Array;
  private readonly weights: Float64Array;
  private readonly scale = new IntervalScale(1, true);
  private day = 0;

  /**
   * @param runs   free runs and how far each is believed, above 0; at least one
   * @param places past days that are kept and corrected by what comes later
   */
  constructor(
    runs: readonly { readonly run: RiverFreeRun; readonly belief: number }[],
    private readonly features: Float64Array,
    places = 0,
  ) {
    this.members = runs.flatMap(({ run }) =>
      [LIKE_SD, UNLIKE_SD].map((sd) => ({ run, filter: new RiverMisfit(sd, places) })),
    );
    this.support = Float64Array.from(
      runs.flatMap(({ belief }) => [Math.log(belief * LIKE_SHARE), Math.log(belief * (1 - LIKE_SHARE))]),
    );
    this.weights = new Float64Array(this.support.length);
    weigh(this.support, this.weights);
  }

  copyFrom(other: RiverBelief): void {
    this.members.forEach(({ filter }, i) => {
      const twin = other.members[i];
      if (twin !== undefined && at(other.weights, i) > NEGLIGIBLE) filter.copyFrom(twin.filter);
    });
    this.support.set(other.support);
    this.weights.set(other.weights);
    this.scale.copyFrom(other.scale);
    this.day = other.day;
  }

  advance(j: number, started: boolean): void {
    this.day = j;
    for (const { run, filter } of this.members) {
      if (started) filter.restart(at(run.forcingVar, j));
      else filter.advance(at(run.keep, j), at(run.forcingVar, j));
      filter.observe(this.features, j);
    }
  }

  /** What weather and flow alone give, by what is believed now, degC. */
  get freeC(): number {
    return this.mean(({ run }) => at(run.freeC, this.day));
  }

  get waterC(): number {
    return this.mean((member) => this.estimateC(member));
  }

  /** Half-width of the 80 % interval of a reading with this error variance, K. */
  halfWidthC(noiseVar: number): number {
    // What a start, a gap or a forecast adds is not the site's own restlessness, so the scale leaves it alone.
    const forced = this.mean(({ filter }) => filter.forcingVar);
    const own = Math.max(0, this.variance - forced);
    return Z80 * Math.sqrt(this.scale.value * own + forced + REACH_VAR + noiseVar);
  }

  /** How far a reading is from what is expected: K, and its square over the expected variance. */
  expect(waterC: number, noiseVar: number): { differenceC: number; z2: number } {
    const differenceC = waterC - this.waterC;
    return { differenceC, z2: differenceC ** 2 / (this.variance + REACH_VAR + noiseVar) };
  }

  loosen(variance: number): void {
    for (const { filter } of this.members) filter.loosen(variance);
  }

  assimilate(waterC: number, noiseVar: number): void {
    this.scale.learn(Math.abs(waterC - this.waterC) > this.halfWidthC(noiseVar));
    this.members.forEach(({ run, filter }, i) => {
      const misfitC = waterC - at(run.freeC, this.day);
      const variance = filter.misfitVar + REACH_VAR + noiseVar;
      const z2 = (misfitC - filter.misfitC) ** 2 / variance;
      this.support[i] = MEMORY * at(this.support, i) - (Math.min(MOST_Z2, z2) + Math.log(variance)) / 2;
      filter.assimilate(misfitC, REACH_VAR + noiseVar);
    });
    weigh(this.support, this.weights);
  }

  remember(place: number): void {
    for (const { filter } of this.members) filter.remember(place);
  }

  /** Day `j`, kept in a place, as it is thought of now: degC, and the half-width of its 80 % interval, K. */
  remembered(place: number, j: number): { readonly waterC: number; readonly halfC: number } {
    const estimateC = ({ run, filter }: Member): number =>
      Math.max(0, at(run.freeC, j) + filter.remembered(place).value);
    const waterC = this.mean(estimateC);
    const variance = this.mean(
      (member) => member.filter.remembered(place).variance + (estimateC(member) - waterC) ** 2,
    );
    return { waterC, halfC: Z80 * Math.sqrt(this.scale.value * Math.max(0, variance) + REACH_VAR) };
  }

  private estimateC({ run, filter }: Member): number {
    return Math.max(0, at(run.freeC, this.day) + filter.misfitC);
  }

  private get variance(): number {
    const mean = this.waterC;
    return this.mean((member) => member.filter.misfitVar + (this.estimateC(member) - mean) ** 2);
  }

  private mean(of: (member: Member) => number): number {
    let sum = 0;
    let i = 0;
    for (const member of this.members) {
      const weight = at(this.weights, i++);
      if (weight > NEGLIGIBLE) sum += weight * of(member);
    }
    return sum;
  }
}
