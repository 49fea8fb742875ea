/** Fetches that are made seldom: a failure costs little, so it is logged with its sentence and passed over. */
import type { Observation, RecordStore } from '../record/index.ts';
import { ThawlineError } from '../units/index.ts';

/**
 * Fetch, store and log under a name of its own.
 *
 * @param source  name under which the attempt is logged
 * @param problem sentence for the reader, from the service's own
 * @throws what is no ThawlineError: a fault of the program, not of a service
 */
export async function attempt(
  record: RecordStore,
  { lake, source, nowMs }: { readonly lake: string; readonly source: string; readonly nowMs: number },
  fetch: () => Promise<readonly Observation[]>,
  problem: (why: string) => string,
): Promise<void> {
  const started = performance.now();
  let failure = '';
  try {
    await record.putObservations(await fetch(), nowMs);
  } catch (error) {
    if (!(error instanceof ThawlineError)) throw error;
    failure = problem(error.message);
  }
  await record.putRetrievals([
    {
      lake,
      source,
      atMs: nowMs,
      ok: failure === '',
      status: null,
      durationMs: Math.round(performance.now() - started),
      bytes: 0,
      problem: failure,
    },
  ]);
}
