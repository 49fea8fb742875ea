/** Work that failed for good: what counts as that, how long a failure is left alone, and what an operator can do. */
import { changeBounceReport, failedBounceReports } from '../record/delivery/index.ts';
import type { DeliveryRecord } from '../record/index.ts';
import {
  dropFailure,
  failuresOf,
  forgetFailure,
  noteFailure,
  retryFailure,
  type WorkKey,
} from '../record/schedule/index.ts';
import { FOR_GOOD, waitAfterMs } from '../delivery/index.ts';
import { ThawlineError } from '../units/index.ts';
import { problemOf } from './issue.ts';

/** A database that is away, or a step that stood in another's way: no fault of the work. */
const isPassing = (error: unknown): boolean =>
  error instanceof ThawlineError && error.code === 'record' && error.retryable;

export const nameOfWork = ({ queue, key }: WorkKey): string => `${queue} ${key}`;

/**
 * Does the work, and notes it when it fails, until it succeeds again.
 *
 * @param isClean it is known not to have failed before: nothing has to be forgotten
 */
export async function watched(
  { record, now }: { readonly record: DeliveryRecord; readonly now: () => number },
  work: WorkKey,
  job: () => Promise<void>,
  isClean = false,
): Promise<void> {
  try {
    await job();
  } catch (error) {
    if (!isPassing(error))
      await noteFailure(record, work, { problem: problemOf(error), nowMs: now(), waitMs: waitAfterMs });
    throw error;
  }
  if (!isClean) await forgetFailure(record, work);
}

/** Names of the work that is left alone for now. */
export async function resting(record: DeliveryRecord, nowMs: number): Promise<ReadonlySet<string>> {
  const rows = await failuresOf(record);
  return new Set(rows.filter(({ next_ms }) => next_ms > nowMs).map(nameOfWork));
}

/** What needs the operator. It is tried on, ever more rarely; what succeeds is no longer among it. */
export interface FailedWork {
  /** What the operator calls it by. */
  readonly id: string;
  readonly what: string;
  readonly attempts: number;
  readonly sinceMs: number;
  readonly problem: string;
}

/** Work that failed so often that the operator should look, jobs before bounce reports; empty where all goes well. */
export async function failedForGood(record: DeliveryRecord): Promise<FailedWork[]> {
  const jobs = (await failuresOf(record))
    .filter(({ attempts }) => attempts >= FOR_GOOD)
    .map((row) => ({
      id: `job-${row.id}`,
      what: nameOfWork(row),
      attempts: row.attempts,
      sinceMs: row.first_ms,
      problem: row.problem,
    }));
  const reports = (await failedBounceReports(record, FOR_GOOD)).map((row) => ({
    id: `bounce-${row.id}`,
    what: `bounce report (${row.kind})`,
    attempts: row.attempts,
    sinceMs: row.at_ms,
    problem: row.problem ?? '',
  }));
  return [...jobs, ...reports];
}

/**
 * Tries it again at once, or lets it go.
 *
 * @returns what it is
 * @throws ThawlineError `usage` when nothing that failed is called so
 */
export async function decideFailed(
  record: DeliveryRecord,
  id: string,
  decision: 'retry' | 'drop',
  nowMs: number,
): Promise<string> {
  const [, kind, rest = ''] = /^(job|bounce)-(.+)$/.exec(id) ?? [];
  if (kind === 'job' && /^\d{1,15}$/.test(rest)) {
    const row = await (decision === 'retry' ? retryFailure : dropFailure)(record, Number(rest));
    if (row !== undefined) return nameOfWork(row);
  }
  if (kind === 'bounce') {
    const change = decision === 'retry' ? { attempts: 0, next_ms: nowMs } : { handled_ms: nowMs };
    if (await changeBounceReport(record, rest, change)) return 'bounce report';
  }
  throw new ThawlineError('usage', `Nothing that failed is called ${id}: see \`thawline jobs\`.`);
}
