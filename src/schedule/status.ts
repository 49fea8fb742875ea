/** What the operator sees at a glance; the same facts for the command line, monitoring and the health page. */
import { DateTime } from 'luxon';
import type { Config, LakeConfig } from '../config/index.ts';
import { countOutbox, countReaders, dueMails, waitsBecause } from '../record/delivery/index.ts';
import {
  type JobQueue,
  jobQueues,
  lastRun,
  lockHolder,
  refreshOf,
  runsSince,
  workersOf,
} from '../record/schedule/index.ts';
import { instantOf, localDateAt } from '../units/time/index.ts';
import { currentPause, unheardReaders, type UnheardReader } from '../delivery/index.ts';
import { failedForGood, type FailedWork } from './failures.ts';
import { SCHEDULER_LOCK } from './lock.ts';
import { recordProblems } from './recordWatch.ts';
import { type DeliveryRecord, spanOf, type Upkeep } from '../record/index.ts';
import { nextIssueMs } from './slots.ts';

export interface LakeStatus {
  readonly lake: string;
  readonly name: string;
  readonly lastRefreshMs: number | null;
  readonly lastGoodRefreshMs: number | null;
  /** Newest measurement in the record. */
  readonly newestMeasurementMs: number | null;
  readonly lastIssue: { readonly localDate: string; readonly edition: string; readonly atMs: number } | null;
  readonly nextIssueMs: number;
  /** Local dates of the last seven days whose issue was missed. */
  readonly missed: readonly string[];
  readonly readers: number;
  /** Mails of the lake's newest local date. */
  readonly delivered: number;
  readonly pending: number;
  readonly failed: number;
  readonly dropped: number;
  /** Why mails of that date wait, as the one tried last was told; null where none was refused. */
  readonly waitsBecause: string | null;
  /** Sentences; empty when all is well. */
  readonly problems: readonly string[];
}

export interface Status {
  readonly ok: boolean;
  readonly atMs: number;
  readonly pausedUntilMs: number | null;
  /** Sentences about the file itself; empty when all is well. */
  readonly record: readonly string[];
  /** Readers whom the configuration names and who said that they want no mail: to be taken out of it. */
  readonly unheard: readonly UnheardReader[];
  /** What waits to be done, and who is at work. */
  readonly queue: QueueStatus;
  readonly lakes: readonly LakeStatus[];
}

export interface QueueStatus {
  /** Mails that are due now. */
  readonly dueMails: number;
  /** Since when the oldest of them is. */
  readonly oldestDueMs: number | null;
  /** Workers seen within the last minute and a half; on a record of one process whoever schedules. */
  readonly workers: number;
  /** Queues of the job engine; none where one process does all. */
  readonly jobs: readonly JobQueue[];
  /** Work that failed again and again; `thawline jobs` tries it at once or lets it go. */
  readonly failed: readonly FailedWork[];
}

/** Further ahead than clocks of one installation differ, ms. */
const AHEAD_MS = 10 * 60_000;
const DATA_AGE_MS = 12 * 3_600_000;
const FAILED_SHARE = 0.1;

/**
 * State of every configured lake. `ok` is false when anything needs the operator.
 *
 * @param complaint what a look through the record's file just found; left out, the last daily look counts
 */
export async function statusOf(
  record: DeliveryRecord & { readonly upkeep: Upkeep },
  config: Config,
  nowMs: number,
  complaint?: string,
): Promise<Status> {
  const pause = await currentPause(record, nowMs);
  const problems = await recordProblems(record, complaint);
  const lakes: LakeStatus[] = [];
  for (const lake of config.lakes) lakes.push(await lakeStatus(record, lake, nowMs));
  const queue = await queueStatus(record, nowMs);
  const isWell = pause === null && problems.length === 0 && queue.failed.length === 0;
  return {
    ok: isWell && lakes.every((lake) => lake.problems.length === 0),
    atMs: nowMs,
    pausedUntilMs: pause?.untilMs ?? null,
    record: problems,
    unheard: await unheardReaders(record, config),
    queue,
    lakes,
  };
}

/** What waits to be done, and who is at work. */
async function queueStatus(record: DeliveryRecord, nowMs: number): Promise<QueueStatus> {
  const { due, oldestDueMs } = await dueMails(record, nowMs);
  const workers = (await workersOf(record)).filter(({ untilMs }) => untilMs > nowMs).length;
  const holder = await lockHolder(record, SCHEDULER_LOCK);
  const schedules = holder !== undefined && holder.until_ms > nowMs ? 1 : 0;
  return {
    dueMails: due,
    oldestDueMs,
    workers: Math.max(workers, schedules),
    jobs: await jobQueues(record),
    failed: await failedForGood(record),
  };
}

async function lakeStatus(record: DeliveryRecord, lake: LakeConfig, nowMs: number): Promise<LakeStatus> {
  const today = localDateAt(nowMs, lake.zone);
  const weekAgo = localDateAt(nowMs - 7 * 86_400_000, lake.zone);
  const refresh = await refreshOf(record, lake.id);
  const issue = await lastRun(record, lake.id, ['issued']);
  const week = await runsSince(record, lake.id, weekAgo);
  const counts = issue
    ? await countOutbox(record, { lakeId: lake.id, localDate: issue.local_date })
    : { pending: 0, sending: 0, sent: 0, failed: 0, dropped: 0 };
  const facts = {
    lake: lake.id,
    name: lake.name,
    lastRefreshMs: refresh?.at_ms ?? null,
    lastGoodRefreshMs: refresh?.ok_ms ?? null,
    newestMeasurementMs: (await spanOf(record, lake.id, { kind: 'observed' }))?.lastMs ?? null,
    lastIssue: issue
      ? { localDate: issue.local_date, edition: issue.edition, atMs: issue.finished_ms ?? issue.started_ms }
      : null,
    nextIssueMs: nextIssueMs(nowMs, lake),
    missed: week.filter((r) => r.state === 'missed').map((r) => r.local_date),
    readers: await countReaders(record, lake.id),
    delivered: counts.sent,
    pending: counts.pending + counts.sending,
    failed: counts.failed,
    dropped: counts.dropped,
    waitsBecause: issue ? await waitsBecause(record, { lakeId: lake.id, localDate: issue.local_date }) : null,
  };
  const graceEndMs = instantOf(today, lake.issueAt, lake.zone) + lake.graceMinutes * 60_000;
  const todayIssued = week.some(
    (r) => r.local_date === today && r.edition === 'morning' && r.state === 'issued',
  );
  const overdue = issue !== undefined && nowMs > graceEndMs && !todayIssued;
  return { ...facts, problems: problemsOf(facts, { overdue, today, nowMs }) };
}

function problemsOf(
  facts: Omit<LakeStatus, 'problems'>,
  { overdue, today, nowMs }: { readonly overdue: boolean; readonly today: string; readonly nowMs: number },
): string[] {
  const problems: string[] = [];
  const { lastIssue } = facts;
  const ahead = (ms: number | null): boolean => ms !== null && ms > nowMs + AHEAD_MS;
  if (lastIssue !== null && (lastIssue.localDate > today || ahead(lastIssue.atMs)))
    problems.push(
      'The last issue lies in the future: a clock was or is wrong. Set the clock; `thawline run` then forgets what was noted ahead and issues those mornings when they come.',
    );
  if (ahead(facts.lastRefreshMs))
    problems.push('The last refresh lies in the future: a clock was or is wrong. Set the clock.');
  if (overdue) problems.push('The briefing of this morning did not go out.');
  if (facts.lastIssue === null) problems.push('No briefing has been issued yet.');
  if (facts.lastGoodRefreshMs === null || facts.lastGoodRefreshMs < nowMs - DATA_AGE_MS) {
    problems.push('No fresh data for twelve hours.');
  }
  const total = facts.delivered + facts.pending + facts.failed + facts.dropped;
  if (total > 0 && (facts.failed + facts.dropped) / total > FAILED_SHARE) {
    problems.push('More than a tenth of the mails of the last issue failed.');
  }
  return problems;
}

const when = (ms: number | null, zone: string): string =>
  ms === null ? 'never' : DateTime.fromMillis(ms, { zone }).toFormat('ccc d LLL HH:mm ZZZZ');

/** What concerns all lakes is told on the clock that they share, where they have one. */
function whenForAll(ms: number, { lakes }: Config): string {
  const [zone = 'utc', ...others] = new Set(lakes.map((lake) => lake.zone));
  return when(ms, others.length === 0 ? zone : 'utc');
}

/** One line about work that failed for good. */
export const failedLine = ({ id, what, attempts, sinceMs, problem }: FailedWork): string =>
  `${id}: ${what} has failed ${attempts} times since ${when(sinceMs, 'utc')}. ${problem} (thawline jobs)`;

const SAID: Readonly<Record<UnheardReader['said'], string>> = {
  left: 'left',
  bounced: 'cannot be reached',
  complained: 'reported the mails as unwanted',
  erased: 'had their address erased',
};

const unheardLine = ({ place, said }: UnheardReader, config: Config): string =>
  `Entry ${place} of "readers" in ${config.path} ${SAID[said]} and gets no mail: take it out there.`;

/** Status as lines for a terminal, times in each lake's own zone. */
export function statusText(status: Status, config: Config): string {
  const lines = status.lakes.flatMap((s) => {
    const zone = config.lakes.find((lake) => lake.id === s.lake)?.zone ?? 'utc';
    const issue =
      s.lastIssue === null
        ? 'never'
        : `${s.lastIssue.localDate} ${s.lastIssue.edition}, ${when(s.lastIssue.atMs, zone)}`;
    return [
      `${s.name} (${s.lake}): ${s.problems.length === 0 ? 'well' : 'needs you'}`,
      `  refreshed      ${when(s.lastRefreshMs, zone)}, with data ${when(s.lastGoodRefreshMs, zone)}`,
      `  measured       ${when(s.newestMeasurementMs, zone)}`,
      `  last issue     ${issue}`,
      `  next issue     ${when(s.nextIssueMs, zone)}`,
      `  readers        ${s.readers}`,
      `  mails          ${s.delivered} delivered, ${s.pending} pending, ${s.failed} failed, ${s.dropped} dropped`,
      ...(s.waitsBecause === null ? [] : [`  they wait      ${s.waitsBecause}`]),
      ...(s.missed.length === 0 ? [] : [`  missed         ${s.missed.join(', ')}`]),
      ...s.problems.map((problem) => `  ! ${problem}`),
    ];
  });
  const { dueMails: due, oldestDueMs, workers, jobs } = status.queue;
  const waiting = jobs.reduce((n, queue) => n + queue.waiting, 0);
  const since = oldestDueMs === null ? '' : `, the oldest since ${whenForAll(oldestDueMs, config)}`;
  lines.push(
    `at work: ${workers}; mails due: ${due}${since}${jobs.length === 0 ? '' : `; jobs waiting: ${waiting}`}`,
  );
  for (const one of status.queue.failed) lines.push(`! ${failedLine(one)}`);
  for (const one of status.unheard) lines.push(`- ${unheardLine(one, config)}`);
  for (const problem of status.record) lines.push(`! ${problem}`);
  if (status.pausedUntilMs !== null)
    lines.push(`! Delivery rests until ${whenForAll(status.pausedUntilMs, config)}.`);
  return lines.join('\n');
}
