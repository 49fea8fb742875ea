/** A year of daily levels for the gauges whose service keeps one; the others' band grows with the record. */
import { DateTime } from 'luxon';
import type { GaugeConfig, LakeConfig } from '../config/types.ts';
import type { Observation } from '../record/types.ts';
import { fetchCwms } from './cwms.ts';
import { mapLogger } from './csv/logger.ts';
import type { RefreshDeps } from './deps.ts';
import { readLogger } from './gauges.ts';
import { fetchUsgsDaily } from './usgs/daily.ts';
import { DAY_MS } from '../units/calendar.ts';

const DAYS = 366;
/** Services that answer for more than about a month; the rest hold 30 days or less. */
const KEEPS_A_YEAR: readonly GaugeConfig['service'][] = ['usgs', 'cwms', 'csv'];

/** Level gauges of a lake whose year can be asked for. */
export function gaugesWithAYear(lake: LakeConfig): GaugeConfig[] {
  return lake.gauges.filter((gauge) => gauge.variable === 'level' && KEEPS_A_YEAR.includes(gauge.service));
}

/**
 * Daily levels of the past year: one request for all USGS gauges of the lake, a few pages for each CWMS series, the
 * file again for a logger. Finer values are averaged over UTC days here, so that a year costs 365 rows.
 *
 * @returns observations with a period of a day
 * @throws ThawlineError of the first source that fails
 */
export async function fetchLevelYear(lake: LakeConfig, deps: RefreshDeps): Promise<Observation[]> {
  const gauges = gaugesWithAYear(lake);
  const usgs = gauges.filter((gauge) => gauge.service === 'usgs');
  const now = DateTime.fromMillis(deps.nowMs, { zone: lake.zone });
  const date = (daysBack: number): string => now.minus({ days: daysBack }).toISODate() ?? '';
  const result: Observation[] = [];
  if (usgs.length > 0) result.push(...(await fetchUsgsDaily(lake, usgs, date(DAYS), date(1), deps)));
  for (const gauge of gauges) {
    if (gauge.service === 'cwms')
      result.push(...dailyMeans(await fetchCwms(deps.client, gauge, lake.id, { ...deps, pastDays: DAYS })));
    if (gauge.service === 'csv') {
      const text = await readLogger(gauge, deps);
      const { observations } = mapLogger(text, gauge, lake.id, deps.nowMs - DAYS * DAY_MS, deps.nowMs);
      result.push(...dailyMeans(observations));
    }
  }
  return result;
}

/** Means over whole UTC days; the days at both ends may be cut and are left out. */
export function dailyMeans(rows: readonly Observation[]): Observation[] {
  const days = new Map<number, Observation[]>();
  for (const row of rows) {
    const day = Math.floor(row.atMs / DAY_MS);
    const list = days.get(day);
    if (list === undefined) days.set(day, [row]);
    else list.push(row);
  }
  return [...days.entries()]
    .sort(([a], [b]) => a - b)
    .slice(1, -1)
    .flatMap(([day, list]) => {
      const [first] = list;
      if (first === undefined) return [];
      const { lake, variable, source, station, kind, issuedMs, datum } = first;
      return [
        {
          lake,
          variable,
          source,
          station: `${station}/daily`,
          kind,
          atMs: (day + 1) * DAY_MS,
          periodS: DAY_MS / 1000,
          value: list.reduce((sum, row) => sum + row.value, 0) / list.length,
          issuedMs,
          provisional: true,
          ...(datum === undefined ? {} : { datum }),
        },
      ];
    });
}
