/**
 * Hours in which water is usually let through a dam, from what the gauge below it did on the same weekdays before. It is
 * an estimate with how often it held, never a schedule: who runs the dam may do otherwise any day.
 */
import type { LakeConfig } from '../../config/index.ts';
import type { RecordView } from '../../record/index.ts';
import { addDays, HOUR_MS, localDateAt, localHourAt, startOfDayMs } from '../../units/time/index.ts';
import { at } from '../../water/index.ts';
import { median, wilson } from '../../science/index.ts';
import { bestGauge, type GaugeSeries } from '../gauge.ts';
import { hourMean } from './hourMean.ts';

/** Same weekdays that are looked at, and the least of them that a pattern rests on. */
const WEEKS = 8;
const LEAST_DAYS = 5;
/** Standard score of an 80 % interval: its lower end must say that water runs more often than not. */
const Z80 = 1.2816;
/** Shorter stretches are not told, h. */
const LEAST_H = 2;
/** Shares of the values between which the flow of the turbines is looked for. */
const STANDS = 0.1;
const RUNS = 0.95;
/** Part of the way from standing to running that counts as running. */
const ON = 0.4;
/** The flow of running turbines over that of standing ones, at least; the level, m. Common practice, no source. */
const LEAST_FLOW_RATIO = 1.5;
const LEAST_RISE_M = 0.15;
/** The same of a river pool that nobody called below a dam: snow and rain also swell a river by the day. */
const LEAST_PULSE_RATIO = 3;
/** Turbines start and stop within a day: half of the days go over this part of the whole range. A flood does not. */
const OF_RANGE = 0.5;

export interface PatternSpan {
  readonly fromHour: number;
  readonly toHour: number;
  /** Days on which water ran in every hour of it, and days that are known. */
  readonly held: number;
  readonly of: number;
}

export interface ReleasePattern {
  /** What tells of it. */
  readonly by: 'release' | 'discharge' | 'level';
  readonly spans: readonly PatternSpan[];
}

/** Whether water ran, by local date and hour of the clock. */
type Runs = ReadonlyMap<string, ReadonlyMap<number, boolean>>;

/** Means of the hours that a date has, by the clock; of an hour that comes twice the first. */
function hoursOf(series: GaugeSeries, date: string, zone: string): Map<number, number> {
  const hours = new Map<number, number>();
  const endMs = startOfDayMs(addDays(date, 1), zone);
  for (let startMs = startOfDayMs(date, zone); startMs < endMs; startMs += HOUR_MS) {
    const hour = Math.floor(localHourAt(startMs, zone));
    const value = hours.has(hour) ? null : hourMean(series, startMs);
    if (value !== null) hours.set(hour, value);
  }
  return hours;
}

function runsOf({ series, by, leastRatio }: Teller, today: string, zone: string): Runs | null {
  const days = new Map<string, Map<number, number>>();
  for (let back = 1; back <= WEEKS * 7; back += 1) {
    const date = addDays(today, -back);
    const hours = hoursOf(series, date, zone);
    if (hours.size > 0) days.set(date, hours);
  }
  const all = Float64Array.from([...days.values()].flatMap((hours) => [...hours.values()])).sort();
  if (all.length === 0) return null;
  const value = (share: number): number => at(all, Math.floor((all.length - 1) * share));
  const [low, high] = [value(STANDS), value(RUNS)];
  const isEnough =
    by === 'level' ? high - low >= LEAST_RISE_M : high > 0 && high >= leastRatio * Math.max(0, low);
  const ranges = [...days.values()].map((hours) => Math.max(...hours.values()) - Math.min(...hours.values()));
  if (!isEnough || median(ranges) < OF_RANGE * (high - low)) return null;
  return new Map(
    [...days].map(([date, hours]) => [
      date,
      new Map([...hours].map(([hour, v]) => [hour, v >= low + ON * (high - low)])),
    ]),
  );
}

interface Teller {
  readonly series: GaugeSeries;
  readonly by: ReleasePattern['by'];
  /** Of running turbines over standing ones. */
  readonly leastRatio: number;
}

/**
 * The gauge that tells best whether turbines run: the level does so only below the dam, the discharge also in the pools of
 * a river, where the next dam up lets it through.
 */
function gaugeOf(view: RecordView, lake: LakeConfig): Teller | null {
  const below = lake.belowDam || lake.waterBody === 'tailwater';
  const leastRatio = below ? LEAST_FLOW_RATIO : LEAST_PULSE_RATIO;
  const asked = below
    ? (['release', 'discharge', 'level'] as const)
    : lake.waterBody === 'run-of-river'
      ? (['release', 'discharge'] as const)
      : (['release'] as const);
  for (const by of asked) {
    const series = bestGauge(view, lake, by);
    if (series !== null) return { series, by, leastRatio: by === 'release' ? LEAST_FLOW_RATIO : leastRatio };
  }
  return null;
}

/**
 * The pattern of a lake's gauge for the weekday of a date; a function of the date, so that the record is read once.
 *
 * @returns null of a date where the gauge shows no such pattern, or knows fewer than five of the last eight such days
 */
export function releasePattern(view: RecordView, lake: LakeConfig): (date: string) => ReleasePattern | null {
  let known: { readonly by: ReleasePattern['by']; readonly runs: Runs } | null | undefined;
  const today = localDateAt(view.asOfMs, lake.zone);
  return (date) => {
    if (known === undefined) {
      const gauge = gaugeOf(view, lake);
      const runs = gauge === null ? null : runsOf(gauge, today, lake.zone);
      known = gauge === null || runs === null ? null : { by: gauge.by, runs };
    }
    if (known === null) return null;
    const spans = spansOf(sameWeekdays(known.runs, date, today));
    return spans.length === 0 ? null : { by: known.by, spans };
  };
}

/** What is known of the last eight days of a date's weekday. */
function sameWeekdays(runs: Runs, date: string, today: string): ReadonlyMap<number, boolean>[] {
  const found: ReadonlyMap<number, boolean>[] = [];
  for (let back = 1; back <= WEEKS + 1; back += 1) {
    const before = addDays(date, -7 * back);
    const hours = before < today ? runs.get(before) : undefined;
    if (hours !== undefined) found.push(hours);
  }
  return found;
}

const isUsual = (held: number, of: number): boolean => of >= LEAST_DAYS && wilson(held, of, Z80)[0] > 0.5;

function spansOf(days: readonly ReadonlyMap<number, boolean>[]): PatternSpan[] {
  const usual = Array.from({ length: 24 }, (_, hour) => {
    const known = days.flatMap((hours) => hours.get(hour) ?? []);
    return isUsual(known.filter(Boolean).length, known.length);
  });
  // Water that never stops has no hours.
  if (usual.every(Boolean)) return [];
  const spans: PatternSpan[] = [];
  for (let hour = 0; hour < 24; hour += 1) {
    if (usual[hour] !== true) continue;
    const fromHour = hour;
    while (usual[hour] === true) hour += 1;
    const whole = days.filter((hours) => {
      for (let one = fromHour; one < hour; one += 1) if (!hours.has(one)) return false;
      return true;
    });
    const held = whole.filter((hours) => {
      for (let one = fromHour; one < hour; one += 1) if (hours.get(one) !== true) return false;
      return true;
    }).length;
    if (hour - fromHour >= LEAST_H && isUsual(held, whole.length))
      spans.push({ fromHour, toHour: hour, held, of: whole.length });
  }
  return spans;
}
