import { item } from '../../units/index.ts';
import { HOUR_MS } from '../../units/time/index.ts';
import { Z80 } from '../../science/index.ts';
import { DOUBTED_Z2, LastDoubt } from '../lastDoubt.ts';
import { impossible, type Refusal } from '../refusal.ts';
import { halfWidthsK } from './doubts.ts';
import { UPPER_SHARE } from './layers.ts';
import { PocketMisfit } from './misfit.ts';
import type { PocketError, PocketRun, PocketState } from './types.ts';

/**
 * Whose the variance is that no doubt explains: the pocket's (lasting), the spell's (fades as the pocket forgets), the
 * hour's and the spot's (tells nothing of any other). Judged, not fitted: no pocket was measured.
 */
const LASTING_SHARE = 0.4;
const FADING_SHARE = 0.4;
const HOUR_SHARE = 0.2;
/** Error of the place in the water column, as a share of the contrast between the layers. A stated guess. */
const COLUMN_SHARE = 0.25;
/** However wide the interval, a reading this far off is left out until another one agrees, K. */
const DOUBTED_K = 8;

/** A water temperature measured in the pocket. */
export interface PocketReading {
  /** Instant, epoch ms. */
  readonly atMs: number;
  readonly waterC: number;
  /** Depth of the thermometer, m. */
  readonly depthM: number;
  /** Standard error of the thermometer, K. */
  readonly sdC: number;
  /** Share of what it says that counts, above 0 to 1, default 1: less for a reading that is growing old. */
  readonly weight?: number;
}

/** A reading that did not count. */
export interface RefusedPocketReading<R extends PocketReading> {
  readonly reading: R;
  readonly reason: Refusal;
  /** `improbable`: it can hardly be right; `incomparable`: nothing speaks against it, but there is nothing to compare it with. */
  readonly kind: 'improbable' | 'incomparable';
}

export interface CorrectedPocket<R extends PocketReading> {
  readonly run: PocketRun;
  /** Readings that counted, oldest first. */
  readonly used: readonly R[];
  readonly refused: readonly RefusedPocketReading<R>[];
}

/** What the run says at one instant and depth. */
interface Modelled {
  readonly waterC: number;
  /** What each doubt at its upper bound adds, K, as far as it is the opposite of its lower bound. */
  readonly effectK: readonly number[];
  /** Variance that the doubts add beyond that, K2: both bounds may shift the same way. */
  readonly bentVarK2: number;
  /** Upper minus lower layer, K. */
  readonly contrastK: number;
}

/**
 * The run, corrected by readings taken in the pocket.
 *
 * A reading's misfit is divided by variance (Kalman) between the doubts of the run, a lasting part of the pocket and a
 * part that fades with the pocket's own exchange of heat with air, lake and inflow. Strictly causal: the hours that
 * ended before a reading stay as they were. The interval is narrower after a reading and widens again as the fading
 * part is forgotten. What the storm did (share renewed, buoyancy, half-life, books) stays that of the run.
 *
 * @param run      from `simulatePocket`
 * @param readings in any order; those that cannot be compared or cannot be right come back in `refused`
 * @returns the same run when no reading counts
 * @throws RangeError when a reading has no instant, no temperature, no depth of 0 or more, no standard error above 0, or a weight
 *   outside 0 to 1
 */
export function correctByReadings<R extends PocketReading>(
  run: PocketRun,
  readings: readonly R[],
): CorrectedPocket<R> {
  readings.forEach(check);
  const used: R[] = [];
  const refused: RefusedPocketReading<R>[] = [];
  const waiting: R[] = [];
  const first = (run.hours[0]?.atMs ?? Infinity) - HOUR_MS;
  const last = run.hours.at(-1)?.atMs ?? -Infinity;
  for (const reading of [...readings].sort((a, b) => a.atMs - b.atMs)) {
    const problem = unusable(reading, first, last);
    if (problem === null) waiting.push(reading);
    else refused.push({ reading, ...problem });
  }
  if (waiting.length === 0) return { run, used, refused };

  const { error } = run;
  const floorVarK2 = (error.floorK / Z80) ** 2;
  const hourVarK2 = HOUR_SHARE * floorVarK2;
  const start = (): PocketMisfit =>
    new PocketMisfit(LASTING_SHARE * floorVarK2, FADING_SHARE * floorVarK2, error.doubts.length, Z80 ** -2);
  const prior = start();
  const misfit = start();
  const lastDoubt = new LastDoubt();

  /** @param sharing how many readings of that hour share one thermometer and one spot, and so count as one together */
  const take = (reading: R, i: number, sharing: number): void => {
    const modelled = modelledAt(run, i, reading);
    const { misfitC, varK2 } = misfit.expect(modelled.effectK);
    const differenceC = reading.waterC - modelled.waterC - misfitC;
    let noiseVarK2 =
      reading.sdC ** 2 + hourVarK2 + modelled.bentVarK2 + (COLUMN_SHARE * modelled.contrastK) ** 2;
    if (differenceC ** 2 > DOUBTED_Z2 * (varK2 + noiseVarK2) || Math.abs(differenceC) > DOUBTED_K) {
      if (!lastDoubt.agrees(reading.atMs / (24 * HOUR_MS), differenceC)) {
        refused.push({
          reading,
          reason: { code: 'tooFar', differenceC, of: 'pocket', fate: 'leftOut' },
          kind: 'improbable',
        });
        return;
      }
      noiseVarK2 = Math.max(noiseVarK2, differenceC ** 2 / DOUBTED_Z2 - varK2);
    }
    misfit.assimilate(modelled.effectK, differenceC, (noiseVarK2 * sharing) / (reading.weight ?? 1));
    used.push(reading);
  };

  const hours = run.hours.map((hour, i) => {
    misfit.fade(error.keep[i] ?? 1);
    const arrived = waiting.filter(({ atMs }) => atMs <= hour.atMs && atMs > hour.atMs - HOUR_MS);
    for (const reading of arrived) take(reading, i, arrived.length);
    return used.length === 0 ? hour : corrected(hour, i, error, prior, misfit, hourVarK2);
  });
  return { run: used.length === 0 ? run : { ...run, hours }, used, refused };
}

function check(reading: PocketReading): void {
  if (!Number.isFinite(reading.atMs) || !Number.isFinite(reading.waterC))
    throw new RangeError('a reading in a pocket needs an instant and a temperature');
  if (!(reading.depthM >= 0))
    throw new RangeError(`depthM of a reading must be 0 or more, got ${reading.depthM}`);
  if (!(reading.sdC > 0)) throw new RangeError(`sdC of a reading must be above 0, got ${reading.sdC}`);
  const { weight = 1 } = reading;
  if (!(weight > 0 && weight <= 1))
    throw new RangeError(`weight of a reading must be above 0 and at most 1, got ${weight}`);
}

type Problem = Pick<RefusedPocketReading<PocketReading>, 'reason' | 'kind'>;

function unusable(reading: PocketReading, firstMs: number, lastMs: number): Problem | null {
  const incomparable = (code: 'beforeTheWeather' | 'noWeatherThatHour'): Problem => ({
    reason: { code },
    kind: 'incomparable',
  });
  const problem = impossible(reading.waterC, 'lake');
  if (problem !== undefined) return { reason: problem, kind: 'improbable' };
  if (reading.atMs <= firstMs) return incomparable('beforeTheWeather');
  if (reading.atMs > lastMs) return incomparable('noWeatherThatHour');
  return null;
}

/** The run at the instant and depth of a reading that came in during hour `i`. */
function modelledAt(run: PocketRun, i: number, reading: PocketReading): Modelled {
  const { error, hours } = run;
  const end = item(hours, i).atMs;
  const before = Math.max(0, i - 1);
  const towardsBefore = Math.min(1, Math.max(0, (end - reading.atMs) / HOUR_MS));
  const upperWeight = shareOfUpper(reading.depthM, error.depthM);
  const between = (value: (k: number) => number): number =>
    (1 - towardsBefore) * value(i) + towardsBefore * value(before);
  const atDepth = (surface: number, mean: number): number =>
    upperWeight * surface + (1 - upperWeight) * lowerOf(surface, mean);
  const state = (k: number): PocketState => item(hours, k);
  const effects = error.doubts.map(({ less, more }) => {
    const side = ({ surfaceK, meanK }: typeof less): number =>
      between((k) => atDepth(item(surfaceK, k), item(meanK, k)));
    return [side(less), side(more)] as const;
  });
  return {
    waterC: between((k) => atDepth(state(k).surfaceC, state(k).meanC)),
    effectK: effects.map(([less, more]) => (more - less) / 2),
    bentVarK2: effects.reduce((sum, [less, more]) => sum + bentVar(less, more), 0),
    contrastK: between((k) => {
      const { surfaceC, meanC } = state(k);
      return surfaceC - lowerOf(surfaceC, meanC);
    }),
  };
}

/** Variance of a doubt whose two bounds do not mirror each other, beyond its straight part, K2. */
function bentVar(less: number, more: number): number {
  return ((less + more) / 2 / Z80) ** 2;
}

const lowerOf = (surface: number, mean: number): number => (mean - UPPER_SHARE * surface) / (1 - UPPER_SHARE);

/** Weight of the upper layer at a depth: whole down to its middle, none below the middle of the lower one. */
function shareOfUpper(depthM: number, meanDepthM: number): number {
  const upperMiddle = (UPPER_SHARE / 2) * meanDepthM;
  const lowerMiddle = ((1 + UPPER_SHARE) / 2) * meanDepthM;
  return Math.min(1, Math.max(0, (lowerMiddle - depthM) / (lowerMiddle - upperMiddle)));
}

function corrected(
  hour: PocketState,
  i: number,
  error: PocketError,
  prior: PocketMisfit,
  misfit: PocketMisfit,
  hourVarK2: number,
): PocketState {
  const effects = (of: 'surfaceK' | 'meanK'): number[] =>
    error.doubts.map(({ less, more }) => (item(more[of], i) - item(less[of], i)) / 2);
  const effectK = effects('surfaceK');
  const now = misfit.expect(effectK);
  const always =
    hourVarK2 +
    error.doubts.reduce(
      (sum, { less, more }) => sum + bentVar(item(less.surfaceK, i), item(more.surfaceK, i)),
      0,
    );
  const narrower = Math.sqrt((now.varK2 + always) / (prior.expect(effectK).varK2 + always));
  const surfaceC = Math.max(0, hour.surfaceC + now.misfitC);
  const meanC = Math.max(0, hour.meanC + misfit.expect(effects('meanK')).misfitC);
  const { belowK, aboveK } = halfWidthsK(error, i);
  return {
    ...hour,
    surfaceC,
    meanC,
    minusMainC: hour.minusMainC + (surfaceC - hour.surfaceC),
    meanMinusMainC: hour.meanMinusMainC + (meanC - hour.meanC),
    lowC: Math.max(0, surfaceC - narrower * belowK),
    highC: surfaceC + narrower * aboveK,
  };
}
