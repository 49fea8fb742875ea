import { ThawlineError } from '../units/index.ts';
import type { FloodStatus, Observation, OfficialAlert, Retrieval } from '../record/index.ts';
import { ATTRIBUTIONS, type SourceId } from './attributions.ts';
import type { RefreshDeps } from './deps.ts';
import { notAhead } from './honest.ts';
import { statusOf } from './http/errors.ts';
import type { HttpClient } from './http/types.ts';
import type { Note } from './note.ts';
import { onePerInstant } from './twoValues.ts';
import { within } from './within.ts';

/** What one refresh brought for one lake. */
export interface LakeRefresh {
  readonly lake: string;
  readonly observations: Observation[];
  readonly alerts: OfficialAlert[];
  /** When alerts were asked for successfully; null means "not checked", which is not "none". */
  alertsCheckedMs: number | null;
  readonly floods: FloodStatus[];
  readonly retrievals: Retrieval[];
}

export function emptyRefresh(lake: string): LakeRefresh {
  return { lake, observations: [], alerts: [], alertsCheckedMs: null, floods: [], retrievals: [] };
}

interface Meter {
  readonly client: HttpClient;
  readonly total: { bytes: number; durationMs: number; status: number | null };
}

/** A client that adds up what passes through it. */
function meter(client: HttpClient): Meter {
  const total: Meter['total'] = { bytes: 0, durationMs: 0, status: null };
  return {
    total,
    client: {
      ...client,
      get: async (request) => {
        const reply = await client.get(request);
        total.bytes += reply.bytes;
        total.durationMs += reply.durationMs;
        total.status = reply.status;
        return reply;
      },
    },
  };
}

/**
 * Run one task against one source for some lakes and log the retrieval with each of them.
 * A failure becomes one sentence in the log; it never reaches another source or lake. A part that the task notes as
 * refused is logged once with each of the lakes.
 *
 * @returns whether the task succeeded
 */
export async function retrieve(
  source: SourceId,
  baskets: readonly LakeRefresh[],
  deps: RefreshDeps,
  task: (client: HttpClient, note: Note) => Promise<void>,
): Promise<boolean> {
  const { client, total } = meter(within(deps.client, deps.services.timeoutMs));
  const noted = new Set<string>();
  let problem = '';
  let status: number | null = null;
  try {
    await task(client, (part) => noted.add(part));
  } catch (error) {
    // Anything outside the family is a fault of this program; it may cost this source, but not the morning.
    problem =
      error instanceof ThawlineError
        ? error.message
        : `A fault of this program while reading ${ATTRIBUTIONS[source].name}; please report it (${error instanceof Error ? error.name : 'unknown'}).`;
    status = statusOf(error);
  }
  const ok = problem === '';
  for (const basket of baskets) {
    basket.retrievals.push({
      lake: basket.lake,
      source,
      atMs: deps.nowMs,
      ok,
      status: ok ? total.status : (status ?? total.status),
      durationMs: Math.round(total.durationMs),
      bytes: total.bytes,
      problem,
    });
    deps.onProgress?.(`${basket.lake}: ${source} ${ok ? 'ok' : problem}`);
  }
  if (ok) for (const basket of baskets) for (const part of noted) noteProblem(source, basket, deps, part);
  return ok;
}

/** Puts what a source gave into a lake's basket, but for what claims to come from the future; of two values for an instant one. */
export function keep(
  source: SourceId,
  basket: LakeRefresh,
  found: readonly Observation[],
  deps: RefreshDeps,
  note: Note,
): void {
  for (const observation of notAhead(onePerInstant(found), source, deps.nowMs, note, deps.wallMs))
    basket.observations.push(observation);
}

/** Log a part that failed although its source answered, such as one silent gauge. */
export function noteProblem(source: string, basket: LakeRefresh, deps: RefreshDeps, problem: string): void {
  basket.retrievals.push({
    lake: basket.lake,
    source,
    atMs: deps.nowMs,
    ok: false,
    status: null,
    durationMs: 0,
    bytes: 0,
    problem,
  });
  deps.onProgress?.(`${basket.lake}: ${source} ${problem}`);
}
