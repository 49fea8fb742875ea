import { at } from '../series.ts';
import type { AirWave } from './airClimate.ts';
import { ExchangePair } from './exchange.ts';
import { prepareForcing, USUAL_DRYNESS_C, type Forcing } from './forcing.ts';
import { SurfaceBalance } from './surfaceBalance.ts';
import type { LakeSite, WeatherDay } from './types.ts';

/** Days of average weather that bring both models to the season before a record starts. */
const SPIN_UP_DAYS = 730;
/** Standard error of the start, K, before any of the lake's own weather has worked on it. */
const START_SD_C = 3;
/** Standard error of a bridged day's air temperature, K. */
const BRIDGED_AIR_SD_C = 3;
const AIR_JUMP_SHARE = 0.12;
/** Difference to the deep water at which the surface layer counts as fully layered, K. */
const LAYERED_C = 6;
/** Below this the water's answer to the air fades: ice comes between them, degC. */
const OPEN_WATER_C = 3;
/** Days a spell of warming or cooling counts as one. */
const SPELL_KEEP = Math.exp(-1 / 15);
/** What the layered model counts for beside the other at rest, what it gains while the lake cools, and from when, K. */
const LAYERED_SHARE = { atRest: 0.5, cooling: 0.25, fullyC: 1.5 };

/** The lake as weather alone makes it, day by day. */
export interface FreeRun {
  readonly forcing: Forcing;
  readonly freeC: Float64Array;
  readonly ratePerDay: Float64Array;
  /** Response to an error of one day's air temperature, K/K. */
  readonly airGain: Float64Array;
  /** Variance that a start or a bridged day adds, K2. */
  readonly forcingVar: Float64Array;
  /** Variance of what holds the lake down in dry air, once it has lasted, K2. */
  readonly dryVar: Float64Array;
  /** Surface minus deep water of the layered model, K. */
  readonly layeringC: Float64Array;
  /** Smoothed air temperature differences that the misfit filter learns from, K. */
  readonly airSwingC: Float64Array;
  readonly airJumpC: Float64Array;
  /** The same jump where the lake is layered, and the day's own step of the free run, K. */
  readonly layeredJumpC: Float64Array;
  readonly stepC: Float64Array;
  /** Change of the free run over the spell so far, K: all of it, by season (cosine, sine), and its cooling days only. */
  readonly spellC: Float64Array;
  readonly spellCosC: Float64Array;
  readonly spellSinC: Float64Array;
  readonly coldSpellC: Float64Array;
}

/**
 * Water above what the models say, K per K of the year's mean air beyond a start, up to a most: a lake and a large
 * river near 30 N, each foreseen by the other (`bench/south.ts`).
 */
const WARM_CLIMATE = { fromC: 14, perC: 0.13, mostC: 8 };
/** What a lasting K of dew-point depression takes off, K: the models' own answer to a day's, at rest. */
const DRY_CLIMATE = 0.17;

/**
 * Standard error of the heat balance where it bounds the models, K: of itself (its wind functions and skies lie as far
 * apart over a desert), of each K it takes off, and of a dew point that is a guess.
 */
const BALANCE_SD = { ownC: 1.5, perC: 0.25, guessedC: 2.5 };

const EMA = (days: number): number => 1 - Math.exp(-1 / days);
const [EMA2, EMA3, EMA20] = [EMA(2), EMA(3), EMA(20)];

/**
 * Runs the lake on weather alone, day by day, without calibration.
 *
 * @param weather any order, gaps allowed
 * @returns arrays by day from the first day with air; days of a gap too long to bridge hold 0
 * @throws RangeError on a malformed date or one that comes twice
 */
export function runFree(site: LakeSite, weather: readonly WeatherDay[]): FreeRun {
  const forcing = prepareForcing(site, weather);
  const { count, airC, sun, dryness, windExcess } = forcing;
  const floats = (): Float64Array => new Float64Array(count);
  const run = {
    forcing,
    freeC: floats(),
    ratePerDay: floats(),
    airGain: floats(),
    forcingVar: floats(),
    dryVar: floats(),
    layeringC: floats(),
    airSwingC: floats(),
    airJumpC: floats(),
    layeredJumpC: floats(),
    stepC: floats(),
    spellC: floats(),
    spellCosC: floats(),
    spellSinC: floats(),
    coldSpellC: floats(),
  };
  let lake = new ExchangePair(site, 5);
  let balance = new SurfaceBalance(lake.warmLayer, 5);
  const shelteredC = shelteredShiftC(site);
  const calm = calmShare(site.areaKm2);
  let e2 = 0;
  let e3 = 0;
  let e20 = 0;
  let lately = 0;
  for (let j = 0; j < count; j++) {
    if (forcing.dead[j] === 1) continue;
    const start = forcing.starts.get(j);
    const air = at(airC, j);
    if (start !== undefined) {
      lake = spunUp(site, forcing, j, start);
      e2 = e3 = air;
      e20 = start.meanC + start.cosC * at(forcing.cosYear, j) + start.sinC * at(forcing.sinYear, j);
      lately = lake.meanC;
      balance = new SurfaceBalance(lake.warmLayer, lake.meanC);
      run.forcingVar[j] = START_SD_C ** 2;
    } else {
      lake.step({
        airC: (at(airC, j - 1) + air) / 2,
        sun: (at(sun, j - 1) + at(sun, j)) / 2,
        dryness: (at(dryness, j - 1) + at(dryness, j)) / 2,
        windExcess: (at(windExcess, j - 1) + at(windExcess, j)) / 2,
      });
      e2 += EMA2 * (air - e2);
      e3 += EMA3 * (air - e3);
      e20 += EMA20 * (air - e20);
      if (forcing.bridged[j] === 1) run.forcingVar[j] = (BRIDGED_AIR_SD_C * lake.airGain) ** 2;
    }
    balance.step({
      airC: air,
      dewC: at(forcing.dewC, j),
      sunWm2: at(forcing.drySunWm2, j),
      windMs: at(forcing.windMs, j),
      windExcess: at(windExcess, j),
    });
    lately += EMA20 * (lake.meanC - lately);
    const shiftC =
      shelteredC + calm * warmShiftC(at(forcing.climateC, j)) + dryShiftC(at(forcing.usualDrynessC, j));
    const fittedC = blendC(lake, lately) + shiftC;
    const share = at(forcing.boundShare, j);
    const offC = share * Math.max(0, lake.warmthC + shiftC - balance.waterC);
    run.freeC[j] = Math.max(0, fittedC - offC + AIR_JUMP_SHARE * (air - e3));
    run.ratePerDay[j] = lake.ratePerDay;
    const { ownC, perC, guessedC } = BALANCE_SD;
    run.dryVar[j] =
      (share * ownC) ** 2 + (perC * offC) ** 2 + (share * guessedC * at(forcing.guessedShare, j)) ** 2;
    // The filter forgets at the lake's rate: so much a day keeps it at the whole.
    run.forcingVar[j] =
      at(run.forcingVar, j) + at(run.dryVar, j) * (1 - (1 - Math.min(1, lake.ratePerDay)) ** 2);
    run.airGain[j] = lake.airGain;
    run.layeringC[j] = Math.max(0, lake.surfaceC - lake.deepC);
    const open = Math.min(1, lake.meanC / OPEN_WATER_C);
    run.airSwingC[j] = open * (e2 - e20);
    run.airJumpC[j] = open * (air - e3);
    run.layeredJumpC[j] = Math.min(1, at(run.layeringC, j) / LAYERED_C) * (air - e3);
    if (start === undefined) followSpell(run, j);
  }
  return run;
}

/**
 * Mean of the two models. While the lake cools the layered one counts for more: heat stored below comes up, which the
 * other does not know, and both ran cold in autumn without it.
 */
function blendC(lake: ExchangePair, latelyC: number): number {
  const cooling = Math.min(1, Math.max(0, (latelyC - lake.meanC) / LAYERED_SHARE.fullyC));
  const layered = LAYERED_SHARE.atRest + LAYERED_SHARE.cooling * cooling;
  return (1 - layered) * lake.warmthC + layered * lake.surfaceC;
}

function followSpell(run: FreeRun, j: number): void {
  const stepC = at(run.freeC, j) - at(run.freeC, j - 1);
  const carry = (spell: Float64Array, addC: number): void => {
    spell[j] = SPELL_KEEP * at(spell, j - 1) + addC;
  };
  run.stepC[j] = stepC;
  carry(run.spellC, stepC);
  carry(run.spellCosC, stepC * at(run.forcing.cosYear, j));
  carry(run.spellSinC, stepC * at(run.forcing.sinYear, j));
  carry(run.coldSpellC, Math.min(0, stepC));
}

/**
 * Small sheltered lakes south of 42 degrees were found 0 to 1.6 K colder than these models; a third of the most is
 * taken off for the smallest and southernmost, the rest is left to readings.
 */
function shelteredShiftC(site: LakeSite): number {
  const south = Math.min(1, Math.max(0, (42 - Math.abs(site.latDeg)) / 5));
  const small = Math.min(1, Math.max(0, 1 - site.areaKm2));
  return -0.5 * south * small;
}

/** Wind over long open water carries off what a warm humid climate adds: all of it stays up to 5 km2, none at 500. */
function calmShare(areaKm2: number): number {
  return Math.min(1, Math.max(0, 1 - Math.log10(areaKm2 / 5) / 2));
}

/**
 * What a warm climate adds to lakes that lie outside that of the fitted ones: where the year is warm and humid the sky
 * sends more heat back and the air takes less up, so water stands further above the air than the fitted models say.
 */
function warmShiftC(meanAirC: number): number {
  return WARM_CLIMATE.perC * Math.min(WARM_CLIMATE.mostC, Math.max(0, meanAirC - WARM_CLIMATE.fromC));
}

/** What lasting dryness takes off, by what a day's was fitted to do: the models know only how a day differs. */
function dryShiftC(drynessC: number): number {
  return -DRY_CLIMATE * (drynessC - USUAL_DRYNESS_C);
}

/** A lake that has lived through two years of the average weather known on the first day. */
function spunUp(site: LakeSite, forcing: Forcing, start: number, wave: AirWave): ExchangePair {
  const lake = new ExchangePair(site, Math.max(4, wave.meanC));
  const phase = Math.atan2(at(forcing.sinYear, start), at(forcing.cosYear, start));
  for (let back = SPIN_UP_DAYS; back > 0; back--) {
    const w = phase - (2 * Math.PI * back) / 365.25;
    const [cos, sin] = [Math.cos(w), Math.sin(w)];
    const { mean, cos: sunCos, sin: sunSin } = forcing.sunWave;
    lake.step({
      airC: wave.meanC + wave.cosC * cos + wave.sinC * sin,
      sun: mean + sunCos * cos + sunSin * sin,
      dryness: 0,
      windExcess: 0,
    });
  }
  return lake;
}
