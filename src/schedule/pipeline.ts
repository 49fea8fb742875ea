/** All rooms joined, as the schedule sees them. */
import { lakeById } from '../config/index.ts';
import { renderBriefing } from '../render/index.ts';
import type { PipelineContext } from './context.ts';
import { makeBriefing } from './makeBriefing.ts';
import { refresh } from './refresh.ts';
import type { Pipeline } from './types.ts';

/** A refresh this young need not be repeated before an issue. */
const YOUNG_MS = 20 * 60_000;

/** What each edition is called in its document. */
const STATUS = { morning: 'scheduled', amendment: 'amended', evening: 'evening' } as const;

/** The pipeline as the schedule sees it: refresh in the night, make and render at the hour of issue. */
export function pipelineFor(ctx: PipelineContext): Pipeline {
  const refreshOne = async (lakeId: string, nowMs: number): Promise<{ ok: boolean; problem: string }> => {
    const lake = lakeById(ctx.config, lakeId);
    await refresh(ctx, [lake], nowMs);
    const { retrievals } = await ctx.record.view(lake.id, nowMs, { days: 1 });
    const now = retrievals.filter((row) => row.atMs === nowMs);
    const failed = now.filter((row) => !row.ok);
    // One dead gauge is a gap of the briefing; a refresh has failed only when nobody answered.
    return { ok: now.some((row) => row.ok), problem: failed.map((row) => row.problem).join(' ') };
  };
  return {
    refresh: refreshOne,
    async makeBriefing(lakeId, asOfMs, edition) {
      const last = await ctx.record.lastRefreshMs(lakeId);
      const offline = last !== null && asOfMs - last < YOUNG_MS;
      const { document, heldBack } = await makeBriefing(ctx, lakeId, {
        asOfMs,
        offline,
        status: STATUS[edition],
      });
      return {
        document,
        heldBack,
        safetyLevel: document.safety.level,
        firstPlace: document.status === 'nil' ? '' : (document.positions[0]?.place ?? ''),
        render: (units, form) => renderBriefing(document, { units, form }),
      };
    },
  };
}
