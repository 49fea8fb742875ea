import type { SafetyTable } from '../../config/rulesSafety.ts';
import type { Conditions, Figure, HourPoint, SignalId } from '../../signals/types.ts';
import type { HazardHours } from '../types.ts';
import { safetyQuantities, type Quantities } from './quantities.ts';
import type { SafetyExtras } from './types.ts';

const HOUR_MS = 3_600_000;

/** The day's numbers with those of one hour in place of its extremes. An hour point is stamped with the hour's end. */
export function hourQuantities(
  point: HourPoint,
  conditions: Conditions,
  table: SafetyTable,
  extras: SafetyExtras,
): Quantities {
  const signals: Partial<Record<SignalId, Figure>> = { ...conditions.signals };
  const put = (value: number | undefined, ...ids: SignalId[]): void => {
    if (value === undefined) return;
    for (const id of ids)
      signals[id] = { value, kind: 'forecast', asOfMs: conditions.asOfMs, freshness: 'fresh', source: '' };
  };
  put(point.windMs, 'windMs', 'windMaxMs');
  put(point.gustMs, 'gustMs');
  put(point.airC, 'airMaxTodayC', 'airMinTodayC', 'airMinLastNightC', 'airNowC');
  const { humidityPct } = point;
  return safetyQuantities(
    { ...conditions, signals },
    {
      ...extras,
      hours: [point],
      ...(humidityPct === undefined ? {} : { humidityPct }),
    },
    table.assumed,
  );
}

/** Hours in which something stands, as stretches in order and apart. */
export function spansOf(hours: readonly HourPoint[], stands: readonly boolean[]): HazardHours[] {
  const spans: HazardHours[] = [];
  for (const [index, { atMs }] of hours.entries()) {
    if (stands[index] !== true) continue;
    const last = spans.at(-1);
    if (last !== undefined && last.toMs === atMs - HOUR_MS) spans[spans.length - 1] = { ...last, toMs: atMs };
    else spans.push({ fromMs: atMs - HOUR_MS, toMs: atMs });
  }
  return spans;
}
