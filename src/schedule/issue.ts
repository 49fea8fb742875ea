/** Makes and issues one edition: claim, make, then archive, outbox and run row in one transaction. */
import { packRendering, enqueue, type Edition } from '../delivery/index.ts';
import type { LakeConfig } from '../config/index.ts';
import {
  claimRun,
  endRun,
  type RunKey,
  storeBriefing,
  type StoredRendering,
} from '../record/schedule/index.ts';
import {
  inOneStep,
  ownKey,
  type OwnRendering,
  storeOwnRenderings,
  wantedViews,
} from '../record/delivery/index.ts';
import { ThawlineError } from '../units/index.ts';
import type { MadeBriefing, ScheduleDeps } from './types.ts';

/** Longer than making a briefing can take; a holder that died is replaced after it. */
const RUN_LEASE_MS = 10 * 60_000;
/** However late the issue, readers' servers get this long to accept it. */
const LEAST_GRACE_MS = 30 * 60_000;

export type IssueDeps = Pick<ScheduleDeps, 'record' | 'pipeline' | 'owner' | 'now' | 'log' | 'onIssued'>;

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
  | { readonly outcome: 'failed'; readonly problem: string; readonly cause: unknown };

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
  const attempt = await claimRun(record, key, claim);
  if (attempt === null) return { outcome: 'taken' };
  const holder = { owner, attempt };
  try {
    const made = order.made ?? (await pipeline.makeBriefing(order.lake.id, now(), order.edition));
    const renderings = await renderAll(made);
    const own = await renderOwn(deps, order.lake.id, made);
    const readers = await publish(deps, { key, holder }, order, made, { renderings, own });
    if (readers === null) return { outcome: 'taken' };
    log.info({ ...key, readers, heldBack: made.heldBack ?? {} }, 'briefing issued');
    return { outcome: 'issued', readers };
  } catch (error) {
    const problem = problemOf(error);
    await endRun(record, key, holder, { state: 'failed', nowMs: now(), problem });
    // Of a fault of the program the stack, not the message: messages of other programs may quote addresses.
    const at =
      error instanceof Error && !(error instanceof ThawlineError)
        ? { at: error.stack?.split('\n').slice(1, 6) }
        : {};
    log.error({ ...key, problem, ...at }, 'briefing failed');
    return { outcome: 'failed', problem, cause: error };
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

/** Renderings for readers' own hours and languages at most, a lake and edition: each takes about a second. */
const MOST_OWN = 24;

/**
 * What readers want otherwise than the lake has it, once for all who want the same. Where more ways are wanted than can
 * be made, the rest get the lake's.
 */
async function renderOwn(
  { record, log }: Pick<IssueDeps, 'record' | 'log'>,
  lakeId: string,
  made: MadeBriefing,
): Promise<OwnRendering[]> {
  const wanted = await wantedViews(record, lakeId);
  const left = wanted.slice(MOST_OWN);
  if (left.length > 0) {
    const readers = left.reduce((sum, view) => sum + view.readers, 0);
    log.warn(
      { lakeId, views: left.length, readers },
      'too many own hours and languages: the rest get the lake’s',
    );
  }
  const renderings: OwnRendering[] = [];
  for (const { units, form, language, fishing } of wanted.slice(0, MOST_OWN)) {
    const own = { language, fishing };
    const json = packRendering(await made.render(units, form, own));
    renderings.push({ units, form, own: ownKey(own), json });
  }
  return renderings;
}

/** Null when the claim was lost meanwhile; then nothing was written. */
async function publish(
  { record, now, onIssued }: IssueDeps,
  { key, holder }: { readonly key: RunKey; readonly holder: { owner: string; attempt: number } },
  order: IssueOrder,
  made: MadeBriefing,
  {
    renderings,
    own,
  }: { readonly renderings: readonly StoredRendering[]; readonly own: readonly OwnRendering[] },
): Promise<number | null> {
  const issuedMs = now();
  const graceMs = Math.max(order.deadlineMs - issuedMs, LEAST_GRACE_MS);
  return inOneStep(record, async (step) => {
    const end = { state: 'issued', nowMs: issuedMs, safetyLevel: made.safetyLevel } as const;
    if (!(await endRun(step, key, holder, { ...end, firstPlace: made.firstPlace }))) return null;
    await storeBriefing(step, key, { issuedMs, documentJson: JSON.stringify(made.document), renderings });
    await storeOwnRenderings(step, key, own);
    const readers = await enqueue(step, { ...key, zone: order.lake.zone, issuedMs, graceMs });
    await onIssued?.(step, readers);
    return readers;
  });
}
