/** One of many processes on a record in PostgreSQL: it does jobs, and one of them at a time plans for all. */
import { syncConfigReaders } from '../../delivery/index.ts';
import { handBackOutbox } from '../../record/delivery/index.ts';
import {
  forgetWorker,
  freeLock,
  handBackRuns,
  seeWorker,
  sharedNowMs,
  workersOf,
} from '../../record/schedule/index.ts';
import { isChangedByNewer } from '../../record/index.ts';
import { watched } from '../failures.ts';
import { problemOf } from '../issue.ts';
import { holdScheduler, SCHEDULER_LOCK } from '../lock.ts';
import type { ScheduleDeps } from '../types.ts';
import { QUEUES, type Engine } from './engine.ts';
import { jobsOf } from './jobs.ts';
import { askDelivery, planPass } from './plan.ts';

/** How often a worker says that it is there, hears how many they are, and sets its clock. */
const BEAT_MS = 20_000;
/** How often what is due is looked for. */
const PASS_MS = 60_000;

export interface WorkTimes {
  readonly beatMs?: number;
  readonly passMs?: number;
}

/**
 * A clock that goes by the database's, however wrong this machine's is.
 *
 * @param machineMs this machine's clock
 * @param theirMs the database's
 */
export function sharedClock(
  record: ScheduleDeps['record'],
  machineMs: () => number = Date.now,
  theirMs: () => Promise<number> = () => sharedNowMs(record),
): { now: () => number; set: () => Promise<void> } {
  let aheadMs = 0;
  return {
    now: () => machineMs() + aheadMs,
    set: async () => {
      const before = machineMs();
      const theirs = await theirMs();
      // Half of the way there and back has passed since it was read.
      aheadMs = Math.round(theirs - (before + machineMs()) / 2);
    },
  };
}

/**
 * Works until the signal fires, then finishes or hands back what is under way.
 *
 * @param setClock called at each beat, before anything is judged by the clock
 */
export async function runWorker(
  base: ScheduleDeps & { readonly signal: AbortSignal },
  engine: Engine,
  setClock: () => Promise<void> = () => Promise.resolve(),
  { beatMs = BEAT_MS, passMs = PASS_MS }: WorkTimes = {},
): Promise<void> {
  const stop = new AbortController();
  const signal = AbortSignal.any([base.signal, stop.signal]);
  const deps = {
    ...base,
    signal,
    onIssued: async (step, mails) => askDelivery(engine, mails, step),
  } satisfies ScheduleDeps;
  const { record, log, owner } = deps;
  let plans = false;

  const beat = async (): Promise<void> => {
    await setClock();
    // In this order: who changes the record looks for workers first, and lets none in until it is done.
    await seeWorker(record, owner, deps.now());
    if (await isChangedByNewer(record)) {
      log.error('a newer version has changed the record: this worker stops, start it in that version');
      stop.abort();
      return;
    }
    const living = (await workersOf(record)).filter(({ untilMs }) => untilMs > deps.now());
    deps.sender?.share(living.length);
  };
  const plan = async (): Promise<void> => {
    const before = plans;
    plans = await holdScheduler(deps);
    if (plans && !before) {
      log.info('this worker plans now');
      await syncConfigReaders(record, deps.config, deps.now());
    }
    if (plans) await planPass(deps, engine);
  };
  /** At most once at a time; what fails is tried again at the next turn. */
  const every = (ms: number, what: string, job: () => Promise<void>): (() => Promise<void>) => {
    let running: Promise<void> | null = null;
    const turn = (): Promise<void> =>
      (running ??= job()
        .catch((error: unknown) =>
          log.error({ what, problem: problemOf(error) }, 'will be tried again at the next turn'),
        )
        .finally(() => (running = null)));
    const timer = setInterval(() => {
      if (!signal.aborted) void turn();
    }, ms);
    void turn();
    return async () => {
      clearInterval(timer);
      await running;
    };
  };

  // A database that is away at this moment is met again at the next beat.
  await beat().catch((error: unknown) =>
    log.error({ what: 'beat', problem: problemOf(error) }, 'will be tried again at the next turn'),
  );
  const jobs = jobsOf(deps, engine);
  for (const queue of QUEUES)
    engine.serve(queue, (data, key) => watched(deps, { queue, key }, () => jobs[queue](data)));
  const endBeat = every(beatMs, 'beat', beat);
  const endPlan = every(passMs, 'plan', plan);
  log.info('this worker takes jobs');
  await new Promise<void>((resolve) => {
    if (signal.aborted) resolve();
    else signal.addEventListener('abort', () => resolve(), { once: true });
  });
  await endBeat();
  await endPlan();
  await engine.stop();
  await handBackOutbox(record, owner);
  await handBackRuns(record, owner, deps.now());
  await freeLock(record, SCHEDULER_LOCK, owner);
  await forgetWorker(record, owner);
  await deps.transport.close();
  log.info('stopped; everything under way was finished or handed back');
}
