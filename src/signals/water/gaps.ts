/** What is not known of the water's temperature. */
import type { LakeConfig } from '../../config/index.ts';
import type { RecordView } from '../../record/index.ts';
import { DAY_MS, localDateAt } from '../../units/time/index.ts';
import { figure } from '../figure.ts';
import { bestGauge, disbelievedSince } from '../gauge.ts';
import type { Freshness, Gap } from '../types.ts';
import { hasEstimate } from './signals.ts';
import { clarityReadings, isTooDeep } from './clarity.ts';
import type { LakeTable } from './table.ts';

/** Days for which a refused reading is named. */
export const REFUSAL_DAYS = 10;
/** Refused readings that are named at most. */
const NAMED = 2;

/** A silent thermometer or none, readings that were refused, a series dated wrong. */
export function waterGaps(
  view: RecordView,
  lake: LakeConfig,
  water: LakeTable,
  weatherFreshness: Freshness,
): Gap[] {
  const gaps: Gap[] = [];
  const estimated = hasEstimate(water, localDateAt(view.asOfMs, lake.zone), weatherFreshness);
  const thermometer = bestGauge(view, lake, 'water_temp');
  const disbelieved =
    thermometer === null
      ? lake.gauges
          .filter(({ variable }) => variable === 'water_temp')
          .map((gauge) => disbelievedSince(view, gauge))
          .find((row) => row !== undefined)
      : thermometer.disbelieved;
  if (disbelieved !== undefined)
    gaps.push({ id: 'waterC', fact: { code: 'thermometerNotBelieved', doubt: disbelieved.doubt } });
  else if (thermometer?.freshness === 'stale') {
    const last = figure(thermometer.lastValue, {
      kind: 'observed',
      asOfMs: thermometer.lastMs,
      freshness: 'stale',
      source: { code: 'lakeThermometer' },
    });
    gaps.push({
      id: 'waterC',
      fact: { code: 'thermometerSilent', ageMs: view.asOfMs - thermometer.lastMs },
      ...(last ? { last } : {}),
    });
  } else if (water.readings.length === 0 && estimated)
    gaps.push({ id: 'waterC', fact: { code: 'noWaterReading' } });
  if (water.measured !== null && !estimated)
    gaps.push({
      id: 'waterChange7dC',
      fact: { code: 'waterAsMeasured', ageMs: view.asOfMs - water.measured.atMs },
    });
  const oldestNamed = localDateAt(view.asOfMs - REFUSAL_DAYS * DAY_MS, lake.zone);
  const refused = water.refused.filter((r) => r.dating === undefined && r.reading.date >= oldestNamed);
  for (const { reason } of refused.slice(-NAMED))
    gaps.push({ id: 'waterC', fact: { code: 'readingRefused', reason } });
  const deep = clarityReadings(view).findLast(({ clarityM }) => isTooDeep(clarityM, lake));
  if (deep !== undefined && deep.atMs > view.asOfMs - REFUSAL_DAYS * DAY_MS)
    gaps.push({ id: 'clarityM', fact: { code: 'clarityTooDeep', clarityM: deep.clarityM } });
  if (water.dating !== 'right')
    gaps.push({ id: 'waterC', fact: { code: 'thermometerDated', dating: water.dating } });
  return gaps;
}
