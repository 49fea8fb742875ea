/** Water temperature of a date, its changes before, and the one to come. */
import { addDays } from '../../units/time/index.ts';
import { waterChange } from '../../water/lake/index.ts';
import { figure, signalsFrom, type Provenance } from '../figure.ts';
import type { Freshness, Signals } from '../types.ts';
import type { MeasuredWater } from './measured.ts';
import type { LakeTable } from './table.ts';

/**
 * Water temperature of a local date, its changes before, and the one to come.
 *
 * @returns where the model has no estimate of today, the water as it was measured; none where that is not known either
 */
export function lakeSignals(
  table: LakeTable,
  date: string,
  nowMs: number,
  weatherFreshness: Freshness,
  ahead: boolean,
): Signals {
  const today = table.byDate.get(date);
  if (!ahead && table.measured !== null && !hasEstimate(table, date, weatherFreshness))
    return asMeasured(table.measured);
  if (!today) return {};
  const from: Provenance = {
    kind: ahead ? 'forecast' : 'estimated',
    asOfMs: nowMs,
    freshness: weatherFreshness,
    source: { code: 'waterModel', readingAgeDays: today.readingAgeDays },
  };
  const { signals, put } = signalsFrom(from);
  put('waterC', today.waterC, today.lowC, today.highC);
  for (const [id, span] of [
    ['waterChange1dC', 1],
    ['waterChange3dC', 3],
    ['waterChange7dC', 7],
    ['waterChange30dC', 30],
  ] as const) {
    const change = waterChange(table.days, date, span);
    if (change) put(id, change.changeC, change.lowC, change.highC);
  }
  const later = table.byDate.get(addDays(date, 3));
  const coming = later && figure(later.waterC - today.waterC, { ...from, kind: 'forecast' });
  if (coming) signals.waterForecast3dC = coming;
  return signals;
}

/** Whether the model tells the water of a date from fresh weather. */
export const hasEstimate = (table: LakeTable, date: string, weatherFreshness: Freshness): boolean =>
  weatherFreshness !== 'stale' && table.byDate.has(date);

function asMeasured({ waterC, halfC, atMs, freshness, source }: MeasuredWater): Signals {
  const { signals, put } = signalsFrom({ kind: 'observed', asOfMs: atMs, freshness, source });
  put('waterC', waterC, Math.max(0, waterC - halfC), waterC + halfC);
  return signals;
}
