/** Air and rain: the hourly weather of the record, and what the day is judged on in it. */
import type { LakeConfig } from '../../config/index.ts';
import { freshness, type RecordView } from '../../record/index.ts';
import type { Provenance } from '../figure.ts';
import type { Part } from '../part.ts';
import type { Freshness, RainCheck } from '../types.ts';
import { airSignals } from './air.ts';
import { LocalDays } from './days.ts';
import { weatherGaps } from './gaps.ts';
import { rainSignals } from './rain.ts';
import { rainCheck } from './rainCheck.ts';
import { WEATHER_INTERVAL_S, weatherTable, type WeatherTable } from './table.ts';

export { hourly, type HourSeries } from './hourly.ts';
export { stormSign } from './storms.ts';
export type { LocalDays } from './days.ts';
export type { WeatherTable } from './table.ts';

/** The weather of a morning, by hours and by local days. */
export interface Weather {
  readonly table: WeatherTable;
  readonly days: LocalDays;
  readonly freshness: Freshness;
}

export function weatherOf(view: RecordView, lake: LakeConfig): Weather {
  const table = weatherTable(view, lake);
  return {
    table,
    days: new LocalDays(table, lake.zone),
    freshness: table.lastMs === null ? 'stale' : freshness(table.lastMs, view.asOfMs, WEATHER_INTERVAL_S),
  };
}

/** How a figure that rests on the weather is known at an instant. */
export function weatherProvenance({ table, freshness }: Weather, asOfMs: number, nowMs: number): Provenance {
  return {
    kind: nowMs > asOfMs ? 'forecast' : 'estimated',
    asOfMs: table.lastMs ?? nowMs,
    freshness,
    source: { code: 'weather', service: table.service },
  };
}

/** @param waterC water temperature at an instant, degC, that a night's cold is held against; null where unknown */
export function weatherPart(
  view: RecordView,
  lake: LakeConfig,
  weather: Weather,
  waterC: (nowMs: number) => number | null,
): Part<{ readonly rainCheck: RainCheck | null }> {
  const { table, days } = weather;
  return {
    signals: (nowMs) => {
      const from = weatherProvenance(weather, view.asOfMs, nowMs);
      return {
        ...airSignals(table, days, lake.zone, nowMs, from),
        ...rainSignals(table, lake.zone, nowMs, from, waterC(nowMs)),
      };
    },
    gaps: weatherGaps(view.asOfMs, lake.zone, weather),
    series: { rainCheck: rainCheck(view, lake) },
  };
}
