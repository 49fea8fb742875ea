/** The official stage forecast of the level. */
import type { LakeConfig } from '../../config/index.ts';
import type { RecordView } from '../../record/index.ts';
import { DAY_MS, HOUR_MS } from '../../units/time/index.ts';
import { at } from '../../water/index.ts';
import { columnsOf } from '../columns.ts';
import { figure } from '../figure.ts';
import { isOf } from '../gauge.ts';
import type { Signals } from '../types.ts';

/** Hours of the day ahead that it must span. */
const LEAST_H = 12;

/** Change of the official stage forecast over the day ahead: one gauge's, the preferred one's first. */
export function stageForecast(view: RecordView, lake: LakeConfig): Signals {
  const forecasts = columnsOf(view)
    .of('level')
    .filter(({ kind }) => kind === 'forecast');
  for (const gauge of lake.gauges) {
    if (gauge.variable !== 'level') continue;
    const ahead = forecasts
      .filter((column) => isOf(column, gauge))
      .flatMap(({ atMs, values, issuedMs }) =>
        Array.from(atMs, (instant, i) => ({ atMs: instant, value: at(values, i), issuedMs })),
      )
      .filter((row) => row.atMs > view.asOfMs && row.atMs <= view.asOfMs + DAY_MS)
      .sort((a, b) => a.atMs - b.atMs);
    const [first, last] = [ahead[0], ahead.at(-1)];
    if (!first || !last || last.atMs - first.atMs < LEAST_H * HOUR_MS) continue;
    const made = figure(last.value - first.value, {
      kind: 'forecast',
      asOfMs: first.issuedMs ?? view.asOfMs,
      freshness: 'fresh',
      source: { code: 'stageForecast' },
    });
    return made ? { levelNext24hM: made } : {};
  }
  return {};
}
