/** The level's outlook beside what the gauge did in the 24 h after the issue. */
import type { LakeConfig } from '../config/index.ts';
import type { RecordView } from '../record/index.ts';
import { DAY_MS } from '../units/time/index.ts';
import { columnsOf, gaugeRows, gaugeSeries, isOf, type GaugeSeries } from '../signals/index.ts';
import { levelChange } from '../water/level/index.ts';
import type { Issue, Outcome } from './types.ts';

/** Only the gauge that the stage forecast is made for can judge it. */
function forecastGauge(view: RecordView, lake: LakeConfig): GaugeSeries | undefined {
  const ahead = columnsOf(view)
    .of('level')
    .filter(({ kind }) => kind === 'forecast');
  return gaugeSeries(view, lake, 'level').find(({ gauge }) => ahead.some((series) => isOf(series, gauge)));
}

/** One outcome an issue that gave an outlook of 24 h, once those are over. Held is no change. */
export function levelOutcomes(issues: readonly Issue[], view: RecordView, lake: LakeConfig): Outcome[] {
  const series = forecastGauge(view, lake);
  if (series === undefined) return [];
  const points = gaugeRows(series).map(({ atMs, value }) => ({ atMs, levelM: value }));
  return issues.flatMap(({ date, issuedMs, conditions }) => {
    const ahead = conditions.find(({ id }) => id === 'level24hM')?.next48h;
    const endMs = issuedMs + DAY_MS;
    if (!ahead || ahead.hours !== 24 || endMs > view.asOfMs) return [];
    const change = levelChange(points, endMs, 24);
    if (change === null) return [];
    return [
      {
        date,
        said: (ahead.low + ahead.high) / 2,
        came: change.changeM,
        held: 0,
        deadBand: change.noiseM,
      },
    ];
  });
}
