/** What was not believed or not checked, whichever part it concerns. */
import type { LakeConfig } from '../config/types.ts';
import type { RecordView } from '../record/types.ts';
import { DAY_MS } from '../units/calendar.ts';
import { columnsOf } from './columns.ts';
import type { Gap } from './types.ts';

/** Days for which values that were not believed are counted. */
const DOUBT_DAYS = 3;

/** @param usualFlowM3s discharge of a usual day; null where none is known */
export function uncheckedGaps(view: RecordView, lake: LakeConfig, usualFlowM3s: number | null): Gap[] {
  const gaps: Gap[] = [];
  const doubted = columnsOf(view).doubted.filter(
    (row) =>
      row.atMs > view.asOfMs - DOUBT_DAYS * DAY_MS &&
      // Named with the level.
      !(row.variable === 'level' && row.doubt?.code === 'doubt.unconfirmed'),
  );
  const [first] = doubted;
  if (first?.doubt !== undefined)
    gaps.push({
      id: 'gauge',
      fact: {
        code: 'valuesDoubted',
        count: doubted.length,
        variable: first.variable,
        doubt: first.doubt,
      },
    });
  if (lake.waterBody === 'run-of-river' && usualFlowM3s === null)
    gaps.push({ id: 'dischargeM3s', fact: { code: 'noFlowThroughPool' } });
  if (lake.alerts === 'none' || view.alertsCheckedMs === null)
    gaps.push({ id: 'alerts', fact: { code: 'alertsNotChecked' } });
  if (lake.floodGauge === undefined) gaps.push({ id: 'flood', fact: { code: 'floodNotChecked' } });
  return gaps;
}
