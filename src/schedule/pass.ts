/** One pass over all lakes: what is due is done, what was missed is written down. Safe to repeat at any time. */
import type { LakeConfig } from '../config/index.ts';
import {
  bounceReportDue,
  eraseLeftBefore,
  forgetBounceReports,
  handBackOutbox,
  leaseHolders,
} from '../record/delivery/index.ts';
import {
  failuresOf,
  forgetAhead,
  forgetPassing,
  getState,
  missRun,
  noteRefresh,
  pruneRenderings,
  putState,
  refreshOf,
  runsSince,
  type WorkKey,
} from '../record/schedule/index.ts';
import { DAY_MS, localDateAt } from '../units/time/index.ts';
import {
  drain,
  FOR_GOOD,
  forgetUnconfirmed,
  handleBounces,
  REPORTS_MS,
  tellOperator,
  type DrainReport,
} from '../delivery/index.ts';
import { isDead } from './owner.ts';
import { RETENTION_DAYS } from '../record/index.ts';
import { amendIfNeeded } from './amend.ts';
import { nameOfWork, watched } from './failures.ts';
import { issueEdition, problemOf } from './issue.ts';
import { lookAtRecord } from './recordWatch.ts';
import { preflightIfDue } from './preflight.ts';
import { dueSlots, LOOK_BACK_DAYS, refreshDue, type KnownRun, type Slot } from './slots.ts';
import type { RefreshOutcome, ScheduleDeps } from './types.ts';
import { tellWebhooks } from './webhooks.ts';

const KEEP_RENDERINGS_DAYS = 14;

/** Refreshes, issues, amends. One lake that fails does not hold up the others. */
export async function schedulePass(deps: ScheduleDeps): Promise<void> {
  const failing = new Set((await failuresOf(deps.record)).map(nameOfWork));
  const watch = (work: WorkKey, job: () => Promise<void>): Promise<void> =>
    watched(deps, work, job, !failing.has(nameOfWork(work)));
  for (const lake of deps.config.lakes) {
    if (deps.signal?.aborted === true) return;
    try {
      await watch({ queue: 'lake', key: lake.id }, () => lakePass(deps, lake));
    } catch (error) {
      deps.log.error({ lakeId: lake.id, problem: problemOf(error) }, 'pass over a lake failed');
    }
  }
  await watch({ queue: 'webhooks', key: 'webhooks' }, () =>
    tellWebhooks({ ...deps, env: deps.env ?? process.env }),
  );
  await watch({ queue: 'retention', key: 'retention' }, () => housekeeping(deps));
}

async function lakePass(deps: ScheduleDeps, lake: LakeConfig): Promise<void> {
  const last = await refreshOf(deps.record, lake.id);
  const refreshed = refreshDue(deps.now(), lake, last?.at_ms ?? null);
  if (refreshed) await refresh(deps, lake);
  await preflightIfDue(deps, lake);
  for (const slot of await slotsOf(deps, lake)) {
    if (deps.signal?.aborted === true) return;
    if (slot.action === 'issue') await issueEdition(deps, { ...slot, lake });
    else await miss(deps, lake, slot);
  }
  if (refreshed) await amendIfNeeded(deps, lake);
}

export async function slotsOf(deps: ScheduleDeps, lake: LakeConfig): Promise<Slot[]> {
  const nowMs = deps.now();
  const freed = await forgetAhead(deps.record, lake.id, localDateAt(nowMs, lake.zone), nowMs);
  if (freed.length > 0)
    deps.log.warn({ lakeId: lake.id, dates: freed }, 'the clock ran ahead: these days count as not done');
  const since = localDateAt(nowMs - (LOOK_BACK_DAYS + 1) * DAY_MS, lake.zone);
  let rows = await runsSince(deps.record, lake.id, since);
  // Longer silence than the look-back: any older row still shows that the lake has a past.
  if (rows.length === 0) rows = await runsSince(deps.record, lake.id, '');
  const runs: KnownRun[] = rows.map((r) => ({
    lakeId: r.lake_id,
    localDate: r.local_date,
    edition: r.edition,
    state: r.state,
    leaseUntilMs: r.lease_until_ms,
  }));
  return dueSlots(nowMs, [lake], runs);
}

/** Asks the services for a lake and notes how it went. */
export const refresh = (deps: ScheduleDeps, lake: LakeConfig): Promise<void> =>
  refreshGroup(deps, [lake], ([id = ''], nowMs) =>
    deps.pipeline.refresh(id, nowMs).then((outcome) => new Map([[id, outcome]])),
  );

/** Asks the services for many lakes at once and notes how it went for each. */
export async function refreshGroup(
  deps: ScheduleDeps,
  lakes: readonly LakeConfig[],
  ask: NonNullable<ScheduleDeps['pipeline']['refreshGroup']>,
): Promise<void> {
  const startMs = deps.now();
  let outcomes: ReadonlyMap<string, RefreshOutcome>;
  try {
    outcomes = await ask(
      lakes.map(({ id }) => id),
      startMs,
    );
  } catch (error) {
    outcomes = new Map(lakes.map(({ id }) => [id, { ok: false, problem: problemOf(error) }]));
  }
  for (const lake of lakes)
    await note(
      deps,
      lake,
      startMs,
      outcomes.get(lake.id) ?? { ok: false, problem: 'Nothing was said of it.' },
    );
}

async function note(
  deps: ScheduleDeps,
  lake: LakeConfig,
  startMs: number,
  result: RefreshOutcome,
): Promise<void> {
  const problem = result.problem === '' ? {} : { problem: result.problem };
  await noteRefresh(deps.record, lake.id, { atMs: startMs, ok: result.ok, ...problem });
  const took = { lakeId: lake.id, ok: result.ok, ms: deps.now() - startMs };
  deps.log[result.ok ? 'info' : 'warn']({ ...took, ...problem }, 'data refreshed');
}

export async function miss(deps: ScheduleDeps, lake: LakeConfig, slot: Slot): Promise<void> {
  const nowMs = deps.now();
  const problem = 'The grace window ended before the briefing could be issued.';
  const noted = await missRun(deps.record, slot, { owner: deps.owner, nowMs, dueMs: slot.dueMs, problem });
  if (!noted) return;
  const { lakeId, localDate, edition } = slot;
  deps.log.error({ lakeId, localDate, edition }, 'issue missed');
  const text = `The ${edition} briefing of ${localDate} for ${lake.name} did not go out in time and was not sent late.\nSee \`thawline status\`.\n`;
  await tellOperator(deps.record, 'A briefing was missed', text, nowMs);
}

const utcDate = (ms: number): string => new Date(ms).toISOString().slice(0, 10);

export const housekeepingDue = async ({
  record,
  now,
}: Pick<ScheduleDeps, 'record' | 'now'>): Promise<boolean> =>
  (await getState(record, 'housekeeping')) !== utcDate(now());

/** Once a day: forget who never confirmed or left long ago, tidy the record by its rules, and look at the file. */
export async function housekeeping(deps: ScheduleDeps): Promise<void> {
  const nowMs = deps.now();
  if (!(await housekeepingDue(deps))) return;
  const today = utcDate(nowMs);
  await forgetUnconfirmed(deps.record, nowMs);
  const keepFrom = new Date(nowMs - KEEP_RENDERINGS_DAYS * DAY_MS).toISOString().slice(0, 10);
  await pruneRenderings(deps.record, keepFrom);
  await forgetBounceReports(deps.record, nowMs - REPORTS_MS);
  await forgetPassing(deps.record, FOR_GOOD, nowMs - DAY_MS);
  await eraseLeftBefore(deps.record, nowMs - RETENTION_DAYS.leftReaders * DAY_MS);
  const { lakes } = deps.config;
  const removed = await deps.record.compact(
    nowMs,
    new Map(lakes.map(({ id, zone, issueAt }) => [id, { zone, at: issueAt }])),
  );
  deps.log.info({ removed }, 'the record was tidied');
  for (const problem of await lookAtRecord(deps.record, nowMs))
    deps.log.error({ problem }, 'the record needs you');
  await putState(deps.record, 'housekeeping', today, nowMs);
}

/** Whoever bounced or complained is told of before the next mail leaves. */
export async function bouncePass({ record, now }: Pick<ScheduleDeps, 'record' | 'now'>): Promise<void> {
  if (await bounceReportDue(record, now())) await handleBounces(record, now());
}

/** Empties the outbox with what the schedule knows; what a sender that died here still holds is free at once. */
export async function deliverPass(deps: ScheduleDeps): Promise<DrainReport> {
  const { mail } = deps.config;
  await bouncePass(deps);
  for (const owner of await leaseHolders(deps.record)) {
    if (isDead(owner, deps.owner)) await handBackOutbox(deps.record, owner);
  }
  return drain(deps.record, { ...deps, mail });
}
