/** All rooms joined, as the schedule sees them. */
import { lakeById } from '../config/index.ts';
import { hoursOf } from '../delivery/index.ts';
import { isServerRecord } from '../record/index.ts';
import { renderBriefing } from '../render/index.ts';
import type { PipelineContext } from './context.ts';
import { makeBriefing, type BriefingResult } from './makeBriefing.ts';
import { refresh } from './refresh.ts';
import type { MadeBriefing, Pipeline, RefreshOutcome } from './types.ts';

/** A refresh this young need not be repeated before an issue. */
const YOUNG_MS = 20 * 60_000;
/**
 * Where many issue at once, the refresh of the last half hour before an issue is enough: only one process at a time asks
 * the services.
 */
const YOUNG_SHARED_MS = 40 * 60_000;

/** What each edition is called in its document. */
const STATUS = { morning: 'scheduled', amendment: 'amended', evening: 'evening' } as const;

/** The pipeline as the schedule sees it: refresh in the night, make and render at the hour of issue. */
export function pipelineFor(ctx: PipelineContext): Pipeline {
  const refreshOne = async (lakeId: string, nowMs: number): Promise<RefreshOutcome> => {
    await refresh(ctx, [lakeById(ctx.config, lakeId)], nowMs);
    return outcomeOf(lakeId, nowMs);
  };
  const outcomeOf = async (lakeId: string, nowMs: number): Promise<RefreshOutcome> => {
    const { retrievals } = await ctx.record.view(lakeId, nowMs, { days: 1 });
    const now = retrievals.filter((row) => row.atMs === nowMs);
    const failed = now.filter((row) => !row.ok);
    // One dead gauge is a gap of the briefing; a refresh has failed only when nobody answered.
    return { ok: now.some((row) => row.ok), problem: failed.map((row) => row.problem).join(' ') };
  };
  const youngMs = isServerRecord(ctx.config.recordPath) ? YOUNG_SHARED_MS : YOUNG_MS;
  return {
    refresh: refreshOne,
    async refreshGroup(lakeIds, nowMs) {
      const lakes = lakeIds.map((id) => lakeById(ctx.config, id));
      await refresh(ctx, lakes, nowMs);
      return new Map(
        await Promise.all(lakes.map(async ({ id }) => [id, await outcomeOf(id, nowMs)] as const)),
      );
    },
    async makeBriefing(lakeId, asOfMs, edition) {
      const last = await ctx.record.lastRefreshMs(lakeId);
      const offline = last !== null && asOfMs - last < youngMs;
      return madeFrom(await makeBriefing(ctx, lakeId, { asOfMs, offline, status: STATUS[edition] }));
    },
  };
}

/** A briefing with its renderings: the lake's, and those for who fishes other hours or reads another language. */
export function madeFrom({
  document,
  heldBack,
  forHours,
}: Pick<BriefingResult, 'document' | 'heldBack' | 'forHours'>): MadeBriefing {
  return {
    document,
    heldBack,
    safetyLevel: document.safety.level,
    firstPlace: document.status === 'nil' ? '' : (document.positions[0]?.place ?? ''),
    render: (units, form, own) => {
      const fishing = hoursOf(own?.fishing ?? null);
      return renderBriefing(fishing === null ? document : forHours(fishing), {
        units,
        form,
        ...(own?.language == null ? {} : { language: own.language }),
      });
    },
  };
}
