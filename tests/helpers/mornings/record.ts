/** An invented morning as rows of a record: what services would have brought until the hour of issue. */
import { DateTime } from 'luxon';
import type { LakeConfig } from '../../../src/config/types.ts';
import type { RecordStore } from '../../../src/record/index.ts';
import type { Observation, Retrieval, Variable } from '../../../src/record/types.ts';
import type { MorningPlan, Silence } from './plan.ts';
import { waterHours } from './water.ts';
import { DAY_MS, HOUR_MS, weatherHours, type Hour } from './weather.ts';

const AHEAD_DAYS = 7;
/** A year of levels lies behind a morning for its range, and of weather what the lake model needs to forget its start. */
const LEVEL_DAYS = 400;
const WEATHER_DAYS = 220;
/** Only the newest days of these are ever asked for. */
const BRIEF: readonly Variable[] = ['wind_gust', 'wind_dir', 'thunder'];
const BRIEF_DAYS = 12;
/** Gauges by the hour over these days; before them the level alone, four times a day, for the year's range. */
const HOURLY_DAYS = 45;
/** A station's hours behind the morning: as far as scored issues reach. */
const STATION_DAYS = 20;

const SERIES: readonly [Variable, (hour: Hour) => number | null, number][] = [
  ['air_temp', ({ airC }) => airC, 0],
  ['humidity', ({ humidityPct }) => humidityPct, 0],
  ['rain', ({ rainMm }) => rainMm, 3600],
  ['wind_speed', ({ windMs }) => windMs, 0],
  ['wind_gust', ({ gustMs }) => gustMs, 0],
  ['wind_dir', ({ windDirDeg }) => windDirDeg, 0],
  ['cloud', ({ cloudPct }) => cloudPct, 0],
  ['shortwave', ({ sunWm2 }) => sunWm2, 3600],
  ['thunder', ({ thunderPct }) => thunderPct, 0],
];

/** Local date and the lake's hour of issue, some days before the morning. */
export function issueMs(plan: MorningPlan, lake: LakeConfig, daysBefore = 0): number {
  const [hour = 0, minute = 0] = lake.issueAt.split(':').map(Number);
  return DateTime.fromISO(plan.date, { zone: lake.zone })
    .minus({ days: daysBefore })
    .set({ hour, minute })
    .toMillis();
}

/** How far a forecast is off at an hour: a degree or two, growing with the lead. */
function missed(hour: Hour, leadH: number): Hour {
  const miss = Math.sin(hour.atMs / DAY_MS / 0.83) * Math.min(1, 0.3 + leadH / 60);
  return {
    ...hour,
    airC: hour.airC + 1.6 * miss,
    windMs: Math.max(0.3, hour.windMs + 0.9 * miss),
  };
}

function weatherRows(plan: MorningPlan, lake: LakeConfig, hours: readonly Hour[]): Observation[] {
  const nowMs = issueMs(plan, lake);
  const quiet = silenceOf(plan, 'open-meteo');
  const rows: Observation[] = [];
  const put = (hour: Hour, more: Pick<Observation, 'kind' | 'issuedMs'> & Partial<Observation>): void => {
    for (const [variable, pick, periodS] of SERIES) {
      const value = pick(hour);
      const { atMs } = hour;
      if (value === null || (BRIEF.includes(variable) && atMs < nowMs - BRIEF_DAYS * DAY_MS)) continue;
      rows.push({
        lake: lake.id,
        variable,
        source: 'open-meteo',
        station: '',
        atMs,
        periodS,
        value,
        ...more,
      });
    }
  };
  for (let back = plan.issuesBefore ?? 0; back >= 0; back -= 1) {
    const issuedMs = lastHour(issueMs(plan, lake, back) - (quiet?.hours ?? 1) * HOUR_MS);
    for (const hour of hours) {
      const leadH = (hour.atMs - issuedMs) / HOUR_MS;
      if (leadH > 0 && leadH <= AHEAD_DAYS * 24)
        put(plan.measured === true ? missed(hour, leadH) : hour, { kind: 'forecast', issuedMs });
      else if (back === 0 && leadH <= 0) put(hour, { kind: 'model', issuedMs: null });
    }
  }
  if (plan.measured === true)
    for (const hour of hours)
      if (hour.atMs <= nowMs && hour.atMs > nowMs - STATION_DAYS * DAY_MS)
        put(hour, { kind: 'observed', issuedMs: null, source: 'nws', station: 'KQBL' });
  return rows;
}

const lastHour = (atMs: number): number => Math.floor(atMs / HOUR_MS) * HOUR_MS;

const silenceOf = (
  plan: MorningPlan,
  service: Silence['service'],
  variable?: Variable,
): Silence | undefined =>
  plan.silences?.find(
    (one) => one.service === service && (one.variable === undefined || one.variable === variable),
  );

function gaugeRows(plan: MorningPlan, lake: LakeConfig, hours: readonly Hour[]): Observation[] {
  const nowMs = issueMs(plan, lake);
  const water = waterHours(hours, lake, (atMs) => plan.extraReleaseM3s?.((nowMs - atMs) / HOUR_MS) ?? 0);
  return lake.gauges.flatMap(({ service, station, variable, datum }) => {
    if (variable !== 'level' && variable !== 'discharge') return [];
    const lastMs = nowMs - (silenceOf(plan, 'usgs', variable)?.hours ?? 0) * HOUR_MS;
    return water
      .filter(({ atMs }) => atMs <= lastMs)
      .filter(
        ({ atMs }) =>
          atMs > nowMs - HOURLY_DAYS * DAY_MS || (variable === 'level' && atMs % (6 * HOUR_MS) === 0),
      )
      .map(({ atMs, levelM, inflowM3s }) => ({
        lake: lake.id,
        variable,
        source: service,
        station,
        kind: 'observed' as const,
        atMs,
        periodS: 0,
        value: variable === 'level' ? levelM : inflowM3s,
        issuedMs: null,
        ...(datum === undefined ? {} : { datum }),
      }));
  });
}

function retrievals(plan: MorningPlan, lake: LakeConfig, atMs: number): Retrieval[] {
  const asked = ['open-meteo', ...new Set(lake.gauges.map(({ service }) => service))];
  return asked.map((source) => {
    const problem = plan.silences?.find(({ service }) => service === source)?.problem ?? '';
    const ok = problem === '';
    return {
      lake: lake.id,
      source,
      atMs,
      ok,
      status: ok ? 200 : null,
      durationMs: 300,
      bytes: 9000,
      problem,
    };
  });
}

/** Everything that services and anglers brought until the morning's issue. */
export async function fillRecord(record: RecordStore, plan: MorningPlan, lake: LakeConfig): Promise<void> {
  const nowMs = issueMs(plan, lake);
  const firstMs = lastHour(nowMs) - LEVEL_DAYS * DAY_MS;
  const hours = weatherHours(plan, lake, firstMs, lastHour(nowMs) + AHEAD_DAYS * DAY_MS);
  const weatherFromMs = nowMs - (plan.weatherDays ?? WEATHER_DAYS) * DAY_MS;
  await record.putObservations([
    ...weatherRows(
      plan,
      lake,
      hours.filter(({ atMs }) => atMs > weatherFromMs),
    ),
    ...gaugeRows(
      plan,
      lake,
      hours.filter(({ atMs }) => atMs <= nowMs),
    ),
  ]);
  for (const [index, { daysAgo, hour, ...reading }] of (plan.readings ?? []).entries()) {
    const atMs = DateTime.fromISO(plan.date, { zone: lake.zone }).minus({ days: daysAgo }).set({ hour });
    await record.putReading({
      id: `reading-${index}`,
      lake: lake.id,
      atMs: atMs.toMillis(),
      depthM: 0.5,
      sdC: 0.5,
      ...reading,
    });
  }
  if (lake.alerts === 'nws' && plan.silences?.some(({ service }) => service === 'open-meteo') !== true) {
    const alerts = (plan.alerts ?? []).map((alert) => ({
      ...alert,
      lake: lake.id,
      onsetMs: nowMs - 6 * HOUR_MS,
      endsMs: lastHour(nowMs) + 31 * HOUR_MS,
      expiresMs: null,
    }));
    await record.putAlerts(lake.id, alerts, nowMs - HOUR_MS);
    if (lake.floodGauge !== undefined) {
      const observed = plan.flood ?? 'none';
      await record.putFloods([
        {
          lake: lake.id,
          station: lake.floodGauge,
          observed,
          forecast: observed,
          atMs: nowMs - HOUR_MS,
          thresholdsM: {},
        },
      ]);
    }
  }
  await record.putRetrievals(retrievals(plan, lake, nowMs - HOUR_MS));
}
