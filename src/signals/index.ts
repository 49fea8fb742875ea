/** From the record to what the day is judged on: a pure function of the record, the lake and the instant. */
import type { LakeConfig } from '../config/types.ts';
import type { RecordView } from '../record/types.ts';
import { addDays, HOUR_MS } from '../units/calendar.ts';
import { localDateAt, sameClockTimeMs } from '../units/localTime.ts';
import { claritySignals } from './clarity.ts';
import { conditionsAt } from './conditions.ts';
import { dayPoints } from './dayPoints.ts';
import type { Provenance } from './figure.ts';
import { gapsOf } from './gaps.ts';
import { levelSignals } from './levels.ts';
import { waterModels } from './models.ts';
import { leadingPocket, pocketReports } from './pockets.ts';
import { rainCheck } from './rainCheck.ts';
import { fishingDay, hourPoints, sunOf } from './sky.ts';
import { sourcesOf, type Attribution } from './sources.ts';
import type { Tables } from './tables.ts';
import type { SignalReport } from './types.ts';
import { coveredDates } from './weather.ts';

export { THANKS_DAYS } from './lake.ts';
export { estimateWaters, type PocketEstimate, type WaterEstimates } from './estimates.ts';
export type * from './types.ts';
export { SIGNALS, SPECIES, WATER_BODIES } from './types.ts';

/**
 * Everything the day is judged on, and the series the page draws.
 *
 * @param attributions name, credit line, address and licence of each source that may appear in the record
 */
export function readSignals(
  view: RecordView,
  lake: LakeConfig,
  attributions: Readonly<Record<string, Attribution>> = {},
): SignalReport {
  const models = waterModels(view, lake);
  const tables: Tables = { view, lake, ...models, level: levelSignals(view, lake, models.weather) };
  const { weather, weatherFreshness, water, pockets } = tables;
  const today = localDateAt(view.asOfMs, lake.zone);
  const gaps = gapsOf(tables);
  const conditions = conditionsAt(tables, view.asOfMs, gaps);
  const check = rainCheck(view, lake);
  const { clarity } = claritySignals(view, lake, weather, view.asOfMs, weatherFreshness);
  const { dawnMs, duskMs } = fishingDay(lake, today);
  const estimated: Provenance = {
    kind: 'estimated',
    asOfMs: weather.lastMs ?? view.asOfMs,
    freshness: weatherFreshness,
    source: '',
  };
  const leftFromMs = Math.max(view.asOfMs, dawnMs - HOUR_MS);
  const lead = leadingPocket(pockets, view.asOfMs, leftFromMs, duskMs);
  const difference = new Map(lead?.pocket.run.hours.map((hour) => [hour.atMs, hour.minusMainC]) ?? []);
  const lastDate = coveredDates(weather, lake.zone)?.last ?? today;
  const ahead =
    weatherFreshness === 'stale'
      ? []
      : [1, 2, 3, 4, 5, 6, 7].filter((lead) => addDays(today, lead) < lastDate);
  return {
    conditions,
    days: dayPoints(tables),
    hours: hourPoints(weather, lake, today, (atMs) => difference.get(atMs)),
    pockets: pocketReports(pockets, view.asOfMs, leftFromMs, duskMs, estimated, lake.zone),
    readingsUsed: water.taken.flatMap(({ atMs, waterC, where, refusal }) =>
      refusal === null ? [{ atMs, waterC, where }] : [],
    ),
    estimateBeforeReadingC: water.beforeReadingC,
    ...(tables.level.band === null ? {} : { levelBand: tables.level.band }),
    ...(clarity === null ? {} : { clarity }),
    ...(check === null ? {} : { rainCheck: check }),
    sun: sunOf(lake, today),
    ahead: ahead.map((days) => {
      const date = addDays(today, days);
      const nowMs = sameClockTimeMs(view.asOfMs, date, lake.zone);
      return {
        date,
        lead: days,
        conditions: conditionsAt(tables, nowMs, []),
        hours: hourPoints(weather, lake, date, () => undefined),
      };
    }),
    sources: sourcesOf(view, attributions),
  };
}
