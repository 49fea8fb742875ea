/** Looks, half an hour before the issue, whether it can go out, while somebody can still mend what cannot. */
import { statfs } from 'node:fs/promises';
import { dirname } from 'node:path';
import type { LakeConfig } from '../config/index.ts';
import { getState, putState, refreshOf } from '../record/schedule/index.ts';
import { localDateAt } from '../units/time/index.ts';
import { classifyFailure, tellOperator } from '../delivery/index.ts';
import { isServerRecord } from '../record/index.ts';
import { LAST_LOOK_MS, nextIssueMs } from './slots.ts';
import type { ScheduleDeps } from './types.ts';

const LEAST_FREE_BYTES = 200 * 1024 * 1024;
const DATA_AGE_MS = 6 * 3_600_000;

/** Everything that would keep a briefing from going out well; empty when all is ready. */
async function preflight(
  deps: Pick<ScheduleDeps, 'record' | 'config' | 'transport' | 'now'>,
  lakeId: string,
): Promise<string[]> {
  const problems: string[] = [];
  try {
    await deps.transport.verify();
  } catch (error) {
    problems.push(`The way out for mail does not work. ${classifyFailure(error).sentence}`);
  }
  if (deps.config.recordPath !== ':memory:' && !isServerRecord(deps.config.recordPath)) {
    const { bavail, bsize } = await statfs(dirname(deps.config.recordPath));
    if (bavail * bsize < LEAST_FREE_BYTES) problems.push('Less than 200 MB are free where the record lies.');
  }
  const refresh = await refreshOf(deps.record, lakeId);
  if (refresh?.ok_ms == null || refresh.ok_ms < deps.now() - DATA_AGE_MS) {
    problems.push('No service has given fresh data within six hours.');
  }
  return problems;
}

/** Runs the preflight once for each issue, within its last half hour, and tells the operator what it found. */
export async function preflightIfDue(deps: ScheduleDeps, lake: LakeConfig): Promise<void> {
  const nowMs = deps.now();
  const dueMs = nextIssueMs(nowMs, lake);
  if (dueMs - nowMs > LAST_LOOK_MS) return;
  const key = `preflight:${lake.id}`;
  const localDate = localDateAt(dueMs, lake.zone);
  const last = await getState(deps.record, key);
  if (typeof last === 'object' && last !== null && 'localDate' in last && last.localDate === localDate)
    return;
  const problems = await preflight(deps, lake.id);
  await putState(deps.record, key, { localDate, problems }, nowMs);
  if (problems.length === 0) return;
  deps.log.error({ lakeId: lake.id, problems }, 'preflight found problems');
  const text = `Before the issue for ${lake.name}:\n${problems.map((p) => `- ${p}\n`).join('')}`;
  await tellOperator(deps.record, 'Morning briefing: something needs you', text, nowMs);
}
