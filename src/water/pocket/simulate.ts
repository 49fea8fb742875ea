import { item } from '../../units/index.ts';
import { HOUR_MS } from '../../units/time/index.ts';
import { CENTRAL, DOUBTS, FLOOR_K, halfWidthsK, type Variation } from './doubts.ts';
import { differsFrom, landOf, pocketInflow, type Inflow, type Land } from './inflow.ts';
import { runLayers, skyOver, type LayerRun, type Sky } from './layers.ts';
import type { PocketShape } from './shape.ts';
import type { PocketEffects, PocketError, PocketHour, PocketOptions, PocketRun, Shift } from './types.ts';

/** Hours in which a storm still makes a pulse that the day is judged on. */
const PULSE_H = 72;
const STEPS_PER_HOUR = 12;
/** Below this the storm's effect on the depth mean is noise, K. */
const MATTERS_K = 0.3;
/** Storm water below this share of the pocket neither floats nor plunges in a way anyone could meet. */
const MATTERS_SHARE = 0.05;

/**
 * Temperature of an inflow pocket hour by hour, beside the main lake.
 *
 * Starts at the lake's temperature, so give a day or two of hours before the first one you mean to use. Uncalibrated:
 * physics with stated guesses for runoff temperature, sediment and the mouth; say "check with a thermometer".
 *
 * @param shape   pocket and watershed, SI
 * @param hours   consecutive hours in order, without gaps
 * @param options what is known beyond the weather
 * @returns states at the end of each hour with their 80 % interval, and what the storm did
 * @throws RangeError when hours are missing, out of order or out of physical range, or the shape has no water
 */
export function simulatePocket(
  shape: PocketShape,
  hours: readonly PocketHour[],
  options: PocketOptions,
): PocketRun {
  check(shape, hours, options);
  const skies = skyOver(shape, hours);
  const land = landOf(shape, hours, options.soilC);
  const central = pocketInflow(shape, hours, land, { ...options, ...CENTRAL });
  const steps = options.stepsPerHour ?? STEPS_PER_HOUR;
  const run = runLayers(shape, skies, central, { stepsPerHour: steps, ...CENTRAL });
  // What a doubt shifts is a difference of two runs, in which the step's error cancels: a third of the steps will do.
  const coarse: Coarse = {
    shape,
    hours,
    options,
    skies,
    land,
    inflow: central,
    stepsPerHour: Math.max(1, Math.round(steps / 3)),
  };
  const base = runLayers(shape, skies, central, { ...coarse, ...CENTRAL });
  const shift = (doubt: Partial<Variation>): Shift => shiftOf(varied(coarse, base, doubt), base);
  const error: PocketError = {
    floorK: FLOOR_K[options.basis],
    doubts: DOUBTS[options.basis].map(([less, more]) => ({ less: shift(less), more: shift(more) })),
    keep: run.keep,
    depthM: shape.meanDepthM,
  };

  const states = hours.map((hour, i) => {
    const surface = item(run.surfaceC, i);
    const { belowK, aboveK } = halfWidthsK(error, i);
    const stream = (item(central.stormM3, i) + item(central.baseM3, i)) / 3600;
    const mean = item(run.meanC, i);
    return {
      atMs: hour.atMs,
      surfaceC: surface,
      meanC: mean,
      minusMainC: surface - hour.lakeC,
      meanMinusMainC: mean - hour.lakeC,
      inflowM3s: stream,
      inflowC: stream > 0 ? item(central.streamC, i) : null,
      lowC: Math.max(0, surface - belowK),
      highC: surface + aboveK,
    };
  });
  const { asOfMs = Infinity } = options;
  const recent = hours.map(
    (h) => (h.atMs <= asOfMs && h.atMs > asOfMs - PULSE_H * HOUR_MS) || asOfMs === Infinity,
  );
  const effects = effectsOf(coarse, base);
  const stormFell = central.stormM3.some((v, i) => recent[i] && v + item(central.rainM3, i) > 0);
  return {
    hours: states,
    renewedShare: (fromMs, toMs) => renewed(hours, central, run.books.volumeM3, fromMs, toMs),
    buoyancy: buoyancy(central, run, recent),
    halfLifeH: stormFell && effects.rainFallen ? halfLifeH(effects.rainFallen.meanK, recent) : null,
    runoffMm: central.excessMm.reduce((sum, mm) => sum + mm, 0),
    runoffBetweenMm: (fromMs, toMs) =>
      central.excessMm.reduce((sum, mm, i) => sum + mm * hourShare(item(hours, i), fromMs, toMs), 0),
    rainBetweenMm: (fromMs, toMs) =>
      central.rainM3.reduce(
        (sum, m3, i) => sum + (m3 / shape.areaM2) * 1000 * hourShare(item(hours, i), fromMs, toMs),
        0,
      ),
    effects,
    books: run.books,
    error,
  };
}

/** The run that the varied ones are held against: everything of it that they share. */
interface Coarse {
  readonly shape: PocketShape;
  readonly hours: readonly PocketHour[];
  readonly options: PocketOptions;
  readonly skies: readonly Sky[];
  readonly land: Land;
  readonly inflow: Inflow;
  readonly stepsPerHour: number;
}

/** What of a variation the inflow depends on. */
const OF_INFLOW = ['rainPosition', 'coolingShift', 'curveNumberShift', 'storm', 'baseFlow'] as const;

/**
 * A run that differs from the base in one thing. It begins where the waters that run in begin to differ: until then it
 * is the base.
 */
function varied(
  { shape, hours, options, skies, land, inflow: central, stepsPerHour }: Coarse,
  base: LayerRun,
  doubt: Partial<Variation>,
): LayerRun {
  const variation = { ...CENTRAL, ...doubt };
  const isOther = OF_INFLOW.some((key) => doubt[key] !== undefined);
  const inflow = isOther ? pocketInflow(shape, hours, land, { ...options, ...variation }) : central;
  const isSame =
    doubt.mouthFactor === undefined && doubt.sunFactor === undefined && doubt.depthFactor === undefined;
  const from = isSame ? { run: base, hour: differsFrom(inflow, central) } : undefined;
  const deep = { ...shape, meanDepthM: shape.meanDepthM * variation.depthFactor };
  return runLayers(deep, skies, inflow, { stepsPerHour, ...variation }, from);
}

function shiftOf(run: LayerRun, without: LayerRun): Shift {
  return {
    surfaceK: run.surfaceC.map((t, i) => t - item(without.surfaceC, i)),
    meanK: run.meanC.map((t, i) => t - item(without.meanC, i)),
  };
}

/** Takes the waters away one after the other: first the rain to come, then what fell, then the stream. */
function effectsOf(coarse: Coarse, whole: LayerRun): PocketEffects {
  const { hours, options, inflow } = coarse;
  const { asOfMs = Infinity } = options;
  const rained = (ahead: boolean): boolean =>
    hours.some(({ atMs }, i) => atMs > asOfMs === ahead && item(inflow.rainM3, i) > 0);
  const fell = rained(false);
  const comes = rained(true);
  const fallen = { ...coarse, hours: hours.map((h) => (h.atMs <= asOfMs ? h : { ...h, rainMm: 0 })) };
  const withFallen = comes ? varied(fallen, whole, { rainPosition: CENTRAL.rainPosition }) : whole;
  const dry = fell ? varied(coarse, whole, { storm: false }) : withFallen;
  return {
    ...(options.openHours === undefined
      ? {}
      : { shade: shiftOf(whole, inTheOpen(coarse, options.openHours)) }),
    rainFallen: fell ? shiftOf(withFallen, dry) : null,
    rainAhead: comes ? shiftOf(whole, withFallen) : null,
    baseFlow: inflow.baseM3.some((m3) => m3 > 0)
      ? shiftOf(dry, varied(coarse, whole, { storm: false, baseFlow: false }))
      : null,
  };
}

/** The same run under the sun of open ground; the sun is nothing to the waters that run in. */
function inTheOpen({ shape, inflow, stepsPerHour }: Coarse, hours: readonly PocketHour[]): LayerRun {
  return runLayers(shape, skyOver(shape, hours), inflow, { stepsPerHour, ...CENTRAL });
}

/** Share of an hour that lies between two instants. */
function hourShare({ atMs: endMs }: PocketHour, fromMs: number, toMs: number): number {
  return Math.max(0, Math.min(toMs, endMs) - Math.max(fromMs, endMs - HOUR_MS)) / HOUR_MS;
}

function renewed(
  hours: readonly PocketHour[],
  inflow: Inflow,
  volumeM3: number,
  fromMs: number,
  toMs: number,
): number {
  let sum = 0;
  for (const [i, hour] of hours.entries()) {
    sum += hourShare(hour, fromMs, toMs) * (item(inflow.stormM3, i) + item(inflow.rainM3, i));
  }
  return Math.min(1, sum / volumeM3);
}

/** Mean of floating (+1) and plunging (-1) over the storm water. */
function buoyancy(inflow: Inflow, run: LayerRun, recent: readonly boolean[]): number | null {
  let volume = 0;
  let floating = 0;
  for (const [i, storm] of inflow.stormM3.entries()) {
    if (!recent[i]) continue;
    volume += storm;
    floating += storm * item(run.floating, i);
  }
  return volume > MATTERS_SHARE * run.books.volumeM3 ? (2 * floating) / volume - 1 : null;
}

/** Time the storm's effect on the depth mean takes from its peak to half of it; beyond the series by its own decay. */
function halfLifeH(effectK: readonly number[], recent: readonly boolean[]): number | null {
  const effect = effectK.map((kelvin) => Math.abs(kelvin));
  // The peak can lie a few hours ahead while the stream still runs; what counts is that its rain has fallen.
  let peak = Math.max(0, recent.indexOf(true));
  for (let i = peak; i < effect.length; i++) if (item(effect, i) > item(effect, peak)) peak = i;
  const top = item(effect, peak);
  if (top < MATTERS_K) return null;
  for (let i = peak + 1; i < effect.length; i++) {
    const now = item(effect, i);
    if (now <= top / 2) {
      const before = item(effect, i - 1);
      return i - 1 - peak + (before - top / 2) / (before - now);
    }
  }
  const last = effect.at(-1) ?? top;
  const span = effect.length - 1 - peak;
  // Less than a fifth of the decay seen is too little to extend.
  return last < 0.8 * top ? (span * Math.LN2) / Math.log(top / last) : null;
}

function check(shape: PocketShape, hours: readonly PocketHour[], options: PocketOptions): void {
  const steps = options.stepsPerHour ?? STEPS_PER_HOUR;
  if (!Number.isInteger(steps) || steps < 1 || steps > 3600) {
    throw new RangeError(`stepsPerHour must be a whole number from 1 to 3600, got ${steps}`);
  }
  for (const key of ['areaM2', 'meanDepthM', 'channelLengthM', 'slope'] as const) {
    if (!(shape[key] > 0)) throw new RangeError(`${key} of a pocket must be above 0, got ${shape[key]}`);
  }
  for (const key of ['watershedKm2', 'mouthWidthM'] as const) {
    if (!(shape[key] >= 0)) throw new RangeError(`${key} of a pocket must be 0 or more, got ${shape[key]}`);
  }
  if (hours.length === 0) throw new RangeError('a pocket needs at least one hour of weather');
  for (const [i, hour] of hours.entries()) {
    const before = hours[i - 1];
    if (before && hour.atMs - before.atMs !== HOUR_MS) {
      throw new RangeError(`hour ${i} does not follow the one before by one hour`);
    }
    if (!(hour.rainMm >= 0))
      throw new RangeError(`rainMm of hour ${i} must be 0 or more, got ${hour.rainMm}`);
    if (!(hour.lakeC > -2 && hour.lakeC < 45)) {
      throw new RangeError(`lakeC of hour ${i} must be between -2 and 45, got ${hour.lakeC}`);
    }
  }
}
