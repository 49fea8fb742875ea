/** The estimate of the main lake beside what thermometers showed after it was issued. */
import type { LakeConfig } from '../config/index.ts';
import type { RecordView } from '../record/index.ts';
import { addDays, DAY_MS, localDateAt } from '../units/time/index.ts';
import { DAILY_MEAN_FROM, gaugeRows, lakeReadings, mainThermometer, mean } from '../signals/index.ts';
import type { Issue, Outcome } from './types.ts';

/** Days ahead that the outlook of the water is judged at: far enough that holding the last value misses. */
export const AHEAD_DAYS = 3;
/** Deeper thermometers may hang below the warm layer that the estimate speaks of, m. */
const DEEPEST_M = 3;

interface Value {
  readonly atMs: number;
  readonly waterC: number;
}

/**
 * One outcome an issue: the gauge thermometer's mean of that day where it measured through the day, else the mean of
 * the readings that anglers took later that day, as they were read. No reading is left out for being unlikely: the
 * model that calls it so is the one being judged. Held is the last thing known at issue: the gauge's mean of the 24 h
 * before, or a later reading.
 *
 * @param leadDays days ahead of the issue, as the issue itself printed them; 0 is its own day
 */
export function waterOutcomes(
  issues: readonly Issue[],
  view: RecordView,
  lake: LakeConfig,
  leadDays = 0,
): Outcome[] {
  const gauge = mainThermometer(view, lake);
  const thermometerRows = gauge && (gauge.gauge.depthM ?? 1) <= DEEPEST_M ? gaugeRows(gauge) : [];
  const means = new Map(
    lakeReadings(view, lake)
      .filter(({ source, hour, depthM }) => source === 'gauge' && hour === undefined && depthM <= DEEPEST_M)
      .map(({ date, waterC }) => [date, waterC]),
  );
  const byHand: Value[] = view.readings.flatMap(({ atMs, waterC, depthM, pocket }) =>
    waterC === undefined || pocket !== undefined || depthM > DEEPEST_M ? [] : [{ atMs, waterC }],
  );
  const gaugeBefore = (issuedMs: number): Value | undefined => {
    const known = thermometerRows.filter(({ atMs }) => atMs <= issuedMs);
    const last = known.at(-1);
    if (!last) return undefined;
    const day = known.filter(({ atMs }) => atMs > issuedMs - DAY_MS).map(({ value }) => value);
    return {
      atMs: last.atMs,
      waterC: day.length >= DAILY_MEAN_FROM ? (mean(day) ?? last.value) : last.value,
    };
  };
  const today = localDateAt(view.asOfMs, lake.zone);
  return issues.flatMap((issue) => {
    const { issuedMs } = issue;
    const date = addDays(issue.date, leadDays);
    const said = leadDays === 0 ? saidOf(issue) : saidAhead(issue, date);
    if (said === null || date >= today) return [];
    const later = byHand.filter(({ atMs }) => atMs > issuedMs && localDateAt(atMs, lake.zone) === date);
    const came = means.get(date) ?? mean(later.map(({ waterC }) => waterC));
    const held = [gaugeBefore(issuedMs), byHand.filter(({ atMs }) => atMs <= issuedMs).at(-1)]
      .filter((value) => value !== undefined)
      .reduce<Value | undefined>((a, b) => (a === undefined || b.atMs > a.atMs ? b : a), undefined);
    if (came === null || held === undefined) return [];
    return [{ date, said: said.value, came, held: held.waterC, range: said.range }];
  });
}

interface Said {
  readonly value: number;
  readonly range: readonly [number, number];
}

function saidOf({ conditions }: Issue): Said | null {
  const now = conditions.find(({ id }) => id === 'waterC')?.now;
  return now?.low === undefined || now.high === undefined
    ? null
    : { value: now.value, range: [now.low, now.high] };
}

/** What an issue printed for a coming day. */
function saidAhead({ series }: Issue, date: string): Said | null {
  const day = series.days.find((each) => each.date === date && each.forecast);
  if (day?.waterC == null || day.waterLowC == null || day.waterHighC == null) return null;
  return { value: day.waterC, range: [day.waterLowC, day.waterHighC] };
}
