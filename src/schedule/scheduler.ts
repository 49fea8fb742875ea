/** The long-running process. node-cron only wakes it; the run table decides what there is to do. */
import cron from 'node-cron';
import { syncConfigReaders, type DrainReport } from '../delivery/index.ts';
import { undelivered, type Undelivered } from '../record/delivery/index.ts';
import { problemOf } from './issue.ts';
import { holdScheduler, LOCK_TTL_MS, releaseScheduler } from './lock.ts';
import { deliverPass, schedulePass } from './pass.ts';
import type { ScheduleDeps } from './types.ts';

/** How long a stop may wait for mails under way before their connections are cut. */
const STOP_MS = 25_000;

/** At most one run of a job at a time; a wake-up during a run is kept for one more run right after it. */
function single(job: () => Promise<void>): { wake: () => Promise<void>; idle: () => Promise<void> } {
  let running: Promise<void> | null = null;
  let again = false;
  const loop = async (): Promise<void> => {
    do {
      again = false;
      await job();
    } while (again);
  };
  return {
    wake: () => {
      if (running !== null) again = true;
      running ??= loop().finally(() => (running = null));
      return running;
    },
    idle: () => running ?? Promise.resolve(),
  };
}

/** What one pass left behind. */
export interface PassReport extends DrainReport {
  readonly left: Undelivered;
}

/** One pass and an empty outbox, for a timer of the system; null when another scheduler is at work. */
export async function runOnce(deps: ScheduleDeps): Promise<PassReport | null> {
  if (!(await holdScheduler(deps))) return null;
  const beat = setInterval(() => void holdScheduler(deps).catch(() => undefined), LOCK_TTL_MS / 4);
  try {
    await syncConfigReaders(deps.record, deps.config, deps.now());
    await schedulePass(deps);
    const report = await deliverPass(deps);
    return { ...report, left: await undelivered(deps.record, deps.now()) };
  } finally {
    clearInterval(beat);
    await releaseScheduler(deps);
  }
}

/**
 * Runs until the signal fires: wakes every minute, in UTC so that no clock change can skip or double a wake-up, and
 * when a wake-up was missed. Resolves when everything under way is finished or handed back.
 */
export async function runScheduler(deps: ScheduleDeps & { readonly signal: AbortSignal }): Promise<void> {
  const { log, signal } = deps;
  let held = false;
  const guarded = (what: string, job: () => Promise<unknown>) => async (): Promise<void> => {
    try {
      await job();
    } catch (error) {
      log.error({ what, problem: problemOf(error) }, 'will be tried again at the next wake-up');
    }
  };
  const delivery = single(guarded('delivery', () => deliverPass(deps)));
  const lock = async (): Promise<boolean> => {
    const before = held;
    held = await holdScheduler(deps);
    if (held && !before) {
      log.info('this process schedules now');
      await syncConfigReaders(deps.record, deps.config, deps.now());
    }
    if (!held && before) log.warn('another process schedules now');
    return held;
  };
  const schedule = single(
    guarded('schedule', async () => {
      if (signal.aborted || !(await lock())) return;
      await schedulePass(deps);
      void delivery.wake();
    }),
  );
  const task = cron.schedule('* * * * *', () => schedule.wake(), { timezone: 'UTC', noOverlap: true });
  task.on('execution:missed', () => schedule.wake());
  const renew = guarded('lock', async () => {
    if (signal.aborted) return;
    // One that waits looks as often as one that works says that it is there, and then begins at once.
    if (held) await lock();
    else await schedule.wake();
  });
  const beat = setInterval(() => void renew(), LOCK_TTL_MS / 4);
  await schedule.wake();
  if (!held) log.info('another process schedules; waiting for it to end');
  await new Promise<void>((resolve) => {
    if (signal.aborted) resolve();
    else signal.addEventListener('abort', () => resolve(), { once: true });
  });
  await task.destroy();
  const cut = setTimeout(() => void deps.transport.close(), STOP_MS);
  await schedule.idle();
  await delivery.idle();
  clearTimeout(cut);
  clearInterval(beat);
  await releaseScheduler(deps);
  await deps.transport.close();
  log.info('stopped; everything under way was finished or handed back');
}
