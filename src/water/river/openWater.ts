import { isoDate } from '../../units/time/index.ts';
import { runFree } from '../lake/freeRun.ts';
import { at } from '../series.ts';
import { AIR_KEEP, type RiverForcing } from './forcing.ts';
import type { RiverFreeRun } from './freeRun.ts';
import type { RiverWeatherDay } from './types.ts';

/** A wide river, or water let out at a reservoir's surface, is taken for a lake this deep and large. */
const DEPTH_M = 3;
const AREA_KM2 = 5;
/** Standard error of the start, K. */
const START_SD_C = 3;

/**
 * Free run of open water in exchange with the air: the lake model of a shallow lake. Its parameters come from lakes;
 * no wide river was at hand to try it on.
 */
export function runOpenWater(
  forcing: RiverForcing,
  weather: readonly RiverWeatherDay[],
  latDeg: number,
): RiverFreeRun {
  const { firstDay, count, airC, airVar, dead, starts } = forcing;
  const given = new Map(weather.map((day) => [day.date, day]));
  const bridged = Array.from({ length: count }, (_, j) => {
    const date = isoDate(firstDay + j);
    return { ...given.get(date), date, airC: dead[j] === 1 ? null : at(airC, j) };
  });
  const lake = runFree({ latDeg, meanDepthM: DEPTH_M, areaKm2: AREA_KM2 }, bridged);
  const freeC = new Float64Array(count);
  const keep = new Float64Array(count).fill(1);
  const forcingVar = new Float64Array(count);
  const shift = firstDay - lake.forcing.firstDay;
  for (let j = 0; j < count; j++) {
    if (dead[j] === 1) continue;
    const left = Math.exp(-at(lake.ratePerDay, j + shift));
    const spell = (1 + AIR_KEEP * left) / (1 - AIR_KEEP * left);
    freeC[j] = at(lake.freeC, j + shift);
    keep[j] = left;
    forcingVar[j] = starts.has(j)
      ? START_SD_C ** 2
      : at(lake.airGain, j + shift) ** 2 * at(airVar, j) * spell +
        at(lake.dryVar, j + shift) * (1 - left ** 2);
  }
  return { freeC, keep, forcingVar };
}
