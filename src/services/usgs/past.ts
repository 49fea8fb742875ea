/** Continuous values of a span of the past: what the station recorded, every quarter of an hour or so. */
import { ThawlineError } from '../../units/index.ts';
import { DAY_MS } from '../../units/time/index.ts';
import type { GaugeConfig, LakeConfig } from '../../config/index.ts';
import type { Observation } from '../../record/index.ts';
import { baseUrl } from '../bases.ts';
import type { RefreshDeps } from '../deps.ts';
import type { PastSpan, PastValues } from '../service.ts';
import { groupRows, keyOf, sitesWhere } from './fetch.ts';
import { fetchItems, rowSchema, seriesSchema, type UsgsRow, type UsgsSeries } from './items.ts';
import { mapSeries, parameterOf, siteOf } from './map.ts';
import { chooseSeries } from './series.ts';
import { chunkSites, continuousUrl, metadataUrl } from './urls.ts';

/**
 * All gauges in one query, and one more where a site holds two series.
 *
 * @throws ThawlineError when a query fails; the fault of one gauge is one of the problems instead
 */
export async function fetchUsgsPast(
  lake: LakeConfig,
  gauges: readonly GaugeConfig[],
  { fromMs, toMs }: PastSpan,
  deps: RefreshDeps,
): Promise<PastValues> {
  const base = baseUrl(deps.services, 'usgs');
  const problems: string[] = [];
  const orProblem = <T>(work: () => T, otherwise: T): T => {
    try {
      return work();
    } catch (error) {
      if (!(error instanceof ThawlineError)) throw error;
      problems.push(error.message);
      return otherwise;
    }
  };
  const good = gauges.filter((gauge) => orProblem(() => parameterOf(gauge) !== '', false));
  const sites = [...new Set(good.map(siteOf))].sort();
  const parameters = [...new Set(good.map(parameterOf))].sort();
  const days = (toMs - fromMs) / DAY_MS;
  const all: UsgsRow[] = [];
  for (const chunk of chunkSites(sites)) {
    const address = continuousUrl(base, chunk, parameters, toMs, days);
    all.push(...(await fetchItems(deps.client, address, deps.usgsKey, rowSchema)));
  }
  const rows = groupRows(all);
  const wanted = good.map((gauge) => ({ lake: lake.id, zone: lake.zone, gauge }));
  const doubled = sitesWhere(
    wanted,
    (groups, gauge) => groups.size > 1 && gauge.timeSeriesId === undefined,
    rows,
  );
  const metadata: UsgsSeries[] = [];
  for (const chunk of chunkSites(doubled)) {
    const address = metadataUrl(base, chunk, parameters);
    metadata.push(...(await fetchItems(deps.client, address, deps.usgsKey, seriesSchema)));
  }
  const observations = good.flatMap((gauge): Observation[] => {
    const groups = rows.get(keyOf(gauge));
    if (groups === undefined) return [];
    const chosen = chooseSeries(groups, gauge.timeSeriesId, metadata);
    return chosen === null ? [] : orProblem(() => mapSeries(groups.get(chosen) ?? [], gauge, lake.id), []);
  });
  return { observations, problems };
}
