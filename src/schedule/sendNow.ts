/** `thawline send`: one briefing now, to each reader once a local date. */
import { lakeById } from '../config/index.ts';
import { enqueue, syncConfigReaders, type DrainReport } from '../delivery/index.ts';
import { ThawlineError } from '../units/index.ts';
import { loadBriefing } from '../record/schedule/index.ts';
import { countOutbox, undelivered, type Undelivered } from '../record/delivery/index.ts';
import { localDateAt } from '../units/time/index.ts';
import { issueEdition } from './issue.ts';
import { deliverPass, refresh } from './pass.ts';
import type { ScheduleDeps } from './types.ts';

export interface SendReport extends DrainReport {
  readonly localDate: string;
  /** False when the briefing of this date had been issued before; only readers who did not have it yet get it. */
  readonly issued: boolean;
  /** Mails of this briefing that have not reached their readers. */
  readonly left: Undelivered;
}

/**
 * Makes the morning briefing of today and mails it to the lake's readers. Calling it again mails nobody twice.
 *
 * @throws ThawlineError `config` for an unknown lake, `mail` when another process is issuing it, or what made it fail
 */
export async function sendNow(deps: ScheduleDeps, lakeId: string): Promise<SendReport> {
  const lake = lakeById(deps.config, lakeId);
  const nowMs = deps.now();
  const localDate = localDateAt(nowMs, lake.zone);
  await syncConfigReaders(deps.record, deps.config, nowMs);
  const graceMs = lake.graceMinutes * 60_000;
  const key = { lakeId, localDate, edition: 'morning' } as const;
  if ((await loadBriefing(deps.record, key)) === undefined) await refresh(deps, lake);
  const order = { lake, ...key, dueMs: nowMs, deadlineMs: nowMs + graceMs, evenMissed: true };
  const result = await issueEdition(deps, order);
  if (result.outcome === 'failed')
    throw result.cause instanceof ThawlineError
      ? result.cause
      : new ThawlineError('internal', result.problem, { cause: result.cause });
  if (result.outcome === 'taken') {
    if ((await loadBriefing(deps.record, key)) === undefined) {
      throw new ThawlineError(
        'mail',
        `The briefing of ${localDate} for ${lake.name} is being issued by another process: wait a minute and see \`thawline status\`.`,
        { retryable: true },
      );
    }
    await enqueue(deps.record, { ...key, zone: lake.zone, issuedMs: nowMs, graceMs });
  }
  const report = await deliverPass(deps);
  const left = await undelivered(deps.record, deps.now(), { lakeId, localDate });
  // What failed for good on an earlier call has not arrived by this one either.
  const { failed, dropped } = await countOutbox(deps.record, { lakeId, localDate });
  return {
    ...report,
    failed: Math.max(report.failed, failed),
    dropped: Math.max(report.dropped, dropped),
    localDate,
    issued: result.outcome === 'issued',
    left,
  };
}
