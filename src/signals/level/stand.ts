/** Where the level stands: against normal pool and in the range of the year behind. Datums are never mixed. */
import type { LakeConfig } from '../../config/index.ts';
import type { LevelDay, RecordView } from '../../record/index.ts';
import { DAY_MS, HOUR_MS, isoDate, startOfDayMs } from '../../units/time/index.ts';
import { median } from '../../science/index.ts';
import { bandPosition, sameDatum } from '../../water/level/index.ts';
import { signalsFrom, type Provenance } from '../figure.ts';
import { columnsOf } from '../columns.ts';
import type { GapFact } from '../facts.ts';
import { gaugeValues, isOf, type GaugeSeries } from '../gauge.ts';
import type { Gap, LevelBand, Signals } from '../types.ts';

/**
 * Further from normal pool than this, or than three mean depths, a level is on another datum or in another unit: below
 * it no lake has water left, above it even a flood pool ends. Common practice, no source.
 */
const LOWEST_M = 5;
const HIGHEST_M = 15;
/** Daily values of a service are believed to be the gauge's where they agree this well on shared days. */
const AGREE_M = 0.1;
const AGREE_DAYS = 3;

export interface LevelStand {
  readonly signals: Signals;
  readonly gaps: readonly Gap[];
  readonly band: LevelBand | null;
}

/** The level now: median of the last hour, so that one wild value is not the lake. */
export function levelNow(level: GaugeSeries): number {
  return median(gaugeValues(level, level.lastMs - HOUR_MS));
}

/** @param from how the level is known */
export function levelStand(
  view: RecordView,
  lake: LakeConfig,
  level: GaugeSeries,
  from: Provenance,
): LevelStand {
  const { signals, put } = signalsFrom(from);
  const gaps: Gap[] = [];
  const now = levelNow(level);
  put('levelM', now);
  const why = poolMisfit(view, lake, level, now);
  if (why !== null) gaps.push({ id: 'levelVsNormalM', fact: why });
  const { points, misfit } = yearOf(view, level, lake.zone);
  if (misfit !== null) gaps.push({ id: 'levelBandShare', fact: misfit });
  const place = bandPosition(points, level.lastMs, now, why === null ? lake.normalPoolM : undefined);
  put('levelVsNormalM', place.vsNormalM);
  put('levelBandShare', place.share);
  const { lowM, highM, days } = place;
  return { signals, gaps, band: lowM === null || highM === null ? null : { lowM, highM, days } };
}

/** Why the level cannot be set against normal pool; null when it can, or when there is no normal pool. */
export function poolMisfit(
  view: RecordView,
  lake: LakeConfig,
  level: GaugeSeries,
  nowM: number,
): GapFact | null {
  if (lake.normalPoolM === undefined) return null;
  const first = lake.gauges.find((gauge) => gauge.variable === 'level');
  const firstSeries = columnsOf(view)
    .of('level')
    .find((column) => column.kind !== 'forecast' && first !== undefined && isOf(column, first));
  // Without a word of its own, normal pool is meant on the datum of the gauge that is preferred.
  const poolDatum = lake.normalPoolDatum ?? first?.datum ?? firstSeries?.datum ?? '';
  const same = sameDatum(level.datum, poolDatum);
  if (same === false) return { code: 'poolOnOtherDatum', levelDatum: level.datum, poolDatum };
  if (same === null && (lake.normalPoolDatum !== undefined || level.gauge !== first))
    return { code: 'levelDatumUnknown', where: level.gauge.where };
  const offM = nowM - lake.normalPoolM;
  if (Math.abs(offM) > Math.max(offM < 0 ? LOWEST_M : HIGHEST_M, 3 * lake.meanDepthM))
    return { code: 'poolTooFar', offM };
  return null;
}

interface Year {
  readonly points: readonly { readonly atMs: number; readonly levelM: number }[];
  /** Why the service's daily values were left out. */
  readonly misfit: GapFact | null;
}

/** Daily levels of the year on the gauge's datum: its own days, and the service's daily values where those are missing. */
function yearOf(view: RecordView, level: GaugeSeries, zone: string): Year {
  const { source, station, datum } = level;
  const days = view.levelDays ?? daysOfRows(view);
  const isOwn = (day: LevelDay): boolean =>
    day.periodS === 0 && day.station === station && day.source === source && day.datum === datum;
  const own = new Map<number, number>();
  let movedMs = -Infinity;
  for (const day of days.filter(isOwn)) {
    if (day.doubt === undefined) own.set(dayOf(day.atMs), day.levelM);
    else movedMs = Math.max(movedMs, day.atMs);
  }
  const series = new Map<string, LevelDay[]>();
  for (const day of days) {
    if (day.periodS === 0 || day.doubt !== undefined || day.atMs <= movedMs) continue;
    if (!isOf(day, level.gauge) || day.datum !== datum) continue;
    const known = series.get(day.station);
    if (known === undefined) series.set(day.station, [day]);
    else known.push(day);
  }
  const all = new Map<number, number>();
  let misfit: GapFact | null = null;
  for (const daily of series.values()) {
    // A service's day is that of the site or that of Greenwich; a lake that falls fast tells them apart.
    const biases = [siteNoon(zone), () => 0].flatMap((noonOf) => {
      const off = daily.flatMap(({ atMs, levelM }) => {
        const same = ownAt(own, dayOf(atMs), noonOf(dayOf(atMs)));
        return same === undefined ? [] : [levelM - same];
      });
      return off.length < AGREE_DAYS ? [] : [median(off)];
    });
    const [bias] = biases.sort((a, b) => Math.abs(a) - Math.abs(b));
    if (bias === undefined) continue;
    if (Math.abs(bias) <= AGREE_M) for (const day of daily) all.set(dayOf(day.atMs), day.levelM);
    else misfit = { code: 'dailyLevelsDiffer', biasM: bias };
  }
  for (const [day, levelM] of own) all.set(day, levelM);
  return { points: [...all].map(([day, levelM]) => ({ atMs: day * DAY_MS, levelM })), misfit };
}

/** How far the noon of the site lies after that of Greenwich of the same day of the record, as a share of a day. */
const siteNoon =
  (zone: string) =>
  (day: number): number => {
    const noon = startOfDayMs(isoDate(day), zone) / DAY_MS + 0.5;
    return noon - Math.floor(noon) - 0.5;
  };

/** Own level at a share of a day after noon, on the line between two daily means; the day's own mean without the other. */
function ownAt(own: ReadonlyMap<number, number>, day: number, share: number): number | undefined {
  const [here, there] = [own.get(day), own.get(day + Math.sign(share))];
  if (here === undefined || there === undefined) return here;
  return here + Math.abs(share) * (there - here);
}

const dayOf = (atMs: number): number => Math.floor(atMs / DAY_MS);

/** The same from the rows of a view that brings no daily means. */
function daysOfRows(view: RecordView): LevelDay[] {
  const days = new Map<string, { row: LevelDay; sum: number; count: number }>();
  for (const row of view.observations) {
    if (row.variable !== 'level' || row.kind === 'forecast') continue;
    const jumped = row.doubt?.code === 'doubt.datumJump';
    if (row.doubt !== undefined && !jumped) continue;
    const { source, station, periodS } = row;
    const atMs = (dayOf(row.atMs - periodS * 500) + 0.5) * DAY_MS;
    const datum = row.datum ?? '';
    const key = JSON.stringify([source, station, periodS, datum, atMs]);
    const { sum, count } = days.get(key) ?? { sum: 0, count: 0 };
    const entry: LevelDay = { source, station, datum, periodS, atMs, levelM: 0 };
    const doubt =
      jumped || days.get(key)?.row.doubt !== undefined
        ? { doubt: { code: 'doubt.datumJump', stepM: null } as const }
        : {};
    days.set(key, { row: { ...entry, ...doubt }, sum: sum + row.value, count: count + 1 });
  }
  return [...days.values()].map(({ row, sum, count }) => ({ ...row, levelM: sum / count }));
}
