/** The estimate of the main lake beside what thermometers showed after it was issued. */
import type { LakeConfig } from '../config/types.ts';
import type { RecordView } from '../record/types.ts';
import { DAY_MS } from '../units/calendar.ts';
import { localDateAt } from '../units/localTime.ts';
import { DAILY_MEAN_FROM, gaugeRows, lakeReadings, mainThermometer, mean } from '../signals/index.ts';
import type { Issue, Outcome } from './types.ts';

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
 */
export function waterOutcomes(issues: readonly Issue[], view: RecordView, lake: LakeConfig): Outcome[] {
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
  return issues.flatMap(({ date, issuedMs, conditions }) => {
    const said = conditions.find(({ id }) => id === 'waterC')?.now;
    if (said?.low === undefined || said.high === undefined || date >= today) return [];
    const later = byHand.filter(({ atMs }) => atMs > issuedMs && localDateAt(atMs, lake.zone) === date);
    const came = means.get(date) ?? mean(later.map(({ waterC }) => waterC));
    const held = [gaugeBefore(issuedMs), byHand.filter(({ atMs }) => atMs <= issuedMs).at(-1)]
      .filter((value) => value !== undefined)
      .reduce<Value | undefined>((a, b) => (a === undefined || b.atMs > a.atMs ? b : a), undefined);
    if (came === null || held === undefined) return [];
    return [{ date, said: said.value, came, held: held.waterC, range: [said.low, said.high] }];
  });
}
