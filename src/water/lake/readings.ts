import { at } from '../series.ts';
import { dayNumber } from '../../units/time/index.ts';
import { impossible, type Refusal } from '../refusal.ts';
import type { FreeRun } from './freeRun.ts';
import type { RefusedReading, WaterReading } from './types.ts';

/** A day's readings as one value of the daily mean at about 1 m. */
export interface DailyReading {
  readonly waterC: number;
  readonly sdC: number;
  /** True when the thermometer gave the mean of the day, not one hour of it. */
  readonly isMean: boolean;
  /** The reading that stands for the day when it has to be named. */
  readonly reading: WaterReading;
}

/** Below this depth a thermometer tells of the surface only while the lake is mixed, m. */
const DEEPEST_SURFACE_M = 3;
const MIXED_LAYERING_C = 1;
/** Sensors left dry by a falling lake showed daily ranges of 11 to 17 K, sensors in water 0.4 to 3. */
const DRY_RANGE_C = 7;
const SAME_DEPTH_M = 0.25;
/** Readings of one day that lie farther apart than hours and places explain make their mean less sure by as much, K. */
const DAY_SCATTER_C = 1;
/** Values of a day from which its range says something. */
const FEWEST_FOR_RANGE = 4;

/**
 * How far a shallow thermometer stands above the daily mean at 1 m at a given hour.
 *
 * Amplitude 0.32 K per 100 W/m2 of daily mean sun with its top at 17.5 h, measured over one summer in one small
 * reservoir; fading to nothing at 1 m and with wind above 3 m/s (that fading: common practice, no source).
 *
 * @param hour local decimal hour, 0 to 24
 * @param depthM depth of the thermometer, m
 * @param sunWm2 daily mean global radiation, W/m2
 * @param windMs daily mean wind, m/s; NaN when unknown
 * @returns K, to subtract from the reading
 */
export function shallowExcessC(hour: number, depthM: number, sunWm2: number, windMs: number): number {
  const nearSurface = Math.min(1, Math.max(0, (1 - depthM) / 0.5));
  const calm = Number.isFinite(windMs) ? Math.min(1.5, Math.max(0.4, 3 / Math.max(1, windMs))) : 1;
  return nearSurface * calm * 0.32 * (sunWm2 / 100) * Math.cos((2 * Math.PI * (hour - 17.5)) / 24);
}

/** Sorts readings onto the days of the run; what cannot be used comes back with its reason. */
export function placeReadings(
  run: FreeRun,
  readings: readonly WaterReading[],
): { byDay: Map<number, DailyReading>; refused: RefusedReading[] } {
  const groups = new Map<number, WaterReading[]>();
  const refused: RefusedReading[] = [];
  const refuse = (reading: WaterReading, reason: Refusal): void => void refused.push({ reading, reason });
  const { firstDay, count, dead } = run.forcing;
  for (const reading of readings) {
    const j = dayNumber(reading.date) - firstDay;
    const problem = impossible(reading.waterC, 'lake');
    if (problem !== undefined) refuse(reading, problem);
    else if (j < 0 || j >= count || dead[j] === 1) refuse(reading, { code: 'noWeatherThatDay' });
    else if (reading.depthM > DEEPEST_SURFACE_M && at(run.layeringC, j) > MIXED_LAYERING_C)
      refuse(reading, { code: 'belowWarmLayer', depthM: reading.depthM });
    else {
      const group = groups.get(j);
      if (group === undefined) groups.set(j, [reading]);
      else group.push(reading);
    }
  }
  const byDay = new Map<number, DailyReading>();
  for (const [j, group] of groups) {
    const best = bestDepth(group);
    const same = group.filter((r) => depthError(r) <= depthError(best) + SAME_DEPTH_M);
    const values = same.map((r) => r.waterC);
    const rangeC = Math.max(...values) - Math.min(...values);
    if (same.length >= FEWEST_FOR_RANGE && rangeC > DRY_RANGE_C)
      refuse(best, { code: 'swingsLikeAir', rangeC });
    else byDay.set(j, dailyMean(run, j, same, best));
  }
  return { byDay, refused };
}

const depthError = (r: WaterReading): number => Math.abs(Math.max(0.5, r.depthM) - 1);
const bestDepth = (group: readonly WaterReading[]): WaterReading =>
  group.reduce((a, b) => (depthError(b) < depthError(a) ? b : a));

function dailyMean(run: FreeRun, j: number, used: readonly WaterReading[], best: WaterReading): DailyReading {
  let weightSum = 0;
  let sum = 0;
  let squares = 0;
  let sdC = Infinity;
  for (const r of used) {
    const sd = Math.hypot(Math.max(0.02, r.sdC), 0.15 * Math.max(0, r.depthM - 1.5));
    const excess =
      r.hour === undefined
        ? 0
        : shallowExcessC(r.hour, r.depthM, at(run.forcing.sunWm2, j), at(run.forcing.windMs, j));
    weightSum += 1 / sd ** 2;
    sum += (r.waterC - excess) / sd ** 2;
    squares += (r.waterC - excess) ** 2 / sd ** 2;
    sdC = Math.min(sdC, sd);
  }
  const waterC = sum / weightSum;
  const scatterC = Math.sqrt(Math.max(0, squares / weightSum - waterC ** 2));
  return {
    waterC: Math.max(0, waterC),
    sdC: Math.hypot(sdC, Math.max(0, scatterC - DAY_SCATTER_C)),
    isMean: best.hour === undefined,
    reading: best,
  };
}
