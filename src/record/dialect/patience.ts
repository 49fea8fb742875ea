import { setTimeout as sleep } from 'node:timers/promises';
import { isBusy, lockedFault, recordFault } from './faults.ts';

/** How long a call waits for another process before it gives up, ms. */
export const PATIENCE_MS = 60_000;
const FIRST_PAUSE_MS = 2;
const LONGEST_PAUSE_MS = 50;

/**
 * Does the work as soon as no other process is in the way. The waiting is done here, in pauses that let this process go
 * on, and never inside SQLite, which would hold up everything else. The pauses are of random length, so that two
 * who wait for each other's leftovers do not keep step.
 *
 * @throws ThawlineError `record`, retryable, when the other process is still in the way after the time
 */
export async function patiently<T>(path: string, patienceMs: number, work: () => T): Promise<T> {
  const startedMs = performance.now();
  for (let pauseMs = FIRST_PAUSE_MS; ; pauseMs = Math.min(LONGEST_PAUSE_MS, pauseMs * 1.5)) {
    try {
      return work();
    } catch (error) {
      if (!isBusy(error)) throw recordFault(error, path);
      const waitedMs = performance.now() - startedMs;
      if (waitedMs > patienceMs) throw lockedFault(path, waitedMs, error);
    }
    await sleep(pauseMs * (0.5 + Math.random()));
  }
}
