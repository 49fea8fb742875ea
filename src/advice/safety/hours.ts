import { hourFigure } from '../hourFigure.ts';
import type { SafetyTable } from '../../config/index.ts';
import type { Conditions, Figure, HourPoint, SignalId } from '../../signals/index.ts';
import { HOUR_MS } from '../../units/time/index.ts';
import type { HazardHours } from '../types.ts';
import { safetyQuantities, type Quantities } from './quantities.ts';
import type { SafetyExtras, SafetyHour } from './types.ts';

/** A report's hour, which is stamped with its start. */
export function safetyHour({ atMs, windDirDeg, ...numbers }: HourPoint): SafetyHour {
  return {
    fromMs: atMs,
    toMs: atMs + HOUR_MS,
    ...numbers,
    ...(windDirDeg === undefined ? {} : { windFromDeg: windDirDeg }),
  };
}

/** The day's numbers with those of one hour in place of its extremes. */
export function hourQuantities(
  point: SafetyHour,
  conditions: Conditions,
  table: SafetyTable,
  extras: SafetyExtras,
): Quantities {
  const signals: Partial<Record<SignalId, Figure>> = { ...conditions.signals };
  const put = (value: number | undefined, ...ids: SignalId[]): void => {
    if (value === undefined) return;
    for (const id of ids) signals[id] = hourFigure(value, conditions.asOfMs);
  };
  put(point.windMs, 'windMs', 'windMaxMs');
  put(point.gustMs, 'gustMs');
  put(point.airC, 'airMaxTodayC', 'airMinTodayC', 'airMinLastNightC', 'airNowC');
  put(point.thunderPct, 'thunderPct');
  put(point.generationOn, 'generationOn');
  put(point.currentMs, 'currentMs');
  const { humidityPct } = point;
  return safetyQuantities(
    { ...conditions, signals },
    {
      ...extras,
      hours: [point],
      // What an hour ahead has does not run now.
      generationNow: extras.generationNow ?? conditions.signals.generationOn?.value ?? 0,
      ...(humidityPct === undefined ? {} : { humidityPct }),
    },
    table.assumed,
  );
}

/**
 * Hours in which something stands, as stretches in order and apart.
 *
 * @param clearMs how much longer each lasts, within the hours given
 */
export function spansOf(
  hours: readonly SafetyHour[],
  stands: readonly boolean[],
  clearMs = 0,
): HazardHours[] {
  const endMs = hours.at(-1)?.toMs ?? -Infinity;
  const spans: HazardHours[] = [];
  for (const [index, hour] of hours.entries()) {
    if (stands[index] !== true) continue;
    const { fromMs } = hour;
    const toMs = Math.min(endMs, hour.toMs + clearMs);
    const last = spans.at(-1);
    if (last !== undefined && last.toMs >= fromMs) spans[spans.length - 1] = { ...last, toMs };
    else spans.push({ fromMs, toMs });
  }
  return spans;
}
