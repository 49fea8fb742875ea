import type { PositionRules } from '../../config/rulesPlaces.ts';

/** Whether a rule's sentence may be said of a place: one that names places is said of those alone. */
export function namesOf({ modifiers }: PositionRules): (rule: string, place: string) => boolean {
  const named = new Map<string, ReadonlySet<string>>(
    modifiers.flatMap(({ id, saidOf }) => (saidOf === undefined ? [] : [[id, new Set<string>(saidOf)]])),
  );
  return (rule, place) => named.get(rule)?.has(place) !== false;
}
