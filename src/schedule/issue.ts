/** Makes and issues one edition: claim, make, then archive, outbox and run row in one transaction. */
import { packRendering, enqueue, type Edition } from '../delivery/index.ts';
import type { LakeConfig } from '../config/types.ts';
import { storeBriefing, type StoredRendering } from '../record/schedule/briefings.ts';
import { inOneStep } from '../record/delivery/readers.ts';
import { claimRun, endRun, type RunKey } from '../record/schedule/runs.ts';
import { ThawlineError } from '../units/index.ts';
import type { MadeBriefing, ScheduleDeps } from './types.ts';

/** Longer than making a briefing can take; a holder that died is replaced after it. */
const RUN_LEASE_MS = 10 * 60_000;
/** However late the issue, readers' servers get this long to accept it. */
const LEAST_GRACE_MS = 30 * 60_000;

export type IssueDeps = Pick<ScheduleDeps, 'record' | 'pipeline' | 'owner' | 'now' | 'log'>;

export interface IssueOrder {
  readonly lake: Pick<LakeConfig, 'id' | 'zone'>;
  readonly localDate: string;
  readonly edition: Edition;
  readonly dueMs: number;
  readonly deadlineMs: number;
  /** The operator asks for it although its time has passed. */
  readonly evenMissed?: boolean;
  /** A briefing already made for this order. */
  readonly made?: MadeBriefing;
}

export type IssueResult =
  | { readonly outcome: 'issued'; readonly readers: number }
  | { readonly outcome: 'taken' }
  | { readonly outcome: 'failed'; readonly problem: string };

/** One sentence about an error; only our own errors speak, because others may quote addresses or secrets. */
export function problemOf(error: unknown): string {
  if (error instanceof ThawlineError) return error.message;
  return error instanceof Error ? `The program failed (${error.name}).` : 'The program failed.';
}

/** Issues one edition at most once. A failure is written down and may be tried again. */
export async function issueEdition(deps: IssueDeps, order: IssueOrder): Promise<IssueResult> {
  const { record, pipeline, owner, now, log } = deps;
  const key: RunKey = { lakeId: order.lake.id, localDate: order.localDate, edition: order.edition };
  const claim = {
    owner,
    nowMs: now(),
    leaseMs: RUN_LEASE_MS,
    dueMs: order.dueMs,
    evenMissed: order.evenMissed === true,
  };
  if (!(await claimRun(record, key, claim))) return { outcome: 'taken' };
  try {
    const made = order.made ?? (await pipeline.makeBriefing(order.lake.id, now(), order.edition));
    const renderings = await renderAll(made);
    const readers = await publish(deps, key, order, made, renderings);
    if (readers === null) return { outcome: 'taken' };
    log.info({ ...key, readers, heldBack: made.heldBack ?? {} }, 'briefing issued');
    return { outcome: 'issued', readers };
  } catch (error) {
    const problem = problemOf(error);
    await endRun(record, key, owner, { state: 'failed', nowMs: now(), problem });
    // The stack, not the message: messages of other programs may quote addresses.
    const at = error instanceof Error ? error.stack?.split('\n').slice(1, 6) : undefined;
    log.error({ ...key, problem, at }, 'briefing failed');
    return { outcome: 'failed', problem };
  }
}

/** Every form, not only those asked for now: a reader may change their mind between issue and sending. */
async function renderAll(made: MadeBriefing): Promise<StoredRendering[]> {
  const renderings: StoredRendering[] = [];
  for (const units of ['us', 'metric'] as const) {
    for (const form of ['full', 'short'] as const) {
      renderings.push({ units, form, json: packRendering(await made.render(units, form)) });
    }
  }
  return renderings;
}

/** Null when the claim was lost meanwhile; then nothing was written. */
async function publish(
  { record, owner, now }: IssueDeps,
  key: RunKey,
  order: IssueOrder,
  made: MadeBriefing,
  renderings: readonly StoredRendering[],
): Promise<number | null> {
  const issuedMs = now();
  const graceMs = Math.max(order.deadlineMs - issuedMs, LEAST_GRACE_MS);
  return inOneStep(record, async (step) => {
    const end = { state: 'issued', nowMs: issuedMs, safetyLevel: made.safetyLevel } as const;
    if (!(await endRun(step, key, owner, { ...end, firstPlace: made.firstPlace }))) return null;
    await storeBriefing(step, key, { issuedMs, documentJson: JSON.stringify(made.document), renderings });
    return enqueue(step, { ...key, zone: order.lake.zone, issuedMs, graceMs });
  });
}
