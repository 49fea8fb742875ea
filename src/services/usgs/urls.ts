import { isoSeconds } from '../parse.ts';

/** Rows per page; the service takes up to 50,000, which would make a page of some 17 MB. */
const LIMIT = 20_000;
/** The service's limit on the length of an address is about 8 kB; the rest of the query is short. */
const SITES_PER_REQUEST = 300;
/** Continuous values carry this statistic; without it several statistics are mixed. */
const INSTANTANEOUS = '00011';
/** Mean of the day, and the value at its end, which some reservoirs have instead (meaning of 32400 from memory). */
export const DAILY_STATISTICS = ['00003', '32400'] as const;
/** A window of more than 1,100 days is refused. */
const MAX_DAYS = 1_099;

const ROW_PROPERTIES = [
  'time_series_id',
  'monitoring_location_id',
  'parameter_code',
  'statistic_id',
  'time',
  'value',
  'unit_of_measure',
  'approval_status',
  'qualifier',
  'last_modified',
].join(',');

type Collection = 'continuous' | 'daily' | 'latest-continuous' | 'time-series-metadata';

/** Lists go into one key with commas: of a repeated key the service keeps only the last. */
function url(base: string, collection: Collection, sites: readonly string[], rest: string): string {
  const list = sites.map(encodeURIComponent).join(',');
  return `${base}/ogcapi/v1/collections/${collection}/items?f=json&monitoring_location_id=${list}${rest}&skipGeometry=true&limit=${LIMIT}`;
}

export function continuousUrl(
  base: string,
  sites: readonly string[],
  parameters: readonly string[],
  nowMs: number,
  pastDays: number,
): string {
  const from = nowMs - Math.min(MAX_DAYS, Math.max(1, pastDays)) * 86_400_000;
  const time = `${isoSeconds(from)}/${isoSeconds(nowMs)}`;
  return url(
    base,
    'continuous',
    sites,
    `&parameter_code=${parameters.join(',')}&statistic_id=${INSTANTANEOUS}&time=${time}&properties=${ROW_PROPERTIES}`,
  );
}

/** Daily values: dates of the site's own calendar. Without the statistic, means and extremes would be mixed. */
export function dailyUrl(
  base: string,
  sites: readonly string[],
  parameters: readonly string[],
  fromDate: string,
  toDate: string,
): string {
  return url(
    base,
    'daily',
    sites,
    `&parameter_code=${parameters.join(',')}&statistic_id=${DAILY_STATISTICS.join(',')}&time=${fromDate}/${toDate}&properties=${ROW_PROPERTIES}`,
  );
}

export function latestUrl(base: string, sites: readonly string[], parameters: readonly string[]): string {
  return url(
    base,
    'latest-continuous',
    sites,
    `&parameter_code=${parameters.join(',')}&statistic_id=${INSTANTANEOUS}&properties=${ROW_PROPERTIES}`,
  );
}

export function metadataUrl(base: string, sites: readonly string[], parameters: readonly string[]): string {
  return url(base, 'time-series-metadata', sites, `&parameter_code=${parameters.join(',')}`);
}

/** Sites in as few requests as the address length allows. */
export function chunkSites(sites: readonly string[]): string[][] {
  const chunks: string[][] = [];
  for (let i = 0; i < sites.length; i += SITES_PER_REQUEST)
    chunks.push(sites.slice(i, i + SITES_PER_REQUEST));
  return chunks;
}
