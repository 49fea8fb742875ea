/** One scheduler at a time: a second process waits, and takes over when the first is gone. */
import { handBackOutbox } from '../record/delivery/index.ts';
import { freeLock, handBackRuns, holdLock, lockHolder } from '../record/schedule/index.ts';
import { isDead } from './owner.ts';
import type { ScheduleDeps } from './types.ts';

/** Name of the lock that the one scheduler holds. */
export const SCHEDULER_LOCK = 'scheduler';
export const LOCK_TTL_MS = 90_000;

type LockDeps = Pick<ScheduleDeps, 'record' | 'owner' | 'now' | 'log'>;

/** Takes or renews the lock. What a former holder left half done is freed at once when the lock changes hands. */
export async function holdScheduler(deps: LockDeps): Promise<boolean> {
  const { record } = deps;
  const nowMs = deps.now();
  const before = await lockHolder(record, SCHEDULER_LOCK);
  const gone = before !== undefined && isDead(before.owner, deps.owner) ? { deadOwner: before.owner } : {};
  const held = await holdLock(record, SCHEDULER_LOCK, {
    owner: deps.owner,
    nowMs,
    ttlMs: LOCK_TTL_MS,
    ...gone,
  });
  if (held && before !== undefined && before.owner !== deps.owner) {
    // Only a holder known to be dead: one that merely overslept may still be sending.
    if (gone.deadOwner !== undefined) {
      const mails = await handBackOutbox(record, before.owner);
      const runs = await handBackRuns(record, before.owner, nowMs);
      deps.log.warn({ mails, runs }, 'took over from a scheduler that died');
    }
  }
  return held;
}

/** Hands everything back: the next process need not wait for a lease to run out. */
export async function releaseScheduler(deps: LockDeps): Promise<void> {
  const { record } = deps;
  await handBackOutbox(record, deps.owner);
  await handBackRuns(record, deps.owner, deps.now());
  await freeLock(record, SCHEDULER_LOCK, deps.owner);
}
