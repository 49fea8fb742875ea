/** What is not known this morning, in sentences: silent gauges, refused readings, what nobody configured. */
import { DAY_MS } from '../units/calendar.ts';
import { say } from '../words/catalogue.ts';
import { doubts as doubtWords } from '../words/en/doubts.ts';
import { localDateAt } from '../units/localTime.ts';
import { figure } from './figure.ts';
import { bestGauge } from './gauge.ts';
import { usualFlowM3s } from './lake.ts';
import type { Tables } from './tables.ts';
import type { Gap } from './types.ts';
import { spanWords } from './words.ts';

/** Days for which a refused reading is named. */
const REFUSAL_DAYS = 10;
const DATED_WRONG = {
  late: 'The daily values of the thermometer seem dated a day late. Each counts for the day before.',
  early: 'The daily values of the thermometer seem dated a day early. Check its dates.',
} as const;

/** Gaps of a lake's signals, quantities as placeholders. */
export function gapsOf(tables: Tables): Gap[] {
  const { view, lake, weather, water } = tables;
  const gaps: Gap[] = [];
  if (weather.lastMs === null)
    gaps.push({
      id: 'weather',
      sentence: 'No weather at all has reached the record: nothing that rests on it is printed.',
    });
  else if (tables.weatherFreshness === 'stale')
    gaps.push({
      id: 'weather',
      sentence: `The weather is ${spanWords(view.asOfMs - weather.lastMs)} old: too old for a forecast, no rule uses it.`,
    });
  else if (tables.weatherFreshness === 'ageing')
    gaps.push({
      id: 'weather',
      sentence: `The weather was last fetched ${spanWords(view.asOfMs - weather.lastMs)} ago.`,
    });
  gaps.push(...tables.level.gaps);
  const thermometer = bestGauge(view, lake, 'water_temp');
  if (thermometer?.freshness === 'stale') {
    const last = figure(thermometer.rows.at(-1)?.value, {
      kind: 'observed',
      asOfMs: thermometer.lastMs,
      freshness: 'stale',
      source: 'gauge thermometer',
    });
    gaps.push({
      id: 'waterC',
      sentence: `The lake thermometer has been silent for ${spanWords(view.asOfMs - thermometer.lastMs)}: the lake model carries on from it.`,
      ...(last ? { last } : {}),
    });
  } else if (water.readings.length === 0 && water.days.length > 0) {
    gaps.push({
      id: 'waterC',
      sentence:
        'No water reading yet: the lake temperature is the model alone. One reading will about halve its error.',
    });
  }
  const oldestNamed = localDateAt(view.asOfMs - REFUSAL_DAYS * DAY_MS, lake.zone);
  const refused = water.refused.filter((r) => r.dating === undefined && r.reading.date >= oldestNamed);
  for (const { reason } of refused.slice(-2))
    gaps.push({ id: 'waterC', sentence: `A water reading was refused: ${reason.replace(/\.$/, '')}.` });
  if (water.dating !== 'right') gaps.push({ id: 'waterC', sentence: DATED_WRONG[water.dating] });
  for (const { name, used, refused } of tables.pockets) {
    const last = refused.at(-1);
    // A refusal that a later reading has outlived is no gap.
    if (last && last.reading.atMs > Math.max(view.asOfMs - REFUSAL_DAYS * DAY_MS, used.at(-1)?.atMs ?? 0))
      gaps.push({
        id: 'pocketC',
        sentence: `A reading in ${name.replaceAll('{{', '{ {')} was refused: ${last.reason.replace(/\.$/, '')}.`,
      });
  }
  const doubts = view.observations.filter(
    (row) =>
      row.doubt !== undefined &&
      row.atMs > view.asOfMs - 3 * DAY_MS &&
      // Named with the level.
      !(row.variable === 'level' && row.doubt?.code === 'doubt.unconfirmed'),
  );
  const first = doubts[0];
  if (first)
    gaps.push({
      id: 'gauge',
      sentence: `${doubts.length} gauge ${doubts.length === 1 ? 'value was' : 'values were'} not believed in three days (${first.variable.replace('_', ' ')}: ${first.doubt === undefined ? '' : say(doubtWords, first.doubt)}).`,
    });
  if (lake.waterBody === 'run-of-river' && usualFlowM3s(view, lake) === null)
    gaps.push({
      id: 'dischargeM3s',
      sentence:
        'No flow through this pool is known: its temperature is estimated as that of a still lake. A discharge gauge would mend that.',
    });
  if (lake.alerts === 'none' || view.alertsCheckedMs === null)
    gaps.push({
      id: 'alerts',
      sentence: 'Official alerts were not checked: look at your weather office before you launch.',
    });
  if (lake.floodGauge === undefined)
    gaps.push({ id: 'flood', sentence: 'No flood gauge is configured: flood stages were not checked.' });
  return gaps;
}
