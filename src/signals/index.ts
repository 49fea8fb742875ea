/** From the record to what the day is judged on: a pure function of the record, the lake and the instant. */
import type { LakeConfig } from '../config/types.ts';
import type { RecordView } from '../record/types.ts';
import { airSignals } from './air.ts';
import { addDays, DAY_MS, HOUR_MS } from '../units/calendar.ts';
import { localDateAt, startOfDayMs } from '../units/localTime.ts';
import { claritySignals } from './clarity.ts';
import { figure, type Provenance } from './figure.ts';
import { flowSignals } from './flows.ts';
import { bestGauge } from './gauge.ts';
import { lakeSignals } from './lake.ts';
import { levelSignals, type LevelResult } from './levels.ts';
import { waterModels, type WaterModels } from './models.ts';
import { leadingPocket, pocketReports, pocketSignals } from './pockets.ts';
import { rainSignals } from './rain.ts';
import { rainCheck } from './rainCheck.ts';
import { hourPoints, skySignals, sunOf } from './sky.ts';
import { sourcesOf, type Attribution } from './sources.ts';
import type { Conditions, DayPoint, Figure, Gap, SignalId, SignalReport } from './types.ts';
import { coveredDates, localDays } from './weather.ts';

export { estimateWaters, type PocketEstimate, type WaterEstimates } from './estimates.ts';
export type * from './types.ts';
export { SIGNALS, SPECIES, WATER_BODIES } from './types.ts';

/** Days for which a refused reading is named. */
const REFUSAL_DAYS = 10;
const DATED_WRONG = {
  late: 'The daily values of the thermometer seem dated a day late. Each counts for the day before.',
  early: 'The daily values of the thermometer seem dated a day early. Check its dates.',
} as const;
const SOURCE_WORDS: Record<string, string> = {
  'open-meteo': 'Open-Meteo model',
  nws: 'US National Weather Service',
  'open-meteo-archive': 'Open-Meteo archive',
};

interface Tables extends WaterModels {
  readonly view: RecordView;
  readonly lake: LakeConfig;
  readonly level: LevelResult;
}

function windowOfDay(lake: LakeConfig, date: string): { dawnMs: number; duskMs: number } {
  const sun = sunOf(lake, date);
  const midnight = startOfDayMs(date, lake.zone);
  return { dawnMs: sun.dawnMs ?? midnight + 6 * HOUR_MS, duskMs: sun.duskMs ?? midnight + 19 * HOUR_MS };
}

/** Conditions at `nowMs`: the as-of instant itself, or the same hour of a coming day, seen through the forecast. */
function conditionsAt(tables: Tables, nowMs: number, gaps: readonly Gap[]): Conditions {
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
  const fetch =
    lake.fetchM === undefined
      ? null
      : figure(lake.fetchM, {
          kind: 'estimated',
          asOfMs: nowMs,
          freshness: 'fresh',
          source: 'configuration',
        });
  const bank = figure(lake.bankDeg, {
    kind: 'estimated',
    asOfMs: nowMs,
    freshness: 'fresh',
    source: 'configuration',
  });
  const { dawnMs, duskMs } = windowOfDay(lake, date);
  const signals: Partial<Record<SignalId, Figure>> = {
    ...airSignals(weather, lake.zone, nowMs, estimated),
    ...rainSignals(weather, lake.zone, nowMs, estimated, lakeNow.waterC?.value ?? null),
    ...skySignals(weather, lake, nowMs, estimated),
    ...lakeNow,
    ...pocketSignals(pockets, nowMs, dawnMs - HOUR_MS, duskMs, estimated, lake.zone),
    ...claritySignals(view, lake, weather, nowMs).signals,
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

function ageWords(ms: number): string {
  const hours = Math.round(ms / HOUR_MS);
  return hours < 48 ? `${hours} ${hours === 1 ? 'hour' : 'hours'}` : `${Math.round(hours / 24)} days`;
}

function gapsOf(tables: Tables): Gap[] {
  const { view, lake, weather, water } = tables;
  const gaps: Gap[] = [];
  if (weather.lastMs === null)
    gaps.push({
      id: 'weather',
      sentence: 'No weather at all has reached the record: nothing that rests on it is printed.',
    });
  else if (tables.weatherFreshness === 'stale')
    gaps.push({
      id: 'weather',
      sentence: `The weather is ${ageWords(view.asOfMs - weather.lastMs)} old: too old for a forecast, no rule uses it.`,
    });
  else if (tables.weatherFreshness === 'ageing')
    gaps.push({
      id: 'weather',
      sentence: `The weather was last fetched ${ageWords(view.asOfMs - weather.lastMs)} ago.`,
    });
  gaps.push(...tables.level.gaps);
  const thermometer = bestGauge(view, lake, 'water_temp');
  if (thermometer?.freshness === 'stale') {
    const last = figure(thermometer.rows.at(-1)?.value, {
      kind: 'observed',
      asOfMs: thermometer.lastMs,
      freshness: 'stale',
      source: 'gauge thermometer',
    });
    gaps.push({
      id: 'waterC',
      sentence: `The lake thermometer has been silent for ${ageWords(view.asOfMs - thermometer.lastMs)}: the lake model carries on from it.`,
      ...(last ? { last } : {}),
    });
  } else if (water.readings.length === 0 && water.days.length > 0) {
    gaps.push({
      id: 'waterC',
      sentence:
        'No water reading yet: the lake temperature is the model alone. One reading will about halve its error.',
    });
  }
  const oldestNamed = localDateAt(view.asOfMs - REFUSAL_DAYS * DAY_MS, lake.zone);
  const refused = water.refused.filter((r) => r.dating === undefined && r.reading.date >= oldestNamed);
  for (const { reason } of refused.slice(-2))
    gaps.push({ id: 'waterC', sentence: `A water reading was refused: ${reason.replace(/\.$/, '')}.` });
  if (water.dating !== 'right') gaps.push({ id: 'waterC', sentence: DATED_WRONG[water.dating] });
  for (const { name, used, refused } of tables.pockets) {
    const last = refused.at(-1);
    // A refusal that a later reading has outlived is no gap.
    if (last && last.reading.atMs > Math.max(view.asOfMs - REFUSAL_DAYS * DAY_MS, used.at(-1)?.atMs ?? 0))
      gaps.push({
        id: 'pocketC',
        sentence: `A reading in ${name.replaceAll('{{', '{ {')} was refused: ${last.reason.replace(/\.$/, '')}.`,
      });
  }
  const doubts = view.observations.filter(
    (row) => row.doubt !== undefined && row.atMs > view.asOfMs - 3 * DAY_MS,
  );
  const first = doubts[0];
  if (first)
    gaps.push({
      id: 'gauge',
      sentence: `${doubts.length} gauge ${doubts.length === 1 ? 'value was' : 'values were'} not believed in three days (${first.variable.replace('_', ' ')}: ${first.doubt ?? ''}).`,
    });
  for (const failed of view.retrievals
    .filter((row) => !row.ok && row.atMs > view.asOfMs - DAY_MS)
    .slice(-3)) {
    if (!view.retrievals.some((row) => row.ok && row.source === failed.source && row.atMs > failed.atMs))
      gaps.push({ id: 'weather', sentence: failed.problem });
  }
  if (lake.alerts === 'none' || view.alertsCheckedMs === null)
    gaps.push({
      id: 'alerts',
      sentence: 'Official alerts were not checked: look at your weather office before you launch.',
    });
  if (lake.floodGauge === undefined)
    gaps.push({ id: 'flood', sentence: 'No flood gauge is configured: flood stages were not checked.' });
  return gaps;
}

function dayPoints(tables: Tables): DayPoint[] {
  const { view, lake, weather, water } = tables;
  const today = localDateAt(view.asOfMs, lake.zone);
  const covered = coveredDates(weather, lake.zone);
  const level = bestGauge(view, lake, 'level');
  const last = covered && covered.last > today ? covered.last : today;
  return localDays(
    weather,
    lake.zone,
    addDays(today, -9),
    last < addDays(today, 6) ? last : addDays(today, 6),
  ).map((day) => {
    const model = water.byDate.get(day.date);
    const from = startOfDayMs(day.date, lake.zone);
    const levels =
      level?.rows.filter((row) => row.atMs >= from && row.atMs < from + DAY_MS).map((row) => row.value) ?? [];
    const entries = {
      airMeanC: day.airC,
      airMinC: day.airMinC,
      airMaxC: day.airMaxC,
      rainMm: day.rainMm,
      windMs: day.windMs,
      cloudPct: day.cloudPct,
      waterC: model?.waterC,
      waterLowC: model?.lowC,
      waterHighC: model?.highC,
      levelM: levels.length > 0 ? levels.reduce((a, b) => a + b, 0) / levels.length : null,
    };
    return {
      date: day.date,
      forecast: day.date > today || day.forecastHours > 12,
      ...Object.fromEntries(
        Object.entries(entries).filter(([, value]) => value !== null && value !== undefined),
      ),
    };
  });
}

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
  const { dawnMs, duskMs } = windowOfDay(lake, today);
  const estimated: Provenance = {
    kind: 'estimated',
    asOfMs: weather.lastMs ?? view.asOfMs,
    freshness: weatherFreshness,
    source: '',
  };
  const lead = leadingPocket(pockets, view.asOfMs, Math.max(view.asOfMs, dawnMs - HOUR_MS), duskMs);
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
    pockets: pocketReports(pockets, Math.max(view.asOfMs, dawnMs - HOUR_MS), duskMs, estimated, lake.zone),
    readingsUsed: view.readings.flatMap((reading) =>
      reading.waterC === undefined || reading.pocket !== undefined
        ? []
        : [{ atMs: reading.atMs, waterC: reading.waterC, where: reading.where }],
    ),
    estimateBeforeReadingC: water.beforeReadingC,
    ...(tables.level.band === null ? {} : { levelBand: tables.level.band }),
    ...(check === null ? {} : { rainCheck: check }),
    sun: sunOf(lake, today),
    ahead: ahead.map((days) => {
      const date = addDays(today, days);
      // The same local clock time of that day, so that a clock change does not shift the windows.
      const nowMs = startOfDayMs(date, lake.zone) + (view.asOfMs - startOfDayMs(today, lake.zone));
      return { date, lead: days, conditions: conditionsAt(tables, nowMs, []) };
    }),
    sources: sourcesOf(view, attributions),
  };
}
