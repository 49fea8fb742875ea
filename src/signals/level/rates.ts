/** How fast the level moves, beside what wind and sensor can pretend. */
import type { LakeConfig } from '../../config/types.ts';
import { windSetupM } from '../../science/index.ts';
import { HOUR_MS } from '../../units/calendar.ts';
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
  const perSquare = windSetupM(1, lake.fetchM, lake.meanDepthM);
  const [before, after] = [startMs, endMs].map((atMs) => {
    const along = weather.wind.endsWithin(atMs - TILT_H * HOUR_MS, atMs).flatMap((end) => {
      const value = weather.wind.at(end);
      if (value === undefined) return [];
      const bearing = weather.windDir.at(end);
      // Where a bearing is not known, `known` below is false and no component is used.
      const angle = ((bearing ?? 0) * Math.PI) / 180;
      return [
        {
          square: value ** 2,
          east: value ** 2 * Math.sin(angle),
          north: value ** 2 * Math.cos(angle),
          bearing,
        },
      ];
    });
    // Hours without wind move no water.
    return {
      square: mean(along.map(({ square }) => square)) ?? 0,
      east: mean(along.map(({ east }) => east)) ?? 0,
      north: mean(along.map(({ north }) => north)) ?? 0,
      known: along.length > 0 && along.every(({ bearing }) => bearing !== undefined),
    };
  });
  if (before === undefined || after === undefined) return 0;
  // Without directions the wind may have turned right round.
  const moved =
    before.known && after.known
      ? Math.hypot(after.east - before.east, after.north - before.north)
      : before.square + after.square;
  return perSquare * moved;
}
