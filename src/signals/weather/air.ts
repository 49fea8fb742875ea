/** What the air has done: means, robust trends, the last night, the day ahead. */
import { theilSen } from '../../science/index.ts';
import { addDays, DAY_MS, HOUR_MS, localDateAt, startOfDayMs } from '../../units/time/index.ts';
import { item } from '../../units/index.ts';
import { mean, signalsFrom, type Provenance } from '../figure.ts';
import type { Signals } from '../types.ts';
import type { LocalDays } from './days.ts';
import type { WeatherTable } from './table.ts';

/** A night-to-night change below this is noise of the daily mean, neither warming nor cooling. */
const STEADY_C = 0.2;

/** Days in a row up to the last that warmed (positive) or cooled (negative); a pause within the noise neither counts nor breaks. */
export function warmingDays(dailyMeansC: readonly number[]): number {
  const changes = dailyMeansC.slice(1).map((meanC, day) => meanC - item(dailyMeansC, day));
  let count = 0;
  for (const change of changes.reverse()) {
    if (Math.abs(change) <= STEADY_C) continue;
    const direction = Math.sign(change);
    if (count !== 0 && Math.sign(count) !== direction) break;
    count += direction;
  }
  return count;
}

/**
 * Signals of the air at an instant. A mean needs five sixths of its hours, else it is left out.
 *
 * @param from how the weather is known
 */
export function airSignals(
  { air }: WeatherTable,
  localDays: LocalDays,
  zone: string,
  nowMs: number,
  from: Provenance,
): Signals {
  const today = localDateAt(nowMs, zone);
  const { signals, put } = signalsFrom(from);
  const window = (fromMs: number, toMs: number): number[] => air.within(fromMs, toMs);
  const wholeMean = (fromMs: number, toMs: number): number | null => {
    const values = window(fromMs, toMs);
    return values.length >= ((toMs - fromMs) / HOUR_MS) * (5 / 6) ? mean(values) : null;
  };

  const last24 = wholeMean(nowMs - DAY_MS, nowMs);
  const before24 = wholeMean(nowMs - 2 * DAY_MS, nowMs - DAY_MS);
  put('airMean24hC', last24);
  if (last24 !== null && before24 !== null) put('airDrop24hC', before24 - last24);
  put('airNowC', window(nowMs - 1.5 * HOUR_MS, nowMs + 0.5 * HOUR_MS).at(-1));

  const days = localDays.between(addDays(today, -30), addDays(today, -1));
  const lastDays = (count: number): number[] =>
    days.slice(-count).flatMap((day) => (day.airC === null ? [] : [day.airC]));
  for (const [span, meanId, trendId] of [
    [3, 'airMean3dC', 'airTrend3dCPerDay'],
    [7, 'airMean7dC', 'airTrend7dCPerDay'],
    [30, null, 'airTrend30dCPerDay'],
  ] as const) {
    const values = lastDays(span);
    // A trend of three days needs all three; longer ones bear a missing day in six.
    if (values.length < (span === 3 ? 3 : span * (5 / 6))) continue;
    if (meanId) put(meanId, mean(values));
    const xs = days.slice(-span).flatMap((day, index) => (day.airC === null ? [] : [index]));
    const trend = theilSen(xs, values);
    put(trendId, trend.slope, trend.low, trend.high);
  }
  const week = days.slice(-14).map((day) => day.airC);
  const unbroken = week.slice(week.lastIndexOf(null) + 1).filter((value): value is number => value !== null);
  if (unbroken.length >= 3) put('warmingDays', warmingDays(unbroken));

  // The last night runs from 18 h yesterday to 8 h today or to now, whichever is earlier.
  const midnight = startOfDayMs(today, zone);
  const night = window(
    midnight - 6 * HOUR_MS,
    Math.min(midnight + 8 * HOUR_MS, Math.max(nowMs, midnight + 5 * HOUR_MS)),
  );
  if (night.length >= 8) put('airMinLastNightC', Math.min(...night));
  const day = window(midnight, startOfDayMs(addDays(today, 1), zone));
  if (day.length >= 20) {
    put('airMaxTodayC', Math.max(...day));
    put('airMinTodayC', Math.min(...day));
  }
  return signals;
}
