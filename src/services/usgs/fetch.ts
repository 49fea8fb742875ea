import type { z } from 'zod';
import { ThawlineError } from '../../units/index.ts';
import { addDays, DAY_MS, isoDate } from '../../units/time/index.ts';
import type { GaugeConfig } from '../../config/index.ts';
import type { Observation } from '../../record/index.ts';
import { ATTRIBUTIONS } from '../attributions.ts';
import { baseUrl } from '../bases.ts';
import type { RefreshDeps } from '../deps.ts';
import type { HttpClient } from '../http/types.ts';
import type { Note } from '../note.ts';
import { instantMs } from '../parse.ts';
import { mapDaily } from './daily.ts';
import { fetchItems, rowSchema, seriesSchema, type UsgsRow, type UsgsSeries } from './items.ts';
import { mapSeries, parameterOf, siteOf } from './map.ts';
import { bySeries, chooseSeries, type RowOfInstant } from './series.ts';
import { chunkSites, continuousUrl, dailyUrl, latestUrl, metadataUrl } from './urls.ts';

const NAME = ATTRIBUTIONS.usgs.name;

export interface Wanted {
  readonly lake: string;
  /** Zone of the lake, in which its daily values are dated. */
  readonly zone: string;
  readonly gauge: GaugeConfig;
}

/** What became of one gauge: its observations, and one sentence when there is something to say. */
export interface GaugeResult {
  readonly wanted: Wanted;
  readonly observations: Observation[];
  readonly problem: string;
}

/**
 * All USGS gauges of all lakes in as few requests as the service allows: one query for every site, one more when a
 * site holds two series, two more when a gauge is silent: its last value, and daily values where nothing finer exists.
 *
 * @throws ThawlineError when the query itself fails; the fault of one gauge is in its result instead
 */
export async function fetchUsgs(
  client: HttpClient,
  wanted: readonly Wanted[],
  deps: RefreshDeps,
  note: Note,
): Promise<GaugeResult[]> {
  const base = baseUrl(deps.services, 'usgs');
  const good = wanted.filter((w) => problemOf(() => parameterOf(w.gauge)) === '');
  const sites = [...new Set(good.map((w) => siteOf(w.gauge)))].sort();
  const parameters = [...new Set(good.map((w) => parameterOf(w.gauge)))].sort();
  const ask = async <T>(
    chunkUrl: (chunk: string[]) => string,
    of: readonly string[],
    schema: z.ZodType<T>,
  ) => {
    const all: T[] = [];
    for (const chunk of chunkSites(of)) {
      for (const row of await fetchItems(client, chunkUrl(chunk), deps.usgsKey, schema, note)) all.push(row);
    }
    return all;
  };

  const rows = groupRows(
    await ask((chunk) => continuousUrl(base, chunk, parameters, deps.nowMs, deps.pastDays), sites, rowSchema),
  );
  const silent = sitesWhere(good, (groups) => groups.size === 0, rows);
  const doubled = sitesWhere(
    good,
    (groups, gauge) => groups.size > 1 && gauge.timeSeriesId === undefined,
    rows,
  );
  // Both are refinements: their failure leaves the rows we have usable.
  const latest = groupRows(
    silent.length === 0
      ? []
      : await orNothing(() => ask((c) => latestUrl(base, c, parameters), silent, rowSchema)),
  );
  const metadata =
    doubled.length === 0
      ? []
      : await orNothing(() => ask((c) => metadataUrl(base, c, parameters), doubled, seriesSchema));

  const today = isoDate(Math.floor(deps.nowMs / DAY_MS));
  const daily =
    silent.length === 0
      ? []
      : await orNothing(() =>
          ask(
            (c) =>
              dailyUrl(base, c, parameters, addDays(today, -Math.max(1, Math.ceil(deps.pastDays))), today),
            silent,
            rowSchema,
          ),
        );

  return wanted.map((w) => resultOf(w, rows, latest, daily, metadata));
}

type Rows = ReadonlyMap<string, ReadonlyMap<string, RowOfInstant[]>>;

const NO_GROUPS: ReadonlyMap<string, RowOfInstant[]> = new Map();
export const keyOf = (gauge: GaugeConfig): string => `${siteOf(gauge)}/${parameterOf(gauge)}`;

export function groupRows(rows: readonly UsgsRow[]): Rows {
  const byKey = new Map<string, UsgsRow[]>();
  for (const row of rows) {
    const key = `${row.monitoring_location_id}/${row.parameter_code}`;
    const list = byKey.get(key);
    if (list === undefined) byKey.set(key, [row]);
    else list.push(row);
  }
  return new Map([...byKey].map(([key, list]) => [key, bySeries(list)]));
}

export function sitesWhere(
  wanted: readonly Wanted[],
  test: (groups: ReadonlyMap<string, UsgsRow[]>, gauge: GaugeConfig) => boolean,
  rows: Rows,
): string[] {
  const hits = wanted.filter(({ gauge }) => test(rows.get(keyOf(gauge)) ?? NO_GROUPS, gauge));
  return [...new Set(hits.map(({ gauge }) => siteOf(gauge)))].sort();
}

function resultOf(
  w: Wanted,
  rows: Rows,
  latest: Rows,
  daily: readonly UsgsRow[],
  metadata: readonly UsgsSeries[],
): GaugeResult {
  try {
    const key = keyOf(w.gauge);
    const groups = rows.get(key) ?? NO_GROUPS;
    const chosen = chooseSeries(groups, w.gauge.timeSeriesId, metadata);
    const observations = chosen === null ? [] : mapSeries(groups.get(chosen) ?? [], w.gauge, w.lake);
    if (observations.length > 0) return { wanted: w, observations, problem: '' };
    const days = w.gauge.variable === 'rain' ? [] : mapDaily(daily, w.gauge, { id: w.lake, zone: w.zone });
    if (days.length > 0) return { wanted: w, observations: days, problem: '' };
    return silentResult(w, groups, latest.get(key) ?? NO_GROUPS);
  } catch (error) {
    if (!(error instanceof ThawlineError)) throw error;
    return { wanted: w, observations: [], problem: error.message };
  }
}

/** A silent gauge still tells how long it has been silent; its last value keeps its date and ages in the record. */
function silentResult(
  w: Wanted,
  groups: ReadonlyMap<string, UsgsRow[]>,
  latest: ReadonlyMap<string, UsgsRow[]>,
): GaugeResult {
  const what = `${NAME} ${siteOf(w.gauge).replace(/^USGS-/, '')} ${w.gauge.variable}`;
  if (groups.size > 0 && w.gauge.timeSeriesId !== undefined && !groups.has(w.gauge.timeSeriesId)) {
    return {
      wanted: w,
      observations: [],
      problem: `${what}: the configured time series is not among the ${groups.size} the service sent; see "timeSeriesId".`,
    };
  }
  const chosen = chooseSeries(latest, w.gauge.timeSeriesId, []);
  const last = chosen === null ? undefined : latest.get(chosen)?.at(-1);
  const observations =
    last === undefined || w.gauge.variable === 'rain' ? [] : mapSeries([last], w.gauge, w.lake);
  const atMs = instantMs(last?.time);
  const since =
    atMs === null
      ? 'no values; the station or parameter may be wrong, or the gauge is off'
      : `silent since ${new Date(atMs).toISOString().slice(0, 16).replace('T', ' ')} UTC`;
  return { wanted: w, observations, problem: `${what}: ${since}.` };
}

async function orNothing<T>(ask: () => Promise<T[]>): Promise<T[]> {
  try {
    return await ask();
  } catch (error) {
    if (error instanceof ThawlineError) return [];
    throw error;
  }
}

function problemOf(task: () => unknown): string {
  try {
    task();
    return '';
  } catch (error) {
    if (error instanceof ThawlineError) return error.message;
    throw error;
  }
}
