/** The lake's temperature day by day: the model of water/lake fed by the record. */
import type { LakeConfig } from '../config/types.ts';
import type { Reading, RecordView } from '../record/types.ts';
import { median } from '../science/index.ts';
import {
  nowcastLake,
  waterChange,
  type Dating,
  type LakeDay,
  type RefusedReading,
  type WaterReading,
  type WeatherDay,
} from '../water/lake/index.ts';
import { nowcastPool, nowcastRiver, type RiverKind } from '../water/river/index.ts';
import { addDays, DAY_MS } from '../units/calendar.ts';
import { localDateAt, localHourAt } from '../units/localTime.ts';
import { figure, mean } from './figure.ts';
import { bestGauge, gaugeSeries, type GaugeSeries } from './gauge.ts';
import type { Figure, Freshness, SignalId } from './types.ts';
import { coveredDates, localDays, type WeatherTable } from './weather.ts';
import { readingWords } from './words.ts';

/** A temperature that an angler took in the main lake. */
export interface TakenReading {
  readonly id: string;
  readonly atMs: number;
  readonly waterC: number;
  readonly where: string;
  /** Why the model does not believe it, in a sentence; null when it counts. */
  readonly refusal: string | null;
}

export interface LakeTable {
  readonly days: readonly LakeDay[];
  readonly byDate: ReadonlyMap<string, LakeDay>;
  readonly readings: readonly WaterReading[];
  readonly refused: readonly RefusedReading[];
  /** What anglers took in the main lake, oldest first. */
  readonly taken: readonly TakenReading[];
  /** Today's estimate without the last of them that counted; null where that is more than a week old. */
  readonly beforeReadingC: number | null;
  readonly dating: Dating;
}

/** Days for which a reading is thanked for by showing what it moved. */
export const THANKS_DAYS = 7;
/** A gauge thermometer's day counts as a daily mean from this many values spread over it; fewer stand for their hour. */
export const DAILY_MEAN_FROM = 12;

/** The gauge thermometer that stands for the main lake. */
export function mainThermometer(view: RecordView, lake: LakeConfig): GaugeSeries | undefined {
  return gaugeSeries(view, lake, 'water_temp').find(
    (series) => !/pocket|inflow|above the lake/i.test(series.gauge.where),
  );
}

/**
 * Readings of the main lake in date order: each day of the gauge thermometer as a daily mean or, with too few values, its
 * last one; and what anglers read. Readings in pockets are left out.
 */
export function lakeReadings(view: RecordView, lake: LakeConfig): WaterReading[] {
  const found: WaterReading[] = [];
  const best = mainThermometer(view, lake);
  if (best) {
    const byDate = new Map<string, { atMs: number; value: number }[]>();
    for (const row of best.rows) {
      const date = localDateAt(row.atMs, lake.zone);
      byDate.set(date, [...(byDate.get(date) ?? []), { atMs: row.atMs, value: row.value }]);
    }
    for (const [date, rows] of byDate) {
      const last = rows.at(-1);
      if (!last) continue;
      const depthM = best.gauge.depthM ?? 1;
      const base = { date, depthM, sdC: 0.3, source: 'gauge' as const };
      const spreadMs = last.atMs - (rows[0]?.atMs ?? 0);
      if (rows.length >= DAILY_MEAN_FROM && spreadMs > 0.75 * DAY_MS)
        found.push({ ...base, waterC: mean(rows.map((row) => row.value)) ?? last.value });
      else found.push({ ...base, hour: localHourAt(last.atMs, lake.zone), waterC: last.value });
    }
  }
  for (const { water } of anglerReadings(view, lake)) found.push(water);
  return found.sort((a, b) => a.date.localeCompare(b.date));
}

/** What anglers took in the main lake, oldest first, each as the model reads it. */
function anglerReadings(view: RecordView, lake: LakeConfig): { kept: Reading; water: WaterReading }[] {
  return view.readings
    .flatMap((kept) =>
      kept.waterC === undefined || kept.pocket !== undefined
        ? []
        : [
            {
              kept,
              water: {
                date: localDateAt(kept.atMs, lake.zone),
                hour: localHourAt(kept.atMs, lake.zone),
                waterC: kept.waterC,
                depthM: kept.depthM,
                sdC: kept.sdC,
                source: 'angler' as const,
              },
            },
          ],
    )
    .sort((a, b) => a.kept.atMs - b.kept.atMs);
}

/** Why a reading does not count. Readings of a day from one depth are judged together, and one of them is named. */
function refusalOf(reading: WaterReading, refused: readonly RefusedReading[]): string | null {
  const found = refused.find(
    ({ reading: other, dating }) =>
      dating === undefined &&
      other.source === reading.source &&
      other.date === reading.date &&
      other.depthM === reading.depthM,
  );
  return found?.reason ?? null;
}

/** The longest span whose change is told, and today. */
const HINDSIGHT_DAYS = 31;

type WaterResult = ReturnType<typeof nowcastLake>;

/** Mean discharge of each local date that a gauge covers, m3/s: a dam that runs half the day has no usual hour. */
function dailyDischarge(view: RecordView, lake: LakeConfig): ReadonlyMap<string, number> {
  const series =
    bestGauge(view, lake, 'release') ?? bestGauge(view, lake, 'discharge') ?? bestGauge(view, lake, 'inflow');
  const byDate = new Map<string, number[]>();
  for (const row of series?.rows ?? []) {
    const date = localDateAt(row.atMs, lake.zone);
    byDate.set(date, [...(byDate.get(date) ?? []), row.value]);
  }
  return new Map(
    [...byDate].flatMap(([date, values]) => {
      const flow = mean(values);
      return flow === null ? [] : [[date, flow] as const];
    }),
  );
}

/** Discharge of a usual day, m3/s; null where none above 0 is known. */
function usualOf(discharge: ReadonlyMap<string, number>): number | null {
  const usual = discharge.size === 0 ? 0 : median([...discharge.values()]);
  return usual > 0 ? usual : null;
}

/** Discharge of a usual day of the record, m3/s; null where none above 0 is known. */
export function usualFlowM3s(view: RecordView, lake: LakeConfig): number | null {
  return usualOf(dailyDischarge(view, lake));
}

/**
 * The model that suits the water: a lake's for a lake; the river's for a tailwater; for a run-of-river pool both, by
 * the time its water stays. Without a discharge gauge a pool is taken for a lake.
 *
 * @param firstForecastDate today counts as known, so that a reading of this morning moves this morning's estimate
 */
function estimateWater(
  lake: LakeConfig,
  days: readonly WeatherDay[],
  readings: readonly WaterReading[],
  firstForecastDate: string,
  discharge: ReadonlyMap<string, number>,
): WaterResult {
  const site = { latDeg: lake.latDeg, meanDepthM: lake.meanDepthM, areaKm2: lake.areaKm2 };
  const asLake = (): WaterResult =>
    nowcastLake(site, days, readings, {
      firstForecastDate,
      readingLagDays: 0,
      hindsightDays: HINDSIGHT_DAYS,
    });
  const asRiver = (kind: RiverKind): WaterResult => {
    const flowing = days.map((day) => {
      const dischargeM3s = discharge.get(day.date);
      return { ...day, ...(dischargeM3s === undefined ? {} : { dischargeM3s }) };
    });
    const options = { firstForecastDate, latDeg: lake.latDeg, hindsightDays: HINDSIGHT_DAYS };
    return nowcastRiver(kind, flowing, readings, options);
  };
  if (lake.waterBody === 'tailwater') return asRiver(lake.riverKind ?? 'regulated');
  const usual = usualOf(discharge);
  if (lake.waterBody !== 'run-of-river' || usual === null) return asLake();
  const pool = asLake();
  const residenceDays = (lake.meanDepthM * lake.areaKm2 * 1e6) / (usual * 86_400);
  return { ...pool, days: nowcastPool(pool.days, asRiver(lake.riverKind ?? 'wide').days, residenceDays) };
}

/** Runs the water model over all weather of the record; empty without weather. */
export function lakeTable(view: RecordView, lake: LakeConfig, weather: WeatherTable): LakeTable {
  const covered = coveredDates(weather, lake.zone);
  const readings = lakeReadings(view, lake);
  if (!covered)
    return {
      days: [],
      byDate: new Map(),
      readings,
      refused: [],
      taken: [],
      beforeReadingC: null,
      dating: 'right',
    };
  const today = localDateAt(view.asOfMs, lake.zone);
  const days = localDays(weather, lake.zone, covered.first, covered.last).map((day) => ({
    date: day.date,
    airC: day.airC,
    ...(day.airMinC === null ? {} : { airMinC: day.airMinC }),
    ...(day.airMaxC === null ? {} : { airMaxC: day.airMaxC }),
    ...(day.solarWm2 === null ? {} : { solarWm2: day.solarWm2 }),
    ...(day.dewPointC === null ? {} : { dewPointC: day.dewPointC }),
    ...(day.windMs === null ? {} : { windMs: day.windMs }),
    ...(day.rainMm === null ? {} : { rainMm: day.rainMm }),
  }));
  const discharge = dailyDischarge(view, lake);
  const estimate = (known: readonly WaterReading[]) =>
    estimateWater(lake, days, known, addDays(today, 1), discharge);
  const result = estimate(readings);
  const byDate = new Map(result.days.map((day) => [day.date, day]));
  const taken = anglerReadings(view, lake).map(({ kept, water }) => ({
    id: kept.id,
    atMs: kept.atMs,
    waterC: water.waterC,
    where: kept.where,
    refusal: refusalOf(water, result.refused),
  }));
  const last = taken.filter(({ refusal }) => refusal === null).at(-1);
  const isRecent = last !== undefined && last.atMs >= view.asOfMs - THANKS_DAYS * DAY_MS;
  const without = { ...view, readings: view.readings.filter(({ id }) => id !== last?.id) };
  const before = isRecent ? estimate(lakeReadings(without, lake)) : null;
  return {
    days: result.days,
    byDate,
    readings,
    refused: result.refused,
    dating: result.dating ?? 'right',
    taken,
    beforeReadingC: before?.days.find((day) => day.date === today)?.waterC ?? null,
  };
}

/**
 * Water temperature of a local date, its changes before, and the one to come.
 *
 * @returns none where the model has no estimate of the date
 */
export function lakeSignals(
  table: LakeTable,
  date: string,
  nowMs: number,
  weatherFreshness: Freshness,
  ahead: boolean,
): Partial<Record<SignalId, Figure>> {
  const today = table.byDate.get(date);
  if (!today) return {};
  const from = {
    kind: ahead ? ('forecast' as const) : ('estimated' as const),
    asOfMs: nowMs,
    freshness: weatherFreshness,
    source: `water model, ${today.readingAgeDays === null ? 'no water reading yet' : readingWords(today.readingAgeDays)}`,
  };
  const signals: Partial<Record<SignalId, Figure>> = {};
  const water = figure(today.waterC, from, today.lowC, today.highC);
  if (water) signals.waterC = water;
  for (const [id, span] of [
    ['waterChange1dC', 1],
    ['waterChange3dC', 3],
    ['waterChange7dC', 7],
    ['waterChange30dC', 30],
  ] as const) {
    const change = waterChange(table.days, date, span);
    const made = change && figure(change.changeC, from, change.lowC, change.highC);
    if (made) signals[id] = made;
  }
  const later = table.byDate.get(addDays(date, 3));
  const coming = later && figure(later.waterC - today.waterC, { ...from, kind: 'forecast' });
  if (coming) signals.waterForecast3dC = coming;
  return signals;
}
