/** Light and wind of the day. */
import type { LakeConfig } from '../../config/index.ts';
import type { RecordView } from '../../record/index.ts';
import { localDateAt } from '../../units/time/index.ts';
import type { Part } from '../part.ts';
import type { HourPoint, SignalReport } from '../types.ts';
import { weatherProvenance, type Weather } from '../weather/index.ts';
import { hourPoints, type HourExtras } from './hours.ts';
import { skySignals } from './sky.ts';
import { sunOf } from './sun.ts';

export { hourPoints, type HourExtras } from './hours.ts';
export { fishingDay, sunOf } from './sun.ts';

export interface LightSeries {
  readonly hours: readonly HourPoint[];
  readonly sun: SignalReport['sun'];
}

/** @param extras what pockets and gauges know of an hour, by its start */
export function lightPart(
  view: RecordView,
  lake: LakeConfig,
  weather: Weather,
  extras: (startMs: number) => HourExtras,
): Part<LightSeries> {
  const today = localDateAt(view.asOfMs, lake.zone);
  return {
    signals: (nowMs) =>
      skySignals(weather.table, lake, nowMs, weatherProvenance(weather, view.asOfMs, nowMs)),
    gaps: [],
    series: {
      hours: hourPoints(weather.table, lake, today, extras),
      sun: sunOf(lake, today),
    },
  };
}
