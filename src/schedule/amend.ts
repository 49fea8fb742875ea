/** At most one amendment a day, and only when it can change what somebody does. */
import type { LakeConfig } from '../config/index.ts';
import { runsSince } from '../record/schedule/index.ts';
import { instantOf, localDateAt } from '../units/time/index.ts';
import { issueEdition, problemOf, type IssueDeps } from './issue.ts';
import type { MadeBriefing } from './types.ts';

/** Local time after which nobody needs a changed morning plan. */
const LAST_AMENDMENT_AT = '15:00';
const GRACE_MS = 2 * 3_600_000;

/** A hazard level that rises, or another first position. A falling level does not: false alarm is no reason to mail. */
export function amends(
  morning: { safety_level: number | null; first_place: string | null },
  now: Pick<MadeBriefing, 'safetyLevel' | 'firstPlace'>,
): boolean {
  if (morning.safety_level === null || morning.first_place === null) return false;
  return now.safetyLevel > morning.safety_level || now.firstPlace !== morning.first_place;
}

/** Looks at a lake again after a refresh; issues an amendment when there is reason. */
export async function amendIfNeeded(deps: IssueDeps, lake: LakeConfig): Promise<boolean> {
  const nowMs = deps.now();
  const localDate = localDateAt(nowMs, lake.zone);
  if (nowMs > instantOf(localDate, LAST_AMENDMENT_AT, lake.zone)) return false;
  const runs = (await runsSince(deps.record, lake.id, localDate)).filter((r) => r.local_date === localDate);
  const morning = runs.find((r) => r.edition === 'morning' && r.state === 'issued');
  const amended = runs.some((r) => r.edition === 'amendment' && r.state !== 'failed');
  if (morning === undefined || amended) return false;
  let made: MadeBriefing;
  try {
    made = await deps.pipeline.makeBriefing(lake.id, nowMs, 'amendment');
  } catch (error) {
    deps.log.error({ lakeId: lake.id, problem: problemOf(error) }, 'look for an amendment failed');
    return false;
  }
  if (!amends(morning, made)) return false;
  const order = {
    lake,
    localDate,
    edition: 'amendment',
    dueMs: nowMs,
    deadlineMs: nowMs + GRACE_MS,
  } as const;
  return (await issueEdition(deps, { ...order, made })).outcome === 'issued';
}
