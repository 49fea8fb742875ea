/** What was not believed or not checked, whichever part it concerns. */
import type { LakeConfig } from '../config/index.ts';
import type { Observation, RecordView } from '../record/index.ts';
import { DAY_MS } from '../units/time/index.ts';
import { groupBy } from '../record/observations/index.ts';
import { columnsOf } from './columns.ts';
import type { Gap } from './types.ts';

/** Days for which values that were not believed are counted. */
const DOUBT_DAYS = 3;

/**
 * @param usualFlowM3s discharge of a usual day; null where none is known
 * @param named        what was said already
 */
export function uncheckedGaps(
  view: RecordView,
  lake: LakeConfig,
  usualFlowM3s: number | null,
  named: readonly Gap[] = [],
): Gap[] {
  const gaps: Gap[] = [];
  const doubted = columnsOf(view).doubted.filter(
    (row) =>
      row.atMs > view.asOfMs - DOUBT_DAYS * DAY_MS &&
      // Named with the level or the thermometer.
      !(row.variable === 'level' && row.doubt?.code === 'doubt.unconfirmed') &&
      !isNamed(row, named),
  );
  const groups = groupBy(doubted, (row) => `${row.kind === 'observed'} ${row.variable} ${row.doubt?.code}`);
  for (const group of groups.values()) {
    const [first] = group;
    if (first?.doubt === undefined) continue;
    gaps.push({
      id: 'gauge',
      fact: {
        code: 'valuesDoubted',
        count: group.length,
        variable: first.variable,
        doubt: first.doubt,
        ...(first.kind === 'observed' ? {} : { isWeather: true }),
      },
    });
  }
  if (lake.waterBody === 'run-of-river' && usualFlowM3s === null)
    gaps.push({ id: 'dischargeM3s', fact: { code: 'noFlowThroughPool' } });
  if (lake.alerts === 'none' || view.alertsCheckedMs === null)
    gaps.push({ id: 'alerts', fact: { code: 'alertsNotChecked' } });
  if (lake.floodGauge === undefined) gaps.push({ id: 'flood', fact: { code: 'floodNotChecked' } });
  return gaps;
}

const NAMED_WITH: Readonly<Record<string, string>> = {
  levelNotBelieved: 'level',
  thermometerNotBelieved: 'water_temp',
};

const isNamed = ({ variable, doubt }: Observation, named: readonly Gap[]): boolean =>
  named.some(
    ({ fact }) =>
      (fact.code === 'levelNotBelieved' || fact.code === 'thermometerNotBelieved') &&
      NAMED_WITH[fact.code] === variable &&
      fact.doubt.code === doubt?.code,
  );
