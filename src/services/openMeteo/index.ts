import type { HttpReply, HttpClient } from '../http/types.ts';
import { emptyRefresh, keep, retrieve } from '../basket.ts';
import { baseUrl } from '../bases.ts';
import type { RefreshDeps } from '../deps.ts';
import { statusOf } from '../http/errors.ts';
import type { Note } from '../note.ts';
import { parseJson } from '../parse.ts';
import type { Behaviour, Pair } from '../service.ts';
import { forecastUrl, mapOpenMeteo, VARIABLES_GIVEN } from './map.ts';

/** Points in one request: the address stays below 1 kB and one reply of a month near 2 MB. */
const POINTS_PER_REQUEST = 25;

/** Weather of all lakes that use it, many points in one request. */
async function fetch(pairs: readonly Pair[], deps: RefreshDeps): Promise<void> {
  const wanted = pairs.filter(({ lake }) => lake.weather.includes('open-meteo'));
  const chunks: Pair[][] = [];
  for (let i = 0; i < wanted.length; i += POINTS_PER_REQUEST)
    chunks.push(wanted.slice(i, i + POINTS_PER_REQUEST));
  await Promise.all(chunks.map(async (chunk) => refreshChunk(chunk, deps)));
}

async function refreshChunk(chunk: readonly Pair[], deps: RefreshDeps): Promise<void> {
  const tried = chunk.map(({ lake }) => emptyRefresh(lake.id));
  const quiet: RefreshDeps = { ...deps, onProgress: () => undefined };
  const ok = await retrieve('open-meteo', tried, quiet, async (client, note) =>
    ask(client, chunk, deps, note),
  );
  const status = tried[0]?.retrievals[0]?.status;
  // One odd point must not cost the others their weather; a service that is down will not answer point by point either.
  if (!ok && chunk.length > 1 && (status === 400 || status === 200)) {
    for (const pair of chunk) {
      await retrieve('open-meteo', [pair.basket], deps, async (client, note) =>
        ask(client, [pair], deps, note),
      );
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

async function ask(client: HttpClient, pairs: readonly Pair[], deps: RefreshDeps, note: Note): Promise<void> {
  const points = pairs.map(({ lake }) => lake);
  const send = async (plain: boolean): Promise<HttpReply> =>
    client.get({
      url: forecastUrl(baseUrl(deps.services, 'open-meteo'), points, deps.pastDays, plain),
      service: 'Open-Meteo',
      conditionalFor: points.map((p) => p.id).join(','),
    });
  const reply = await send(false).catch(async (error: unknown) => {
    // A column that is not known costs the whole request; the chance of thunder is not worth the weather.
    if (statusOf(error) !== 400) throw error;
    return send(true);
  });
  if (reply.notModified) return;
  const mapped = mapOpenMeteo(parseJson(reply.text, 'Open-Meteo'), points, deps.nowMs, note);
  pairs.forEach(({ basket }, i) => {
    keep('open-meteo', basket, mapped[i] ?? [], deps, note);
  });
}

export const openMeteo: Behaviour = { id: 'open-meteo', variables: VARIABLES_GIVEN, fetch };
