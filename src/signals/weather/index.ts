/** Air and rain: the hourly weather of the record, and what the day is judged on in it. */
import type { LakeConfig } from '../../config/index.ts';
import { freshness, type RecordView } from '../../record/index.ts';
import { HOUR_MS } from '../../units/time/index.ts';
import type { Provenance } from '../figure.ts';
import type { Part } from '../part.ts';
import type { Freshness, Gap, RainCheck } from '../types.ts';
import type { WeatherPartName } from '../facts.ts';
import { airSignals } from './air.ts';
import { LocalDays } from './days.ts';
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
    gaps: gapsOf(view, weather),
    series: { rainCheck: rainCheck(view, lake) },
  };
}

/** Hours ahead in which a part of the weather must be known somewhere. */
const AHEAD_H = 18;

/** What a page tells of the weather in any case. */
const TOLD = ['air', 'wind', 'rain', 'cloud'] as const;

function gapsOf({ asOfMs }: RecordView, { table, freshness }: Weather): Gap[] {
  if (table.lastMs === null) return [{ id: 'weather', fact: { code: 'noWeather' } }];
  if (freshness !== 'stale') {
    const isKnown = (part: (typeof TOLD)[number]): boolean =>
      table[part].endsWithin(asOfMs - HOUR_MS, asOfMs + AHEAD_H * HOUR_MS).length > 0;
    const parts = TOLD.filter((part) => !isKnown(part));
    if (parts.length > 0) return [...ageGap(asOfMs, table.lastMs, freshness), lacking(parts)];
  }
  return ageGap(asOfMs, table.lastMs, freshness);
}

const lacking = (parts: readonly WeatherPartName[]): Gap => ({
  id: 'weather',
  fact: { code: 'weatherLacks', parts },
});

function ageGap(asOfMs: number, lastMs: number, freshness: Freshness): Gap[] {
  if (freshness === 'fresh') return [];
  const code = freshness === 'stale' ? 'weatherTooOld' : 'weatherAgeing';
  return [{ id: 'weather', fact: { code, ageMs: asOfMs - lastMs } }];
}
