import { item } from '../../units/index.ts';
import { DAY_MS, dayOfYear } from '../../units/time/index.ts';
import {
  adjustCurveNumber,
  antecedentMoisture,
  dayLengthH,
  EVENT_WATER,
  eventWaterShare,
  hydrographShares,
  nrcsLagH,
  rainBracketC,
  runoffMm,
  unitHydrograph,
} from '../../science/index.ts';
import { COVER, type PocketShape } from './shape.ts';
import type { PocketHour } from './types.ts';

/** Hours without rain that end a storm. */
const DRY_H = 12;
const DRY_MM = 0.1;
/** Precipitation at or below this air temperature lies as snow and does not run off (a plain threshold). */
const SNOW_C = 0.5;
/** Base flow of humid hill country in the dormant season, m3/s per km2, and the area below which a draw runs dry. */
const BASE_FLOW = 0.008;
const DRY_DRAW_KM2 = 0.5;
/** Recession of the slow part of storm flow, e-fold in hours. A stated guess for watersheds of a few km2. */
const RECESSION_H = 14;
/** Share of the air's departure that the channel gives to the stream within hours (guess). */
const DRIFT = 0.25;
/** The guessed suspended load levels off here, mg/L. */
const SEDIMENT_CAP = 1500;

/** What enters a pocket in each hour. */
export interface Inflow {
  readonly stormM3: readonly number[];
  readonly baseM3: readonly number[];
  /** Temperature of storm and base flow together. */
  readonly streamC: readonly number[];
  readonly sedimentMgL: readonly number[];
  readonly rainM3: readonly number[];
  readonly rainC: readonly number[];
  /** Runoff that each hour's rain sheds, mm over the watershed, before it has run down. */
  readonly excessMm: readonly number[];
}

export interface InflowOptions {
  readonly antecedent5dRainMm?: number;
  readonly sedimentMgL?: number;
  /** Where in the bracket from wet-bulb (0) to air (1) the rain is. */
  readonly rainPosition: number;
  /** Added to the share of stored water in the runoff. */
  readonly coolingShift: number;
  readonly curveNumberShift: number;
  /** False leaves the storm out, to see what it changed. */
  readonly storm: boolean;
  /** False leaves the stream between storms out, to see what it changes. */
  readonly baseFlow: boolean;
}

/** What the land gives to the waters that run in, whatever it rains: worked out once for all runs of a pocket. */
export interface Land {
  /** What the ground has stored, degC, by hour. */
  readonly storedC: readonly number[];
  /** The stream between storms, degC, by hour. */
  readonly creekC: readonly number[];
  /** Rain from its coldest to its warmest, degC, by hour. */
  readonly rain: readonly { readonly lowC: number; readonly highC: number }[];
  /** Shares of an hour's runoff that arrive in each of the hours after it, on the ground and through it. */
  readonly quick: readonly number[];
  readonly slow: readonly number[];
}

/** @param soilC temperature of the upper soil where it is known, degC */
export function landOf(shape: PocketShape, hours: readonly PocketHour[], soilC?: number): Land {
  const soil = hours.map((_, i) => soilC ?? Math.max(0, trailingAirC(hours, i)));
  const lagH = Math.max(0.2, nrcsLagH(shape.channelLengthM, shape.slope, shape.curveNumber));
  return {
    // What the ground had stored is what feeds the creek between storms, so it comes at the creek's own temperature.
    storedC: hours.map((hour, i) => hour.creekC ?? soil[i] ?? 0),
    creekC: hours.map((_, i) => creekC(hours, i, item(soil, i))),
    rain: hours.map((hour) => rainBracketC(hour.airC, hour.humidityPct)),
    quick: hydrographShares(unitHydrograph(shape.watershedKm2, lagH, 1).timeToPeakH, 1),
    slow: slowShares(hours.length),
  };
}

/**
 * Stream and rain that enter a pocket, hour by hour: curve-number excess, delayed by the unit hydrograph, at the
 * temperature of the rain mixed with what the ground had stored.
 *
 * @param land of the same shape and the air of the same hours
 */
export function pocketInflow(
  shape: PocketShape,
  hours: readonly PocketHour[],
  land: Land,
  options: InflowOptions,
): Inflow {
  const n = hours.length;
  const traits = COVER[shape.landCover];
  const rain = hours.map((h) => (options.storm && h.airC > SNOW_C ? h.rainMm : 0));
  const { excess, fallen } = stormExcess(shape, hours, rain, options);
  const rainC = land.rain.map(({ lowC, highC }) => lowC + options.rainPosition * (highC - lowC));

  const stormM3 = new Array<number>(n).fill(0);
  const stormHeat = new Array<number>(n).fill(0);
  const stormLoad = new Array<number>(n).fill(0);
  const deliver = (
    from: number,
    by: readonly number[],
    volume: number,
    tempC: number,
    load: number,
  ): void => {
    for (let k = 0; k < by.length && from + k < n; k++) {
      const part = volume * item(by, k);
      stormM3[from + k] = item(stormM3, from + k) + part;
      stormHeat[from + k] = item(stormHeat, from + k) + part * tempC;
      stormLoad[from + k] = item(stormLoad, from + k) + part * load;
    }
  };
  for (const [i, mm] of excess.entries()) {
    if (mm <= 0) continue;
    const volume = mm * shape.watershedKm2 * 1000;
    const fromRain = item(rainC, i);
    const gap = item(land.storedC, i) - fromRain;
    const event = eventWaterShare(EVENT_WATER[shape.landCover], item(fallen, i));
    const stored = Math.min(1, Math.max(0, 1 - event + options.coolingShift));
    const load = options.sedimentMgL ?? Math.min(SEDIMENT_CAP, traits.sedimentMgL * mm ** 0.7);
    deliver(i, land.quick, volume * (1 - traits.slowShare), fromRain + stored * gap, load);
    // The slow part seeps through the topsoil: twice the contact, and what it carries is filtered out.
    const slowLoad = options.sedimentMgL ?? load / 4;
    deliver(i, land.slow, volume * traits.slowShare, fromRain + Math.min(1, 2 * stored) * gap, slowLoad);
  }

  const base = !options.baseFlow ? 0 : BASE_FLOW * Math.max(0, shape.watershedKm2 - DRY_DRAW_KM2) * 3600;
  const streamC: number[] = [];
  const sedimentMgL: number[] = [];
  for (let i = 0; i < n; i++) {
    const baseC = item(land.creekC, i);
    const storm = item(stormM3, i);
    const total = storm + base;
    streamC.push(total > 0 ? (item(stormHeat, i) + base * baseC) / total : baseC);
    sedimentMgL.push(total > 0 ? item(stormLoad, i) / total : 0);
  }
  return {
    stormM3,
    baseM3: hours.map(() => base),
    streamC,
    sedimentMgL,
    rainM3: rain.map((mm) => (mm / 1000) * shape.areaM2),
    rainC,
    excessMm: excess,
  };
}

/**
 * First hour from which two inflows are not the same water; the number of hours where they never part. The temperature
 * of rain counts in hours with rain.
 */
export function differsFrom(one: Inflow, other: Inflow): number {
  const hours = one.stormM3.length;
  for (let i = 0; i < hours; i += 1) {
    const isSame =
      one.stormM3[i] === other.stormM3[i] &&
      one.baseM3[i] === other.baseM3[i] &&
      one.streamC[i] === other.streamC[i] &&
      one.sedimentMgL[i] === other.sedimentMgL[i] &&
      one.rainM3[i] === other.rainM3[i] &&
      (one.rainM3[i] === 0 || one.rainC[i] === other.rainC[i]);
    if (!isSame) return i;
  }
  return hours;
}

/** Runoff each hour adds, mm: growth of the curve-number runoff along each storm's rain so far, and that rain, mm. */
function stormExcess(
  shape: PocketShape,
  hours: readonly PocketHour[],
  rain: readonly number[],
  options: InflowOptions,
): { readonly excess: number[]; readonly fallen: number[] } {
  const excess: number[] = [];
  const fallenSoFar: number[] = [];
  let fallen = 0;
  let runSoFar = 0;
  let dry = DRY_H;
  let curveNumber = shape.curveNumber;
  for (const [i, mm] of rain.entries()) {
    if (mm < DRY_MM) dry++;
    else {
      if (dry >= DRY_H) {
        fallen = 0;
        runSoFar = 0;
        curveNumber = stormCurveNumber(shape, hours, rain, i, options);
      }
      dry = 0;
    }
    fallen += mm;
    fallenSoFar.push(fallen);
    const run = runoffMm(fallen, curveNumber);
    excess.push(run - runSoFar);
    runSoFar = run;
  }
  return { excess, fallen: fallenSoFar };
}

function stormCurveNumber(
  shape: PocketShape,
  hours: readonly PocketHour[],
  rain: readonly number[],
  start: number,
  options: InflowOptions,
): number {
  const shifted = Math.min(99, Math.max(30, shape.curveNumber + options.curveNumberShift));
  let inSeries = 0;
  for (let i = Math.max(0, start - 120); i < start; i++) inSeries += item(rain, i);
  // Without word of the days before, average moisture until the series itself is five days old.
  if (options.antecedent5dRainMm === undefined && start < 120) return shifted;
  const before = (options.antecedent5dRainMm ?? 0) * Math.max(0, 1 - start / 120);
  const day = Math.floor(item(hours, start).atMs / DAY_MS);
  const growing = dayLengthH(shape.latDeg, dayOfYear(day)) > 12.5;
  return adjustCurveNumber(shifted, antecedentMoisture(before + inSeries, growing));
}

/**
 * The stream between storms, degC: its day's mean where that is known, with a quarter of the swing of the day's air.
 * Else it leaves the ground at the soil's temperature and drifts a quarter of the way to the air in the channel.
 */
function creekC(hours: readonly PocketHour[], i: number, soilC: number): number {
  const air = Math.max(0, item(hours, i).airC);
  const meanC = hours[i]?.creekC;
  if (meanC === undefined) return soilC + DRIFT * (air - soilC);
  return Math.max(0, meanC + DRIFT * (air - Math.max(0, trailingAirC(hours, i, 24))));
}

/** Mean air of the three days up to and with an hour: the upper soil follows the air about so fast. */
function trailingAirC(hours: readonly PocketHour[], i: number, spanH = 72): number {
  let sum = 0;
  const from = Math.max(0, i - spanH + 1);
  for (let k = from; k <= i; k++) sum += item(hours, k).airC;
  return sum / (i - from + 1);
}

/** Shares of a pulse that a linear store releases in each of n hours; what is left at the end is still to come. */
function slowShares(n: number): number[] {
  const kept = Math.exp(-1 / RECESSION_H);
  return Array.from({ length: n }, (_, k) => (1 - kept) * kept ** k);
}
