import type { LakeConfig } from '../config/types.ts';
import { emptyRefresh, noteProblem, retrieve, type LakeRefresh } from './basket.ts';
import { baseUrl } from './bases.ts';
import type { RefreshDeps } from './deps.ts';
import type { HttpClient } from './http/types.ts';
import { forecastUrl, mapOpenMeteo } from './openMeteo.ts';
import { parseJson } from './parse.ts';
import { fetchUsgs } from './usgs/fetch.ts';

/** Points in one weather request: the address stays below 1 kB and one reply below 1 MB or so. */
const POINTS_PER_REQUEST = 25;

interface Pair {
  readonly lake: LakeConfig;
  readonly basket: LakeRefresh;
}

/**
 * Fetch what every lake is configured for, in as few requests as the services allow.
 *
 * It never throws for a service: each failure is a retrieval with `ok` false and one sentence, beside the data of the
 * sources that did answer.
 */
export async function refreshLakes(lakes: readonly LakeConfig[], deps: RefreshDeps): Promise<LakeRefresh[]> {
  const pairs = lakes.map((lake) => ({ lake, basket: emptyRefresh(lake.id) }));
  await Promise.all([weatherFromOpenMeteo(pairs, deps), gaugesFromUsgs(pairs, deps)]);
  return pairs.map((pair) => pair.basket);
}

async function weatherFromOpenMeteo(pairs: readonly Pair[], deps: RefreshDeps): Promise<void> {
  const wanted = pairs.filter(({ lake }) => lake.weather.includes('open-meteo'));
  const chunks: Pair[][] = [];
  for (let i = 0; i < wanted.length; i += POINTS_PER_REQUEST)
    chunks.push(wanted.slice(i, i + POINTS_PER_REQUEST));
  await Promise.all(
    chunks.map(async (chunk) => {
      const tried = chunk.map(({ lake }) => emptyRefresh(lake.id));
      const ok = await retrieve('open-meteo', tried, deps, async (client) =>
        askOpenMeteo(client, chunk, deps),
      );
      const alone = chunk.length === 1;
      const refused = tried[0]?.retrievals[0]?.status === 400 || tried[0]?.retrievals[0]?.status === 200;
      if (ok || alone || !refused) {
        chunk.forEach(({ basket }, i) => basket.retrievals.push(...(tried[i]?.retrievals ?? [])));
        return;
      }
      // One odd point must not cost the others their weather: ask for each by itself.
      for (const pair of chunk) {
        await retrieve('open-meteo', [pair.basket], deps, async (client) =>
          askOpenMeteo(client, [pair], deps),
        );
      }
    }),
  );
}

async function askOpenMeteo(client: HttpClient, pairs: readonly Pair[], deps: RefreshDeps): Promise<void> {
  const points = pairs.map(({ lake }) => lake);
  const reply = await client.get({
    url: forecastUrl(baseUrl(deps.services, 'open-meteo'), points, deps.pastDays),
    service: 'Open-Meteo',
    conditionalFor: points.map((p) => p.id).join(','),
  });
  if (reply.notModified) return;
  const mapped = mapOpenMeteo(parseJson(reply.text, 'Open-Meteo'), points, deps.nowMs);
  pairs.forEach(({ basket }, i) => {
    for (const observation of mapped[i] ?? []) basket.observations.push(observation);
  });
}

async function gaugesFromUsgs(pairs: readonly Pair[], deps: RefreshDeps): Promise<void> {
  const wanted = pairs.flatMap(({ lake }) =>
    lake.gauges.filter((g) => g.service === 'usgs').map((gauge) => ({ lake: lake.id, gauge })),
  );
  if (wanted.length === 0) return;
  const basketOf = new Map(pairs.map(({ basket }) => [basket.lake, basket]));
  const involved = pairs
    .filter(({ lake }) => wanted.some((w) => w.lake === lake.id))
    .map(({ basket }) => basket);
  await retrieve('usgs', involved, deps, async (client) => {
    for (const result of await fetchUsgs(client, wanted, deps)) {
      const basket = basketOf.get(result.wanted.lake);
      if (basket === undefined) continue;
      for (const observation of result.observations) basket.observations.push(observation);
      if (result.problem !== '') noteProblem('usgs', basket, deps, result.problem);
    }
  });
}
