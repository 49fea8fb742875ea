/**
 * Whether water runs through the dam, hour by hour: as a gauge measured it, as the operator told, or as the gauge's own
 * weekdays make likely, in this order.
 */
import type { LakeConfig } from '../../config/index.ts';
import type { RecordView, ToldRelease } from '../../record/index.ts';
import {
  addDays,
  dayNumber,
  HOUR_MS,
  localDateAt,
  localHourAt,
  startOfDayMs,
} from '../../units/time/index.ts';
import type { LakeFact } from '../facts.ts';
import { ramp } from '../figure.ts';
import type { HourPoint } from '../types.ts';
import { freshRelease, TURBINES_RUN } from './flows.ts';
import { hourMean } from './hourMean.ts';
import { releasePattern, type ReleasePattern } from './pattern.ts';

/** A flow that grows to this many times is a start too: each unit that joins raises the river. Common practice, no source. */
const STEP_UP = 1.5;

export type ReleaseHour = Pick<HourPoint, 'generationOn' | 'generationBy' | 'releaseStart'>;

export interface ReleaseSeries {
  /** What is known of the hour that begins at an instant. */
  readonly at: (startMs: number) => ReleaseHour;
  /** What is told of a local date: the operator's word, else the gauge's weekdays. */
  readonly told: (date: string) => readonly LakeFact[];
}

export function releaseSeries(view: RecordView, lake: LakeConfig): ReleaseSeries {
  const gauge = freshRelease(view, lake);
  const releases = view.releases ?? [];
  const highM3s = Math.max(gauge?.highM3s ?? 0, ...releases.map(({ flowM3s }) => flowM3s ?? 0));
  // Who tells neither flow nor units has told that nothing runs.
  const strength = ({ flowM3s, units }: ToldRelease): number =>
    flowM3s === undefined
      ? (units ?? 0) > 0
        ? 1
        : 0
      : highM3s > 0
        ? ramp(flowM3s / highM3s, ...TURBINES_RUN)
        : 0;
  const pattern = releasePattern(view, lake);
  const byDate = new Map<string, ReleasePattern | null>();
  const patternOf = (date: string): ReleasePattern | null => {
    let found = byDate.get(date);
    if (found === undefined) byDate.set(date, (found = hasWord(date) ? null : pattern(date)));
    return found;
  };
  const overlapping = (fromMs: number, toMs: number): ToldRelease[] =>
    releases.filter((one) => one.fromMs < toMs && one.toMs > fromMs);
  const ofDate = (date: string): ToldRelease[] =>
    overlapping(startOfDayMs(date, lake.zone), startOfDayMs(addDays(date, 1), lake.zone));
  /** Of a day that the operator spoke of, the weekdays before say nothing more. */
  const hasWord = (date: string): boolean => ofDate(date).length > 0;

  const toldOf = (startMs: number): ReleaseHour => {
    const here = overlapping(startMs, startMs + HOUR_MS);
    if (here.length === 0) return {};
    const share = (one: ToldRelease): number =>
      (Math.min(one.toMs, startMs + HOUR_MS) - Math.max(one.fromMs, startMs)) / HOUR_MS;
    const starts = here.some(
      (one) => one.fromMs >= startMs && strength(one) >= 0.5 && isStart(one, releases, strength),
    );
    return {
      generationOn: here.reduce((sum, one) => sum + share(one) * strength(one), 0),
      generationBy: 'operator',
      ...(starts ? { releaseStart: 1 } : {}),
    };
  };
  const usualOf = (startMs: number): ReleaseHour => {
    const hour = Math.floor(localHourAt(startMs, lake.zone));
    const span = patternOf(localDateAt(startMs, lake.zone))?.spans.find(
      ({ fromHour, toHour }) => hour >= fromHour && hour < toHour,
    );
    if (span === undefined) return {};
    const share = span.held / span.of;
    return {
      generationOn: share,
      generationBy: 'weekday',
      // The last part of a share is left to the operator's own word.
      ...(hour === span.fromHour ? { releaseStart: Math.min(share, 0.95) } : {}),
    };
  };
  return {
    at: (startMs) => {
      const told = toldOf(startMs);
      if (gauge !== null) {
        const of = hourMean(gauge.gauge, startMs);
        if (of !== null) return { ...told, generationOn: gauge.shareOn(of), generationBy: 'gauge' };
      }
      // The share of hours that are past and were not measured is nobody's guess any more.
      return told.generationOn === undefined && startMs >= view.asOfMs - HOUR_MS ? usualOf(startMs) : told;
    },
    told: (date) => {
      const words = ofDate(date);
      if (words.length > 0) return toldFacts(words, date, lake.zone);
      const usual = patternOf(date);
      return usual === null
        ? []
        : [{ code: 'releaseUsual', by: usual.by, weekday: weekdayOf(date), spans: usual.spans }];
    },
  };
}

/** ISO weekday of a date, 1 Monday to 7 Sunday. Day 0 of the calendar, 1 January 1970, was a Thursday. */
const weekdayOf = (date: string): number => ((dayNumber(date) + 3) % 7) + 1;

/** Water begins to run, or grows: nothing told before goes over into it with as much. */
function isStart(
  one: ToldRelease,
  all: readonly ToldRelease[],
  strength: (release: ToldRelease) => number,
): boolean {
  const before = all.find(({ toMs }) => toMs === one.fromMs);
  if (before === undefined || strength(before) < 0.5) return true;
  return (
    (one.flowM3s ?? 0) >= STEP_UP * (before.flowM3s ?? Infinity) ||
    (one.units ?? 0) > (before.units ?? Infinity)
  );
}

/** One fact a day of telling: an operator may add to what was told. */
function toldFacts(words: readonly ToldRelease[], date: string, zone: string): LakeFact[] {
  const [dayMs, nextMs] = [startOfDayMs(date, zone), startOfDayMs(addDays(date, 1), zone)];
  const days = [...new Set(words.map(({ toldMs }) => localDateAt(toldMs, zone)))].sort();
  return days.map((toldOn) => ({
    code: 'releaseTold',
    toldOn,
    spans: words
      .filter(({ toldMs }) => localDateAt(toldMs, zone) === toldOn)
      .map(({ fromMs, toMs, flowM3s, units }) => ({
        fromHour: localHourAt(Math.max(fromMs, dayMs), zone),
        toHour: toMs >= nextMs ? 24 : localHourAt(toMs, zone),
        flowM3s: flowM3s ?? null,
        units: units ?? null,
      })),
  }));
}
