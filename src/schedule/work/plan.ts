/** What is due for all lakes, asked for as jobs. One process at a time plans; the others do. */
import type { LakeConfig } from '../../config/index.ts';
import { bounceReportDue, dueMails, handBackOutbox } from '../../record/delivery/index.ts';
import {
  forgetFailure,
  forgetWorker,
  handBackRuns,
  refreshOf,
  workersOf,
} from '../../record/schedule/index.ts';
import { nameOfWork, resting } from '../failures.ts';
import { problemOf } from '../issue.ts';
import { isDead } from '../owner.ts';
import { housekeepingDue, miss, slotsOf } from '../pass.ts';
import { refreshDue } from '../slots.ts';
import type { ScheduleDeps } from '../types.ts';
import type { Engine, QueueName } from './engine.ts';

/** Lakes that are asked for together: the services that take many places in one request are asked once for all. */
const GROUP = 50;
/** Lakes looked at side by side. */
const ABREAST = 8;
/** Mails that are worth another worker, and the most workers that are woken for one issue. */
const MAILS_A_JOB = 200;
const MOST_WOKEN = 32;

/** Wakes as many senders as the mails are worth. */
export async function askDelivery(
  engine: Engine,
  mails: number,
  step?: Parameters<NonNullable<ScheduleDeps['onIssued']>>[0],
): Promise<void> {
  const woken = Math.min(MOST_WOKEN, Math.ceil(mails / MAILS_A_JOB));
  for (let n = 0; n < woken; n += 1)
    await engine.ask('deliver', `deliver ${n}`, {}, step === undefined ? {} : { step });
}

/** Looks at every lake and asks for what is due. Safe to repeat at any time. */
export async function planPass(deps: ScheduleDeps, engine: Engine): Promise<void> {
  await freeTheDead(deps);
  const rests = await resting(deps.record, deps.now());
  /** What failed of late is left alone for a while; an issue never, for its time runs out. */
  const askRested = async (...[queue, key, data]: [QueueName, string, object]): Promise<void> => {
    if (!rests.has(nameOfWork({ queue, key }))) await engine.ask(queue, key, data);
  };
  const stale: LakeConfig[] = [];
  const lakes = [...deps.config.lakes];
  const look = async (): Promise<void> => {
    for (let lake = lakes.shift(); lake !== undefined; lake = lakes.shift()) {
      if (deps.signal?.aborted === true) return;
      try {
        if (await planLake(deps, engine, lake)) stale.push(lake);
      } catch (error) {
        deps.log.error({ lakeId: lake.id, problem: problemOf(error) }, 'pass over a lake failed');
      }
    }
  };
  await Promise.all(Array.from({ length: ABREAST }, look));
  const order = new Map(deps.config.lakes.map(({ id }, place) => [id, place]));
  const ids = stale.map(({ id }) => id).sort((a, b) => (order.get(a) ?? 0) - (order.get(b) ?? 0));
  for (let i = 0; i < ids.length; i += GROUP) {
    const group = ids.slice(i, i + GROUP);
    await askRested('refresh', group[0] ?? '', { lakes: group });
  }
  const { due } = await dueMails(deps.record, deps.now());
  await askDelivery(engine, due);
  if (deps.config.webhooks !== undefined && deps.config.webhooks.length > 0)
    await askRested('webhooks', 'webhooks', {});
  if (await bounceReportDue(deps.record, deps.now())) await askRested('bounces', 'bounces', {});
  if (await housekeepingDue(deps)) await askRested('retention', 'retention', {});
}

/** @returns whether the lake's data should be fetched */
async function planLake(deps: ScheduleDeps, engine: Engine, lake: LakeConfig): Promise<boolean> {
  for (const slot of await slotsOf(deps, lake)) {
    const key = `${lake.id} ${slot.localDate} ${slot.edition}`;
    if (slot.action === 'issue') await engine.ask('issue', key, slot, { urgent: true });
    else {
      await miss(deps, lake, slot);
      // The run says that it was missed, and why; there is no more to try.
      await forgetFailure(deps.record, { queue: 'issue', key });
    }
  }
  const last = await refreshOf(deps.record, lake.id);
  return refreshDue(deps.now(), lake, last?.at_ms ?? null);
}

/** What workers that died on this machine left half done is free at once; of others when their lease runs out. */
async function freeTheDead(deps: ScheduleDeps): Promise<void> {
  for (const { owner } of await workersOf(deps.record)) {
    if (!isDead(owner, deps.owner)) continue;
    const mails = await handBackOutbox(deps.record, owner);
    const runs = await handBackRuns(deps.record, owner, deps.now());
    await forgetWorker(deps.record, owner);
    deps.log.warn({ mails, runs }, 'a worker died; what it held is free');
  }
}
