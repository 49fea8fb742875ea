import type { LakeConfig } from '../config/types.ts';
import { emptyRefresh, retrieve, type LakeRefresh } from './basket.ts';
import { baseUrl } from './bases.ts';
import type { RefreshDeps } from './deps.ts';
import { statusOf } from './http/errors.ts';
import type { HttpClient, HttpReply } from './http/types.ts';
import { fetchAlerts, fetchGrid, fetchStations } from './nws/fetch.ts';
import { forecastUrl, mapOpenMeteo } from './openMeteo.ts';
import { parseJson } from './parse.ts';

/** Points in one request: the address stays below 1 kB and one reply of a month near 2 MB. */
const POINTS_PER_REQUEST = 25;

export interface Pair {
  readonly lake: LakeConfig;
  readonly basket: LakeRefresh;
}

/** Weather of all lakes that use Open-Meteo, many points in one request. */
export async function refreshOpenMeteo(pairs: readonly Pair[], deps: RefreshDeps): Promise<void> {
  const wanted = pairs.filter(({ lake }) => lake.weather.includes('open-meteo'));
  const chunks: Pair[][] = [];
  for (let i = 0; i < wanted.length; i += POINTS_PER_REQUEST)
    chunks.push(wanted.slice(i, i + POINTS_PER_REQUEST));
  await Promise.all(chunks.map(async (chunk) => refreshChunk(chunk, deps)));
}

async function refreshChunk(chunk: readonly Pair[], deps: RefreshDeps): Promise<void> {
  const tried = chunk.map(({ lake }) => emptyRefresh(lake.id));
  const quiet: RefreshDeps = { ...deps, onProgress: () => undefined };
  const ok = await retrieve('open-meteo', tried, quiet, async (client) => askOpenMeteo(client, chunk, deps));
  const status = tried[0]?.retrievals[0]?.status;
  // One odd point must not cost the others their weather; a service that is down will not answer point by point either.
  if (!ok && chunk.length > 1 && (status === 400 || status === 200)) {
    for (const pair of chunk) {
      await retrieve('open-meteo', [pair.basket], deps, async (client) => askOpenMeteo(client, [pair], deps));
    }
    return;
  }
  chunk.forEach(({ basket }, i) => {
    for (const retrieval of tried[i]?.retrievals ?? []) {
      basket.retrievals.push(retrieval);
      deps.onProgress?.(`${basket.lake}: open-meteo ${retrieval.ok ? 'ok' : retrieval.problem}`);
    }
  });
}

async function askOpenMeteo(client: HttpClient, pairs: readonly Pair[], deps: RefreshDeps): Promise<void> {
  const points = pairs.map(({ lake }) => lake);
  const ask = async (plain: boolean): Promise<HttpReply> =>
    client.get({
      url: forecastUrl(baseUrl(deps.services, 'open-meteo'), points, deps.pastDays, plain),
      service: 'Open-Meteo',
      conditionalFor: points.map((p) => p.id).join(','),
    });
  const reply = await ask(false).catch(async (error: unknown) => {
    // A column that is not known costs the whole request; the chance of thunder is not worth the weather.
    if (statusOf(error) !== 400) throw error;
    return ask(true);
  });
  if (reply.notModified) return;
  const mapped = mapOpenMeteo(parseJson(reply.text, 'Open-Meteo'), points, deps.nowMs);
  pairs.forEach(({ basket }, i) => {
    for (const observation of mapped[i] ?? []) basket.observations.push(observation);
  });
}

/** Alerts, forecast and station reports of the National Weather Service, each failing by itself; safety first. */
export async function refreshNws({ lake, basket }: Pair, deps: RefreshDeps): Promise<void> {
  if (lake.alerts === 'nws') {
    await retrieve('nws', [basket], deps, async (client) => {
      basket.alerts.push(...(await fetchAlerts(client, lake, deps)));
      basket.alertsCheckedMs = deps.nowMs;
    });
  }
  if (lake.weather.includes('nws')) {
    await retrieve('nws', [basket], deps, async (client) => {
      for (const observation of await fetchGrid(client, lake, deps)) basket.observations.push(observation);
    });
    await retrieve('nws', [basket], deps, async (client) => {
      for (const observation of await fetchStations(client, lake, deps))
        basket.observations.push(observation);
    });
  }
}
