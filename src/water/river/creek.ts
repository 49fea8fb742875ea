import { AirClimate } from '../lake/airClimate.ts';
import { at } from '../series.ts';
import { AIR_KEEP, AIR_SD_C, type RiverForcing } from './forcing.ts';
import type { RiverFreeRun } from './freeRun.ts';

/**
 * A creek as the air of the last day, week and month makes it, about the mean of the year that its ground water keeps.
 * Air below freezing counts as 0 degC, because flowing water gets no colder.
 */
export interface CreekParameters {
  /** Water above the year's mean air where that is 12 degC, K, and the change of it with that mean, K/K. */
  readonly offsetC: number;
  readonly perMeanC: number;
  /** Share of the swing of day, week and month about the mean that reaches the water. */
  readonly day: number;
  readonly week: number;
  readonly month: number;
}

const MIDDLE_C = 12;
const [DAY, WEEK, MONTH] = [1, 7, 30].map((days) => 1 - Math.exp(-1 / days)) as [number, number, number];

/** Free run of a creek over all days; dead days hold the last value. */
export function runCreek(forcing: RiverForcing, p: CreekParameters, latDeg: number): RiverFreeRun {
  const { count, doy, airC, airVar, dead, starts } = forcing;
  const freeC = new Float64Array(count);
  const keep = new Float64Array(count).fill(1 - WEEK);
  const forcingVar = new Float64Array(count);
  const climate = new AirClimate(latDeg);
  // What is left of an error fades by the week, so that as much as fades is added once errors have lasted.
  const addedShare = lastingShare(p) * (1 - (1 - WEEK) ** 2);
  let [day, week, month] = [0, 0, 0];
  for (let j = 0; j < count; j++) {
    if (dead[j] === 1) continue;
    const angle = (2 * Math.PI * at(doy, j)) / 365.25;
    const air = Math.max(0, at(airC, j));
    climate.learn(Math.cos(angle), Math.sin(angle), air);
    const wave = climate.wave();
    const started = starts.has(j);
    if (started) day = week = month = wave.meanC + wave.cosC * Math.cos(angle) + wave.sinC * Math.sin(angle);
    day += DAY * (air - day);
    week += WEEK * (air - week);
    month += MONTH * (air - month);
    const { meanC } = wave;
    freeC[j] = Math.max(
      0,
      meanC +
        p.offsetC +
        p.perMeanC * (meanC - MIDDLE_C) +
        p.day * (day - meanC) +
        p.week * (week - meanC) +
        p.month * (month - meanC),
    );
    forcingVar[j] = started ? (AIR_SD_C * (p.day + p.week)) ** 2 : addedShare * at(airVar, j);
  }
  return { freeC, keep, forcingVar };
}

/**
 * Variance of the water over that of the air under errors of the air that come in spells, once they have lasted: what the
 * means of day, week and month make of numbers that keep a share from day to day, each with each.
 */
function lastingShare(p: CreekParameters): number {
  const parts = [
    { share: p.day, step: DAY },
    { share: p.week, step: WEEK },
    { share: p.month, step: MONTH },
  ];
  const together = parts.flatMap((one) =>
    parts.map((other) => {
      const [kept, otherKept] = [1 - one.step, 1 - other.step];
      const spells = 1 / (1 - AIR_KEEP * kept) + 1 / (1 - AIR_KEEP * otherKept) - 1;
      return (one.share * other.share * one.step * other.step * spells) / (1 - kept * otherKept);
    }),
  );
  return together.reduce((sum, one) => sum + one, 0);
}
