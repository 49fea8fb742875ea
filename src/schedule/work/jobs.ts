/** What a worker does for each kind of job. What is due is asked of the record again: a job may come late or twice. */
import * as z from 'zod';
import type { LakeConfig } from '../../config/index.ts';
import { dueMails } from '../../record/delivery/index.ts';
import { refreshOf } from '../../record/schedule/index.ts';
import { amendIfNeeded } from '../amend.ts';
import { issueEdition } from '../issue.ts';
import { bouncePass, deliverPass, housekeeping, refreshGroup } from '../pass.ts';
import { preflightIfDue } from '../preflight.ts';
import { refreshDue } from '../slots.ts';
import type { ScheduleDeps } from '../types.ts';
import { tellWebhooks } from '../webhooks.ts';
import type { Engine, QueueName } from './engine.ts';
import { askDelivery } from './plan.ts';

/** A sender gives its place up after this long, so that whatever else waits is looked at, ms. */
const DELIVER_MS = 45_000;

const refreshData = z.object({ lakes: z.array(z.string()) });
const issueData = z.union([
  z.object({ amend: z.string() }),
  z.object({
    lakeId: z.string(),
    localDate: z.string(),
    edition: z.enum(['morning', 'evening']),
    dueMs: z.number(),
    deadlineMs: z.number(),
  }),
]);

/** Work of one process, by queue. */
export function jobsOf(
  deps: ScheduleDeps,
  engine: Engine,
): Readonly<Record<QueueName, (data: object) => Promise<void>>> {
  const lakeOf = (id: string): LakeConfig | undefined => deps.config.lakes.find((lake) => lake.id === id);
  const stillDue = async (lake: LakeConfig): Promise<boolean> =>
    refreshDue(deps.now(), lake, (await refreshOf(deps.record, lake.id))?.at_ms ?? null);

  return {
    async refresh(data) {
      const due: LakeConfig[] = [];
      for (const id of refreshData.parse(data).lakes) {
        const lake = lakeOf(id);
        if (lake !== undefined && (await stillDue(lake))) due.push(lake);
      }
      if (due.length === 0) return;
      const { pipeline } = deps;
      const oneByOne: NonNullable<typeof pipeline.refreshGroup> = async (ids, nowMs) => {
        const outcomes = new Map<string, { ok: boolean; problem: string }>();
        for (const id of ids) outcomes.set(id, await pipeline.refresh(id, nowMs));
        return outcomes;
      };
      await refreshGroup(deps, due, (ids, nowMs) =>
        (pipeline.refreshGroup?.bind(pipeline) ?? oneByOne)(ids, nowMs),
      );
      for (const lake of due) {
        await preflightIfDue(deps, lake);
        await engine.ask('issue', `amend ${lake.id}`, { amend: lake.id });
      }
    },

    async issue(data) {
      const order = issueData.parse(data);
      const lake = lakeOf('amend' in order ? order.amend : order.lakeId);
      if (lake === undefined) return;
      if ('amend' in order) await amendIfNeeded(deps, lake);
      else if (deps.now() <= order.deadlineMs) await issueEdition(deps, { ...order, lake });
    },

    async deliver() {
      const signals = [AbortSignal.timeout(DELIVER_MS), ...(deps.signal === undefined ? [] : [deps.signal])];
      await deliverPass({ ...deps, signal: AbortSignal.any(signals) });
      const { due } = await dueMails(deps.record, deps.now());
      if (due > 0 && deps.signal?.aborted !== true) await askDelivery(engine, Math.min(due, 1));
    },

    bounces: () => bouncePass(deps),
    retention: () => housekeeping(deps),
    webhooks: () => tellWebhooks({ ...deps, env: deps.env ?? process.env }),
  };
}
