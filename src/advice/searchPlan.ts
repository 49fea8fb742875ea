import type { PlaceRule, PositionRules } from '../config/index.ts';
import type { DayPlan } from './plan/index.ts';
import type { Advice, PhaseAdvice, PhaseId, PositionAdvice, SearchStep } from './types.ts';

/** Phases in which fish may hold in two or three patterns at once, so that finding them comes first. */
const SPREAD: readonly PhaseId[] = ['winter', 'early_prespawn', 'prespawn', 'late_fall'];

/**
 * What to look at, how long, and what tells you to move on: the places of the plan in its order. Where nothing is
 * planned, and early in the year when one place is, the best of other patterns (back of the creeks, in between, main
 * lake) that is within reach of the leader.
 *
 * @param open the ranked places that no hazard closes
 */
export function searchPlan(
  open: readonly PositionAdvice[],
  plan: DayPlan | null,
  phase: PhaseAdvice,
  rules: PositionRules,
): SearchStep[] {
  const spread = SPREAD.reduce((sum, id) => sum + phase.membership[id], 0) > 0.5;
  const ruleOf = new Map<string, PlaceRule>(rules.places.map((place) => [place.id, place]));
  const steps = new Map<string, SearchStep>();
  const seen = new Set<string>();
  const take = (place: string, named: string | undefined): void => {
    const rule = ruleOf.get(place);
    if (rule === undefined) return;
    seen.add(rule.pattern);
    if (!steps.has(place))
      steps.set(place, {
        place,
        ...(named === undefined ? {} : { named }),
        minutes: rule.search.minutes,
      });
  };
  const blocks = plan?.blocks ?? [];
  for (const { place, named } of blocks) take(place, named);
  const leader = open[0];
  if (leader === undefined || (blocks.length > 0 && !spread)) return [...steps.values()];
  const reach = spread ? 4 : 2.5;
  for (const { place, named, total } of open) {
    const isNeeded = spread && steps.size < 2;
    if (!isNeeded && (blocks.length > 0 || leader.total - total > reach)) break;
    if (!seen.has(ruleOf.get(place)?.pattern ?? '')) take(place, named);
  }
  return [...steps.values()];
}

/** Where the wind of a place's own hours comes from, degrees; undefined where it is not in the plan or knows no wind. */
export function windOnPlace({ plan }: Pick<Advice, 'plan'>, place: string): number | undefined {
  const reasons = plan?.blocks.flatMap((block) => (block.place === place ? block.because : [])) ?? [];
  return reasons.flatMap((reason) => (reason.code === 'windOnIt' ? (reason.fromDeg ?? []) : []))[0];
}
