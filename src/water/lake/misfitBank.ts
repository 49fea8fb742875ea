import { Z80 } from '../../science/index.ts';
import { FOLLOW, IntervalScale, MEMORY, weigh } from '../members.ts';
import { at } from '../series.ts';
import { MisfitFilter, SITE_VAR, type MisfitDay } from './misfitFilter.ts';

/** A quiet open-water thermometer and a restless shore one, K d. */
const FAST_GAINS_DAYS = [1, 6] as const;
/** No single reading decides by more than this, squared standard deviations. */
const MOST_Z2 = 9;
/** Scale of the interval before a reading has told. */
const START_SCALE = 0.9;
/**
 * What readings tell of the scatter holds for as far ahead as they come one after the other; beyond that it is worth
 * less with every day, because a thermometer read each day shows how it jumps from day to day and not how the lake strays.
 */
const SCALE_FADE_DAYS = 6;
/** Scale far from any reading, set by four lakes and judged by four others (`bench/lake-gap.ts`). */
const FAR_SCALE = 0.8;
/** How fast the usual gap between readings follows them. */
const GAP_KEEP = 0.9;

/**
 * Two misfit filters that differ in how restless they think the site is, weighed by how well each foresaw the
 * readings, and one scale that keeps 80 % of the readings inside the 80 % interval.
 */
export class MisfitBank {
  private readonly filters: readonly MisfitFilter[];
  private readonly support = new Float64Array(FAST_GAINS_DAYS.length);
  private readonly weights = new Float64Array(FAST_GAINS_DAYS.length).fill(1 / FAST_GAINS_DAYS.length);
  /** General level of each filter's squared misses, so that only their pattern decides between them. */
  private readonly levels = new Float64Array(FAST_GAINS_DAYS.length).fill(1);
  private readonly scale = new IntervalScale(START_SCALE);
  /** Days between readings that counted, as they came lately. */
  private usualGapDays = 1;

  /** @param places past days whose misfit is kept and corrected by what comes later */
  constructor(places = 0) {
    this.filters = FAST_GAINS_DAYS.map((gain) => new MisfitFilter(gain, places));
  }

  copyFrom(other: MisfitBank): void {
    this.filters.forEach((filter, i) => {
      const twin = other.filters[i];
      if (twin !== undefined) filter.copyFrom(twin);
    });
    this.support.set(other.support);
    this.weights.set(other.weights);
    this.levels.set(other.levels);
    this.scale.copyFrom(other.scale);
    this.usualGapDays = other.usualGapDays;
  }

  observe(day: MisfitDay): void {
    for (const filter of this.filters) filter.observe(day);
  }

  advance(ratePerDay: number, forcingVar: number): void {
    for (const filter of this.filters) filter.advance(ratePerDay, forcingVar);
  }

  restart(startVar: number): void {
    for (const filter of this.filters) filter.restart(startVar);
  }

  remember(place: number): void {
    for (const filter of this.filters) filter.remember(place);
  }

  /** Misfit of a kept day as it is thought of now, K, and the half-width of its 80 % interval. */
  remembered(place: number): { readonly misfitC: number; readonly halfC: number } {
    const misfitC = this.mean((filter) => filter.remembered(place).value);
    const variance = this.mean((filter) => {
      const kept = filter.remembered(place);
      return kept.variance + (kept.value - misfitC) ** 2;
    });
    return { misfitC, halfC: Z80 * Math.sqrt(this.scale.value * Math.max(0, variance) + SITE_VAR) };
  }

  get misfitC(): number {
    return this.mean((filter) => filter.misfitC);
  }

  /** Variance that a start, bridged days or a forecast have left, K2. */
  get forcingVar(): number {
    return this.mean((filter) => filter.forcingVar);
  }

  /**
   * Half-width of the 80 % interval of a reading with this error variance, K.
   *
   * @param ageDays days since the last reading that counted
   */
  halfWidthC(noiseVar: number, ageDays: number): number {
    // What a start, a gap or a forecast adds is not the site's own restlessness, so the scale leaves it alone.
    const forced = this.forcingVar;
    const own = Math.max(0, this.misfitVar - forced);
    return Z80 * Math.sqrt(this.scaleAt(ageDays) * own + forced + SITE_VAR + noiseVar);
  }

  /** How far a reading's misfit is from what is expected: K, and its square over the expected variance. */
  expect(misfitC: number, noiseVar: number): { differenceC: number; z2: number } {
    const differenceC = misfitC - this.misfitC;
    return { differenceC, z2: differenceC ** 2 / (this.misfitVar + SITE_VAR + noiseVar) };
  }

  private scaleAt(ageDays: number): number {
    const beyond = Math.max(0, ageDays - this.usualGapDays);
    return FAR_SCALE + (this.scale.value - FAR_SCALE) * Math.exp(-beyond / SCALE_FADE_DAYS);
  }

  /**
   * @param intervalFactor what the printed interval of the day is multiplied by
   * @param sinceLastDays  days since the reading before that counted; infinite for the first one
   */
  assimilate(misfitC: number, noiseVar: number, intervalFactor: number, sinceLastDays: number): void {
    if (Number.isFinite(sinceLastDays))
      this.usualGapDays = GAP_KEEP * this.usualGapDays + (1 - GAP_KEEP) * sinceLastDays;
    const half = this.halfWidthC(noiseVar, Math.min(sinceLastDays, this.usualGapDays));
    this.scale.learn(Math.abs(misfitC - this.misfitC) > intervalFactor * half);
    this.filters.forEach((filter, i) => {
      const own = filter.misfitVar;
      const variance = at(this.levels, i) * own + SITE_VAR + noiseVar;
      const miss2 = (misfitC - filter.misfitC) ** 2;
      this.support[i] =
        MEMORY * at(this.support, i) - (Math.min(MOST_Z2, miss2 / variance) + Math.log(variance)) / 2;
      filter.assimilate(misfitC, noiseVar);
      const level = at(this.levels, i);
      this.levels[i] = Math.min(
        3,
        Math.max(0.3, level + FOLLOW * (Math.min(miss2 / (own + SITE_VAR + noiseVar), MOST_Z2) - level)),
      );
    });
    weigh(this.support, this.weights);
  }

  private get misfitVar(): number {
    const mean = this.misfitC;
    return this.mean((filter) => filter.misfitVar + (filter.misfitC - mean) ** 2);
  }

  private mean(of: (filter: MisfitFilter) => number): number {
    let sum = 0;
    let i = 0;
    for (const filter of this.filters) sum += at(this.weights, i++) * of(filter);
    return sum;
  }
}
