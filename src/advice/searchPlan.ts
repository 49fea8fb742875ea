import type { PositionRules } from '../config/index.ts';
import type { Advice, PhaseAdvice, PhaseId, PositionAdvice, SearchStep } from './types.ts';

/** Phases in which fish may hold in two or three patterns at once, so that finding them comes first. */
const SPREAD: readonly PhaseId[] = ['winter', 'early_prespawn', 'prespawn', 'late_fall'];

/**
 * What to look at first, how long, and what tells you to move on. Each step is of another pattern (back of the
 * creeks, in between, main lake): early in the year at least two patterns are laid out, later the best of each
 * pattern that is within reach of the leader.
 */
export function searchPlan(
  positions: readonly PositionAdvice[],
  phase: PhaseAdvice,
  rules: PositionRules,
): SearchStep[] {
  const spread = SPREAD.reduce((sum, id) => sum + phase.membership[id], 0);
  const reach = spread > 0.5 ? 4 : 2.5;
  const seen = new Set<string>();
  const steps: SearchStep[] = [];
  const leader = positions[0];
  for (const position of positions) {
    const rule = rules.places.find((place) => place.id === position.place);
    if (!rule || !leader || seen.has(rule.pattern)) continue;
    const needed = spread > 0.5 && steps.length < 2;
    if (!needed && leader.total - position.total > reach) break;
    seen.add(rule.pattern);
    steps.push({ place: position.place, minutes: rule.search.minutes });
  }
  return steps;
}

/** Where the wind of a place's own hours comes from, degrees; undefined where it is not in the plan or knows no wind. */
export function windOnPlace({ plan }: Pick<Advice, 'plan'>, place: string): number | undefined {
  const reasons = plan?.blocks.flatMap((block) => (block.place === place ? block.because : [])) ?? [];
  return reasons.flatMap((reason) => (reason.code === 'windOnIt' ? (reason.fromDeg ?? []) : []))[0];
}
