import type { RuleBook, SafetyTable } from '../../config/index.ts';
import type { HazardHours, SafetyAdvice } from '../types.ts';

/** When a hazard keeps boats to sheltered water. */
export interface LeeOnly {
  readonly hazard: string;
  /** Left out: it stands all day. */
  readonly hours?: readonly HazardHours[];
}

/** The day's hazards that keep boats to sheltered water, also the milder ones that a severer one of their group tells. */
export function leeOnly({ hazards }: SafetyAdvice, table: SafetyTable): LeeOnly[] {
  const keeping = new Set(
    [...table.hazards, ...table.combinations].flatMap(({ id, keepsToLee }) =>
      keepsToLee === true ? [id] : [],
    ),
  );
  return hazards
    .flatMap((hazard) => [hazard, ...(hazard.also ?? [])])
    .filter(({ id }) => keeping.has(id))
    .map(({ id, hours }) => ({ hazard: id, ...(hours === undefined ? {} : { hours }) }));
}

/** Which of them stands in a stretch; undefined where none does. */
export const keptToLee = (lee: readonly LeeOnly[], { fromMs, toMs }: HazardHours): string | undefined =>
  lee.find(
    ({ hours }) => hours === undefined || hours.some((span) => span.fromMs < toMs && span.toMs > fromMs),
  )?.hazard;

const inLee = new WeakMap<RuleBook, RuleBook['positions']>();

/** The rules of places without those that let the wind speak for a bank; kept with the rules, which nobody changes. */
export function rulesInLee(rules: RuleBook): RuleBook['positions'] {
  const kept = inLee.get(rules);
  if (kept !== undefined) return kept;
  const ofWind = new Set(rules.hours.tells.windOnIt ?? []);
  const { positions } = rules;
  const without = { ...positions, modifiers: positions.modifiers.filter(({ id }) => !ofWind.has(id)) };
  inLee.set(rules, without);
  return without;
}
