import { at } from './series.ts';
/**
 * States: site bias, its annual wave (two), two air responses, slow and fast weather misfit, error of forcing,
 * hour of the readings (as a share of the day's own step), air response of the layered lake, and how much stronger or
 * weaker than the free run the lake follows a spell: all year, by season (two), and on the way down.
 */
const N = 14;
const SLOW = 5;
const FAST = 6;
const FORCING = 7;

const SLOW_SD = 0.84;
const FAST_SD = 0.08;
const PRIOR_SD = Float64Array.of(
  1,
  0.5,
  0.5,
  0.05,
  0.04,
  SLOW_SD,
  FAST_SD,
  0,
  0.3,
  0.1,
  0.15,
  0.15,
  0.15,
  0.2,
);
const BIAS_DRIFT_VAR = 0.009 ** 2;
const FAST_KEEP = Math.exp(-1 / 2);
/** Variance a perfect reading still has about the lake's daily mean at 1 m, K2. */
export const SITE_VAR = 0.08 ** 2 + 1e-4;
export const OUTLIER_Z2 = 25;

/** What the misfit of a day may depend on. */
export interface MisfitDay {
  readonly cosYear: number;
  readonly sinYear: number;
  readonly airSwingC: number;
  readonly airJumpC: number;
  readonly stepC: number;
  readonly layeredJumpC: number;
  readonly spellC: number;
  readonly spellCosC: number;
  readonly spellSinC: number;
  readonly coldSpellC: number;
}

/** What one reading did to the filter. */
export interface Innovation {
  /** Reading minus expectation, K, and its square over the expected variance. */
  readonly differenceC: number;
  readonly z2: number;
}

/**
 * Kalman filter on the difference between readings and the free run. It learns what is lasting at a site,
 * what comes with the season and with the air, and lets the rest fade as fast as the lake itself forgets.
 */
export class MisfitFilter {
  private readonly x = new Float64Array(N);
  private readonly p = new Float64Array(N * N);
  private readonly h = new Float64Array(N).fill(1);
  private readonly gain = new Float64Array(N);
  private readonly fastGain: number;

  /** @param fastGainDays spread of the fast misfit per relaxation rate, K d: thin layers are moved more by a day */
  constructor(fastGainDays: number) {
    this.fastGain = fastGainDays;
    for (let i = 0; i < N; i++) this.p[i * (N + 1)] = at(PRIOR_SD, i) ** 2;
  }

  copyFrom(other: MisfitFilter): void {
    this.x.set(other.x);
    this.p.set(other.p);
    this.h.set(other.h);
  }

  /** What today's weather makes of the states, in the order of the free run's features. */
  observe(day: MisfitDay): void {
    this.h[1] = day.cosYear;
    this.h[2] = day.sinYear;
    this.h[3] = day.airSwingC;
    this.h[4] = day.airJumpC;
    this.h[8] = day.stepC;
    this.h[9] = day.layeredJumpC;
    this.h[10] = day.spellC;
    this.h[11] = day.spellCosC;
    this.h[12] = day.spellSinC;
    this.h[13] = day.coldSpellC;
  }

  /**
   * One day passes.
   *
   * @param ratePerDay relaxation rate of the free run, 1/d
   * @param forcingVar variance that missing or forecast weather adds this day, K2
   */
  advance(ratePerDay: number, forcingVar: number): void {
    const slowKeep = Math.exp(-Math.min(1 / 3, Math.max(1 / 120, 0.8 * ratePerDay)));
    this.shrink(SLOW, slowKeep);
    this.shrink(FAST, FAST_KEEP);
    this.shrink(FORCING, Math.max(0, 1 - ratePerDay));
    this.p[SLOW * (N + 1)] = at(this.p, SLOW * (N + 1)) + SLOW_SD ** 2 * (1 - slowKeep ** 2);
    this.p[FAST * (N + 1)] =
      at(this.p, FAST * (N + 1)) + (FAST_SD ** 2 + (this.fastGain * ratePerDay) ** 2) * (1 - FAST_KEEP ** 2);
    this.p[FORCING * (N + 1)] = at(this.p, FORCING * (N + 1)) + forcingVar;
    this.p[0] = at(this.p, 0) + BIAS_DRIFT_VAR;
  }

  /** The free run starts anew: what the site taught stays, the day's misfit is forgotten. */
  restart(startVar: number): void {
    for (const i of [SLOW, FAST, FORCING]) {
      this.shrink(i, 0);
      this.x[i] = 0;
    }
    this.p[SLOW * (N + 1)] = SLOW_SD ** 2;
    this.p[FAST * (N + 1)] = FAST_SD ** 2;
    this.p[FORCING * (N + 1)] = startVar;
  }

  get misfitC(): number {
    let sum = 0;
    for (let i = 0; i < N; i++) sum += at(this.h, i) * at(this.x, i);
    return sum;
  }

  /** Variance of the misfit, K2, before the adaptive scale. */
  get misfitVar(): number {
    let sum = 0;
    for (let i = 0; i < N; i++) sum += at(this.h, i) * this.project(i);
    return sum;
  }

  get forcingVar(): number {
    return at(this.p, FORCING * (N + 1));
  }

  expect(misfitC: number, sdC: number): Innovation {
    const differenceC = misfitC - this.misfitC;
    return { differenceC, z2: differenceC ** 2 / (this.misfitVar + SITE_VAR + sdC * sdC) };
  }

  /** Takes a reading in; one that is far off counts for less. */
  assimilate(misfitC: number, sdC: number): Innovation {
    const spread = this.misfitVar;
    let noise = SITE_VAR + sdC * sdC;
    const innovation = this.expect(misfitC, sdC);
    const { differenceC, z2 } = innovation;
    if (z2 > OUTLIER_Z2) noise = Math.max(noise, differenceC ** 2 / OUTLIER_Z2 - spread);
    const total = spread + noise;
    for (let i = 0; i < N; i++) this.gain[i] = this.project(i);
    for (let i = 0; i < N; i++) {
      const share = at(this.gain, i) / total;
      this.x[i] = at(this.x, i) + share * differenceC;
      for (let j = 0; j < N; j++) this.p[i * N + j] = at(this.p, i * N + j) - share * at(this.gain, j);
    }
    return innovation;
  }

  private project(i: number): number {
    let sum = 0;
    for (let j = 0; j < N; j++) sum += at(this.p, i * N + j) * at(this.h, j);
    return sum;
  }

  private shrink(state: number, keep: number): void {
    this.x[state] = at(this.x, state) * keep;
    for (let j = 0; j < N; j++) {
      this.p[state * N + j] = at(this.p, state * N + j) * keep;
      this.p[j * N + state] = at(this.p, j * N + state) * keep;
    }
  }
}
