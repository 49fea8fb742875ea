/** Daily values: the year of levels behind most reservoir gauges, and all there is of some streams. */
import { DAY_MS, dayNumberOf, isoDate, startOfDayMs } from '../../units/time/index.ts';
import type { GaugeConfig, LakeConfig } from '../../config/index.ts';
import type { Observation } from '../../record/index.ts';
import { ThawlineError } from '../../units/index.ts';
import { ATTRIBUTIONS } from '../attributions.ts';
import { baseUrl } from '../bases.ts';
import type { RefreshDeps } from '../deps.ts';
import { finite, plausible } from '../parse.ts';
import { toSi } from '../units.ts';
import { fetchItems, rowSchema, type UsgsRow } from './items.ts';
import { datumOf, LEGACY_NO_DATA, parameterOf, siteOf } from './map.ts';
import { DAILY_STATISTICS, dailyUrl } from './urls.ts';

const NAME = ATTRIBUTIONS.usgs.name;
const DAY_S = 86_400;

/**
 * Daily values of the level gauges of a lake in one request, for the band of the year on the first morning.
 *
 * @param fromDate first local date, ISO; `toDate` the last
 * @returns observations with a period of a day, stamped with the end of that local day
 * @throws ThawlineError when the query fails, or for an unknown unit
 */
export async function fetchUsgsDaily(
  lake: LakeConfig,
  gauges: readonly GaugeConfig[],
  fromDate: string,
  toDate: string,
  deps: Pick<RefreshDeps, 'client' | 'services' | 'usgsKey'>,
): Promise<Observation[]> {
  const sites = [...new Set(gauges.map(siteOf))].sort();
  const parameters = [...new Set(gauges.map(parameterOf))].sort();
  const address = dailyUrl(baseUrl(deps.services, 'usgs'), sites, parameters, fromDate, toDate);
  const rows = await fetchItems(deps.client, address, deps.usgsKey, rowSchema);
  return gauges.flatMap((gauge) => mapDaily(rows, gauge, lake));
}

/**
 * The daily series of one gauge: the mean of the day before the value at its end, the newest before the longest.
 *
 * @throws ThawlineError for an unknown unit or a series that changes its unit
 */
export function mapDaily(
  rows: readonly UsgsRow[],
  gauge: GaugeConfig,
  lake: Pick<LakeConfig, 'id' | 'zone'>,
): Observation[] {
  const parameter = parameterOf(gauge);
  const own = rows.filter(
    (row) => row.monitoring_location_id === siteOf(gauge) && row.parameter_code === parameter,
  );
  const series = chosen(own);
  if (series.length === 0) return [];
  const units = new Set(series.map((row) => row.unit_of_measure ?? ''));
  if (units.size > 1)
    throw new ThawlineError(
      'service',
      `${NAME} ${gauge.station} changes its unit within its daily values; they were not used.`,
    );
  const convert = toSi(gauge.variable, [...units][0], NAME);
  const datum = datumOf(gauge, parameter);
  const days = new Map<number, Observation>();
  for (const row of series) {
    const value = finite(row.value);
    const atMs = endOfDayMs(row.time, lake.zone);
    if (value === null || value === LEGACY_NO_DATA || atMs === null) continue;
    days.set(atMs, {
      lake: lake.id,
      variable: gauge.variable,
      source: 'usgs',
      station: `${siteOf(gauge)}/${parameter}/daily/${row.time_series_id}`,
      kind: 'observed',
      atMs,
      periodS: DAY_S,
      value: convert(value),
      issuedMs: null,
      provisional: row.approval_status !== 'Approved',
      ...(datum === undefined ? {} : { datum }),
    });
  }
  return [...days.values()].sort((a, b) => a.atMs - b.atMs);
}

/** Rows of one statistic and one series; of a day that is there twice, the row that was modified last comes last. */
function chosen(rows: readonly UsgsRow[]): UsgsRow[] {
  for (const statistic of DAILY_STATISTICS) {
    const groups = new Map<string, UsgsRow[]>();
    for (const row of rows.filter((one) => one.statistic_id === statistic))
      groups.set(row.time_series_id, [...(groups.get(row.time_series_id) ?? []), row]);
    const last = (list: readonly UsgsRow[]): string =>
      list
        .map((row) => row.time)
        .sort()
        .at(-1) ?? '';
    const [best] = [...groups.entries()].sort(
      ([a, x], [b, y]) =>
        (last(x) === last(y) ? 0 : last(x) < last(y) ? 1 : -1) || y.length - x.length || (a < b ? -1 : 1),
    );
    if (best !== undefined)
      return best[1].sort((a, b) => ((a.last_modified ?? '') < (b.last_modified ?? '') ? -1 : 1));
  }
  return [];
}

/** `2026-03-05` is a date label of the site's calendar, never an instant. */
function endOfDayMs(date: string, zone: string): number | null {
  const day = dayNumberOf(date);
  if (day === null || !plausible((day + 1) * DAY_MS)) return null;
  const atMs = startOfDayMs(isoDate(day + 1), zone);
  return plausible(atMs) ? atMs : null;
}
