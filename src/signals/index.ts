/** From the record to what the day is judged on: a pure function of the record, the lake and the instant. */
import type { LakeConfig } from '../config/index.ts';
import type { RecordView } from '../record/index.ts';
import { addDays, instantOf, localDateAt, sameClockTimeMs } from '../units/time/index.ts';
import { dayPoints } from './dayPoints.ts';
import { figure, knownOf } from './figure.ts';
import { levelPart } from './level/index.ts';
import { hourPoints, lightPart, sunOf, type HourExtras } from './light/index.ts';
import { waterModels } from './models.ts';
import { lakeReport } from './place/index.ts';
import { pocketPart } from './pocket/index.ts';
import { sourcesOf, type Attribution } from './sources.ts';
import type { Conditions, Gap, SignalReport, Signals } from './types.ts';
import { uncheckedGaps } from './unchecked.ts';
import { layerEstimate } from './water/layer.ts';
import { waterPart } from './water/index.ts';
import { weatherPart } from './weather/index.ts';

export { estimateWaters, type PocketEstimate, type WaterEstimates } from './estimates.ts';
export { columnsOf, measuredSince } from './columns.ts';
export { mean } from './figure.ts';
export { gaugeRows, gaugeSeries, isOf, type GaugeSeries } from './gauge.ts';
export { sunOf } from './light/index.ts';
export type * from './facts.ts';
export type * from './types.ts';

export { DAILY_MEAN_FROM, lakeReadings, mainThermometer, pastWater, THANKS_DAYS } from './water/index.ts';
export { guessedHorizon, windOnFaces } from './place/index.ts';
export { layerEstimate } from './water/layer.ts';
export { hourly } from './weather/index.ts';

/** Days ahead that conditions are told of. */
const AHEAD = [1, 2, 3, 4, 5, 6, 7] as const;

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
  return read(view, lake, attributions).today;
}

/**
 * Today, and the coming day as the evening before knows it: its forecast at the hour of its morning issue, and what has
 * no forecast (level, clarity, flow) as it stands now; null where the forecast does not reach through it.
 */
export function readTwoDays(
  view: RecordView,
  lake: LakeConfig,
  attributions: Readonly<Record<string, Attribution>> = {},
): { readonly today: SignalReport; readonly nextDay: SignalReport | null } {
  const { today, nextDay } = read(view, lake, attributions);
  return { today, nextDay: nextDay() };
}

interface Read {
  readonly today: SignalReport;
  readonly nextDay: () => SignalReport | null;
}

function read(view: RecordView, lake: LakeConfig, attributions: Readonly<Record<string, Attribution>>): Read {
  const models = waterModels(view, lake);
  const today = localDateAt(view.asOfMs, lake.zone);
  const waterC = (nowMs: number): number | null =>
    models.water.byDate.get(localDateAt(nowMs, lake.zone))?.waterC ?? null;
  const weather = weatherPart(view, lake, models.weather, waterC);
  const level = levelPart(view, lake, models.weather.table);
  const water = waterPart(
    view,
    lake,
    models.water,
    models.weather.days,
    models.weather.freshness,
    level.signals,
  );
  const pocket = pocketPart(view, lake, models.weather, models.pockets);
  const { release } = level.series;
  const byHour = (startMs: number): HourExtras => ({
    pocketMinusMainC: pocket.series.minusMainK.get(startMs),
    ...release.at(startMs),
  });
  const light = lightPart(view, lake, models.weather, byHour);
  const parts = [weather, light, water, pocket, level];
  const conditionsAt = (nowMs: number, gaps: readonly Gap[]): Conditions => ({
    asOfMs: nowMs,
    date: localDateAt(nowMs, lake.zone),
    zone: lake.zone,
    latDeg: lake.latDeg,
    species: lake.species,
    waterBody: lake.waterBody,
    signals: knownOf(
      Object.assign({}, ...parts.map(({ signals }) => signals(nowMs)), configured(lake, nowMs)) as Signals,
    ),
    gaps,
  });
  const { covered } = models.weather.days;
  const lastDate = covered?.last ?? today;
  const ahead =
    models.weather.freshness === 'stale' ? [] : AHEAD.filter((lead) => addDays(today, lead) < lastDate);
  const { band } = level.series;
  const { clarity } = water.series;
  const { rainCheck } = weather.series;
  const lakeOn = (hours: SignalReport['hours'], sun: SignalReport['sun']): Pick<SignalReport, 'lake'> => {
    const places = lakeReport(lake, hours, sun);
    return places === null ? {} : { lake: places };
  };
  const layerOf = (signals: Signals): Pick<SignalReport, 'layer'> => {
    const layer = layerEstimate(lake, signals.waterC?.value);
    return layer === null ? {} : { layer };
  };
  const now = conditionsAt(view.asOfMs, [
    ...weather.gaps,
    ...level.gaps,
    ...water.gaps,
    ...pocket.gaps,
    ...uncheckedGaps(view, lake, models.water.usualFlowM3s, [...level.gaps, ...water.gaps]),
  ]);
  const report: SignalReport = {
    conditions: now,
    ...layerOf(now.signals),
    days: dayPoints(view.asOfMs, lake, models, level.series),
    hours: light.series.hours,
    pockets: pocket.series.reports,
    ...lakeOn(light.series.hours, light.series.sun),
    release: release.told(today),
    readingsUsed: water.series.taken.flatMap(({ atMs, waterC: takenC, where, refusal }) =>
      refusal === null ? [{ atMs, waterC: takenC, where }] : [],
    ),
    estimateBeforeReadingC: water.series.beforeReadingC,
    ...(band === null ? {} : { levelBand: band }),
    ...(clarity === null ? {} : { clarity }),
    ...(rainCheck === null ? {} : { rainCheck }),
    sun: light.series.sun,
    ahead: ahead.map((lead) => {
      const date = addDays(today, lead);
      return {
        date,
        lead,
        conditions: conditionsAt(sameClockTimeMs(view.asOfMs, date, lake.zone), []),
        hours: hourPoints(models.weather.table, lake, date, release.at),
      };
    }),
    ...(water.series.lessons.some(({ issues }) => issues > 0) ? { outlook: water.series.lessons } : {}),
    sources: sourcesOf(view, attributions),
  };
  return {
    today: report,
    nextDay: () => {
      const date = addDays(today, 1);
      if (!ahead.includes(1)) return null;
      const hours = hourPoints(models.weather.table, lake, date, byHour);
      const then = conditionsAt(instantOf(date, lake.issueAt, lake.zone), report.conditions.gaps);
      return {
        ...report,
        conditions: { ...then, signals: { ...report.conditions.signals, ...then.signals } },
        hours,
        sun: sunOf(lake, date),
        ...lakeOn(hours, sunOf(lake, date)),
        release: release.told(date),
        ahead: report.ahead.flatMap((day) => (day.lead === 1 ? [] : [{ ...day, lead: day.lead - 1 }])),
      };
    },
  };
}

/** What the configuration says of the water. */
function configured(lake: LakeConfig, nowMs: number): Signals {
  const from = {
    kind: 'estimated',
    asOfMs: nowMs,
    freshness: 'fresh',
    source: { code: 'configuration' },
  } as const;
  const fetch = figure(lake.fetchM, from);
  const bank = figure(lake.bankDeg, from);
  const latitude = figure(lake.latDeg, from);
  return {
    ...(fetch ? { fetchM: fetch } : {}),
    ...(bank ? { bankDeg: bank } : {}),
    ...(latitude ? { latitudeDeg: latitude } : {}),
  };
}
