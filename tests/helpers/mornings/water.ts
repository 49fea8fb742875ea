/** Level and inflow that the invented rain makes of the invented lake: a wet soil, a store that drains, a pool held. */
import type { LakeConfig } from '../../../src/config/types.ts';
import { HOUR_MS, type Hour } from './weather.ts';

export interface WaterHour {
  readonly atMs: number;
  readonly levelM: number;
  readonly inflowM3s: number;
}

const WATERSHED_KM2 = 900;
const BASE_M3S = 11;
/** Time in which the store of runoff drains, h, and the dam brings the pool back, h. */
const DRAIN_H = 16;
const HOLD_H = 20 * 24;
/** Time in which soil dries, h, and the rain that wets it through, mm. */
const DRY_H = 72;
const SOAKED_MM = 80;
/** The pool is held this much above normal in summer and below it in winter, m. */
const SEASON_M = 0.35;
const YEAR_MS = 365.25 * 24 * HOUR_MS;

export function waterHours(
  hours: readonly Hour[],
  lake: LakeConfig,
  extraReleaseM3s: (atMs: number) => number,
): WaterHour[] {
  const normalM = lake.normalPoolM ?? 0;
  const targetM = (atMs: number): number => normalM - SEASON_M * Math.cos((2 * Math.PI * atMs) / YEAR_MS);
  const km2ToM2 = 1e6;
  let storeMm = 0;
  let wetMm = 0;
  let levelM = targetM(hours[0]?.atMs ?? 0);
  return hours.map(({ atMs, rainMm }, index) => {
    wetMm = wetMm * Math.exp(-1 / DRY_H) + rainMm;
    storeMm += rainMm * (0.14 + 0.5 * Math.min(1, wetMm / SOAKED_MM));
    const drainedMm = storeMm * (1 - Math.exp(-1 / DRAIN_H));
    storeMm -= drainedMm;
    const inflowM3s = BASE_M3S + (drainedMm * WATERSHED_KM2 * 1e3) / 3600;
    const gainedM3 = (inflowM3s - BASE_M3S - extraReleaseM3s(atMs)) * 3600;
    levelM += gainedM3 / (lake.areaKm2 * km2ToM2) + (targetM(atMs) - levelM) / HOLD_H;
    // A gauge reads to some millimetres.
    return { atMs, levelM: Number((levelM + 0.002 * Math.sin(index * 2.4)).toFixed(3)), inflowM3s };
  });
}
