import { Kalman } from '../kalman.ts';
import { Misfit } from '../misfit.ts';
import { DOUBTED_Z2 } from '../lastDoubt.ts';

/**
 * States: site bias, its annual wave (two), two air responses, slow and fast weather misfit, error of forcing,
 * hour of the readings (as a share of the day's own step), air response of the layered lake, and how much stronger or
 * weaker than the free run the lake follows a spell: all year, by season (two), and on the way down.
 */
const BIAS = 0;
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

/**
 * Kalman filter on the difference between readings and the free run. It learns what is lasting at a site,
 * what comes with the season and with the air, and lets the rest fade as fast as the lake itself forgets.
 */
export class MisfitFilter extends Misfit {
  private readonly fastGain: number;

  /**
   * @param fastGainDays spread of the fast misfit per relaxation rate, K d: thin layers are moved more by a day
   * @param places       past days whose misfit is kept and corrected by what comes later
   */
  constructor(fastGainDays: number, places: number) {
    super(new Kalman(PRIOR_SD, places), FORCING);
    this.fastGain = fastGainDays;
  }

  copyFrom(other: MisfitFilter): void {
    this.kalman.copyFrom(other.kalman);
  }

  /** What today's weather makes of the states, in the order of the free run's features. */
  observe(day: MisfitDay): void {
    const { weights } = this.kalman;
    weights[1] = day.cosYear;
    weights[2] = day.sinYear;
    weights[3] = day.airSwingC;
    weights[4] = day.airJumpC;
    weights[8] = day.stepC;
    weights[9] = day.layeredJumpC;
    weights[10] = day.spellC;
    weights[11] = day.spellCosC;
    weights[12] = day.spellSinC;
    weights[13] = day.coldSpellC;
  }

  /**
   * One day passes.
   *
   * @param ratePerDay relaxation rate of the free run, 1/d
   * @param forcingVar variance that missing or forecast weather adds this day, K2
   */
  advance(ratePerDay: number, forcingVar: number): void {
    const slowKeep = Math.exp(-Math.min(1 / 3, Math.max(1 / 120, 0.8 * ratePerDay)));
    const fastVar = FAST_SD ** 2 + (this.fastGain * ratePerDay) ** 2;
    this.kalman.fade(SLOW, slowKeep, SLOW_SD ** 2 * (1 - slowKeep ** 2));
    this.kalman.fade(FAST, FAST_KEEP, fastVar * (1 - FAST_KEEP ** 2));
    this.kalman.fade(FORCING, Math.max(0, 1 - ratePerDay), forcingVar);
    this.kalman.loosen(BIAS, BIAS_DRIFT_VAR);
  }

  /** The free run starts anew: what the site taught stays, the day's misfit is forgotten. */
  restart(startVar: number): void {
    this.kalman.fade(SLOW, 0, SLOW_SD ** 2);
    this.kalman.fade(FAST, 0, FAST_SD ** 2);
    this.kalman.fade(FORCING, 0, startVar);
  }

  /**
   * Takes a reading in; one that is far off counts for less.
   *
   * @param noiseVar error variance of the thermometer, K2
   */
  assimilate(misfitC: number, noiseVar: number): void {
    const differenceC = misfitC - this.misfitC;
    this.kalman.update(differenceC, SITE_VAR + noiseVar, differenceC ** 2 / DOUBTED_Z2);
  }
}
