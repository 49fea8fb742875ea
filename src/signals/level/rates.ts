/** How fast the level moves, beside what wind and sensor can pretend. */
import type { LakeConfig } from '../../config/index.ts';
import { HOUR_MS } from '../../units/time/index.ts';
import { windSetupM } from '../../science/index.ts';
import { levelChange } from '../../water/level/index.ts';
import { mean, signalsFrom, type Provenance } from '../figure.ts';
import { gaugeRows, type GaugeSeries } from '../gauge.ts';
import type { Signals } from '../types.ts';
import type { WeatherTable } from '../weather/index.ts';

const SPANS = [
  ['level6hM', 6],
  ['level24hM', 24],
  ['level72hM', 72],
] as const;
/** The longest of them, and what their windows may reach back beyond it, h. */
const LONGEST_H = 80;
/** A lake's surface follows the wind within about this time, h. */
const TILT_H = 3;

/** Changes over 6, 24 and 72 h, and the rate of the last six. */
export function rates(
  level: GaugeSeries,
  lake: LakeConfig,
  weather: WeatherTable,
  from: Provenance,
): Signals {
  const { signals, put } = signalsFrom(from);
  const points = gaugeRows(level, level.lastMs - LONGEST_H * HOUR_MS).map(({ atMs, value }) => ({
    atMs,
    levelM: value,
  }));
  for (const [id, span] of SPANS) {
    const change = levelChange(
      points,
      level.lastMs,
      span,
      tiltM(weather, lake, level.lastMs - span * HOUR_MS, level.lastMs),
    );
    if (!change) continue;
    // What the noise of the sensor or a wind set-up explains is reported as no change.
    const changeM = change.significant ? change.changeM : 0;
    put(id, changeM, changeM - change.noiseM, changeM + change.noiseM);
    if (span === 6) put('levelRateMPerH', change.significant ? change.rateMPerH : 0);
  }
  return signals;
}

/**
 * Most that a change of the wind can have moved the level at a gauge between two instants, m: the set-up goes with the
 * square of the wind along the fetch, and the gauge may stand at either end of it. 0 where the fetch is not known.
 */
function tiltM(weather: WeatherTable, lake: LakeConfig, startMs: number, endMs: number): number {
  if (lake.fetchM === undefined) return 0;
  const [before, after] = [pushOf(weather, startMs), pushOf(weather, endMs)];
  const movedM2S2 = Math.hypot(after.east - before.east, after.north - before.north);
  // Without directions the wind may have turned right round.
  const mostM2S2 = Number.isNaN(movedM2S2) ? before.square + after.square : movedM2S2;
  return windSetupM(1, lake.fetchM, lake.meanDepthM) * mostM2S2;
}

/** Taken where no wind is known: a fresh day's on open water, m/s (common practice, no source). */
const USUAL_WIND_MS = 5;

/** Mean square of the wind in the hours up to an instant, and its parts, m2/s2; NaN where a bearing is not known. */
function pushOf(
  { wind, windDir }: WeatherTable,
  atMs: number,
): { readonly square: number; readonly east: number; readonly north: number } {
  const hours: { readonly square: number; readonly angle: number }[] = [];
  wind.eachWithin(atMs - TILT_H * HOUR_MS, atMs, (windMs, endMs) => {
    hours.push({ square: windMs ** 2, angle: ((windDir.at(endMs) ?? Number.NaN) * Math.PI) / 180 });
  });
  const part = (of: (angle: number) => number): number =>
    mean(hours.map(({ square, angle }) => square * of(angle))) ?? Number.NaN;
  return {
    square: mean(hours.map(({ square }) => square)) ?? USUAL_WIND_MS ** 2,
    east: part(Math.sin),
    north: part(Math.cos),
  };
}
