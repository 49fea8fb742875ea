/** How past issues have done: a pure function of what was issued and of what is known since. */
import type { LakeConfig } from '../config/index.ts';
import type { RecordView } from '../record/index.ts';
import { DAY_MS } from '../units/time/index.ts';
import { measuredSince } from '../signals/index.ts';
import { levelOutcomes } from './level.ts';
import { scoreOutcomes } from './score.ts';
import type { Issue, ItemScore, Outcomes } from './types.ts';
import { AHEAD_DAYS, waterOutcomes } from './water.ts';
import { weatherOutcomes } from './weather.ts';

/** A gauge that was silent for longer before an issue gives no last value to hold. */
const HELD_DAYS = 14;

export { LAST_ISSUES, scoredIssues, type KeptIssue } from './issues.ts';
export { kindsOfRules, type EvidenceKind } from './kinds.ts';
export { scoreItem } from './score.ts';
export { ERROR_KIND, FEWEST_OUTCOMES, lessonsWorthTelling, worthTelling } from './telling.ts';
export type { Issue, Item, ItemScore, Outcome, Outcomes, Tally } from './types.ts';

/**
 * What issues said beside what came, as far as `view` knows it. Days that are not over have no outcome. Places and
 * lures are not among the items: nobody has reported what was caught where.
 */
export function outcomesOf(issues: readonly Issue[], view: RecordView, lake: LakeConfig): Outcomes {
  // A year of hours is most of the cost, and nothing before the issues is asked for but the last value held.
  const firstMs = Math.min(...issues.map(({ issuedMs }) => issuedMs));
  const recent = measuredSince(view, firstMs - HELD_DAYS * DAY_MS);
  return {
    water: waterOutcomes(issues, recent, lake),
    waterAhead: waterOutcomes(issues, recent, lake, AHEAD_DAYS),
    level: levelOutcomes(issues, recent, lake),
    air: weatherOutcomes('air', issues, recent, lake),
    wind: weatherOutcomes('wind', issues, recent, lake),
  };
}

export interface Verification {
  /** Issues that were looked at. */
  readonly issues: number;
  readonly scores: readonly ItemScore[];
}

/**
 * Scores of past issues by what is known since.
 *
 * @param issues from `scoredIssues`
 */
export function verify(issues: readonly Issue[], view: RecordView, lake: LakeConfig): Verification {
  return { issues: issues.length, scores: scoreOutcomes(outcomesOf(issues, view, lake)) };
}
