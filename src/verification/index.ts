/** How past issues have done: a pure function of what was issued and of what is known since. */
import type { LakeConfig } from '../config/types.ts';
import type { RecordView } from '../record/types.ts';
import { levelOutcomes } from './level.ts';
import { scoreOutcomes } from './score.ts';
import type { Issue, ItemScore, Outcomes } from './types.ts';
import { waterOutcomes } from './water.ts';
import { weatherOutcomes } from './weather.ts';

export { LAST_ISSUES, scoredIssues, type KeptIssue } from './issues.ts';
export { scoreItem } from './score.ts';
export { ERROR_KIND, FEWEST_OUTCOMES, verificationWords } from './words.ts';
export type { Issue, Item, ItemScore, Outcome, Outcomes, Tally } from './types.ts';

/**
 * What issues said beside what came, as far as `view` knows it. Days that are not over have no outcome. Places and
 * lures are not among the items: nobody has reported what was caught where.
 */
export function outcomesOf(issues: readonly Issue[], view: RecordView, lake: LakeConfig): Outcomes {
  return {
    water: waterOutcomes(issues, view, lake),
    level: levelOutcomes(issues, view, lake),
    air: weatherOutcomes('air', issues, view, lake),
    wind: weatherOutcomes('wind', issues, view, lake),
  };
}

export interface Verification {
  /** Issues that were looked at. */
  readonly issues: number;
  readonly scores: readonly ItemScore[];
}

export function verify(issues: readonly Issue[], view: RecordView, lake: LakeConfig): Verification {
  return { issues: issues.length, scores: scoreOutcomes(outcomesOf(issues, view, lake)) };
}
