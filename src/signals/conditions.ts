/** Every signal of a lake at one instant, now or on a day ahead. */
import { HOUR_MS } from '../units/calendar.ts';
import { localDateAt } from '../units/localTime.ts';
import { airSignals } from './air.ts';
import { claritySignals } from './clarity.ts';
import { figure, type Provenance } from './figure.ts';
import { flowSignals } from './flows.ts';
import { lakeSignals } from './lake.ts';
import { pocketSignals } from './pockets.ts';
import { rainSignals } from './rain.ts';
import { fishingDay, skySignals } from './sky.ts';
import type { Tables } from './tables.ts';
import type { Conditions, Figure, Gap, SignalId } from './types.ts';

const SOURCE_WORDS: Record<string, string> = {
  'open-meteo': 'Open-Meteo model',
  nws: 'US National Weather Service',
  'open-meteo-archive': 'Open-Meteo archive',
};

/** Conditions at `nowMs`: the as-of instant itself, or the same hour of a coming day, seen through the forecast. */
export function conditionsAt(tables: Tables, nowMs: number, gaps: readonly Gap[]): Conditions {
  const { view, lake, weather, water, pockets, weatherFreshness } = tables;
  const ahead = nowMs > view.asOfMs;
  const date = localDateAt(nowMs, lake.zone);
  const source = SOURCE_WORDS[weather.source] ?? weather.source;
  const estimated: Provenance = {
    kind: ahead ? 'forecast' : 'estimated',
    asOfMs: weather.lastMs ?? nowMs,
    freshness: weatherFreshness,
    source,
  };
  const lakeNow = lakeSignals(water, date, nowMs, weatherFreshness, ahead);
  const configured: Provenance = {
    kind: 'estimated',
    asOfMs: nowMs,
    freshness: 'fresh',
    source: 'configuration',
  };
  const fetch = figure(lake.fetchM, configured);
  const bank = figure(lake.bankDeg, configured);
  const { dawnMs, duskMs } = fishingDay(lake, date);
  const signals: Partial<Record<SignalId, Figure>> = {
    ...airSignals(weather, lake.zone, nowMs, estimated),
    ...rainSignals(weather, lake.zone, nowMs, estimated, lakeNow.waterC?.value ?? null),
    ...skySignals(weather, lake, nowMs, estimated),
    ...lakeNow,
    ...pocketSignals(pockets, nowMs, dawnMs - HOUR_MS, duskMs, estimated, lake.zone),
    ...claritySignals(view, lake, weather, nowMs, weatherFreshness).signals,
    ...(ahead ? {} : { ...flowSignals(view, lake), ...tables.level.signals }),
    ...(fetch ? { fetchM: fetch } : {}),
    ...(bank ? { bankDeg: bank } : {}),
  };
  const known = Object.fromEntries(
    Object.entries(signals).filter(([, value]) => value.freshness !== 'stale'),
  );
  return {
    asOfMs: nowMs,
    date,
    zone: lake.zone,
    latDeg: lake.latDeg,
    species: lake.species,
    waterBody: lake.waterBody,
    signals: known,
    gaps,
  };
}
