import type { PositionRules } from '../../config/index.ts';

type Named = (rule: string, place: string) => boolean;

/** Rules do not change while the program runs: what they name is gathered once. */
const kept = new WeakMap<PositionRules, Named>();

/** Whether a rule's sentence may be said of a place: one that names places is said of those alone. */
export function namesOf(rules: PositionRules): Named {
  const known = kept.get(rules);
  if (known !== undefined) return known;
  const named = new Map<string, ReadonlySet<string>>(
    rules.modifiers.flatMap(({ id, saidOf }) =>
      saidOf === undefined ? [] : [[id, new Set<string>(saidOf)]],
    ),
  );
  const names: Named = (rule, place) => named.get(rule)?.has(place) !== false;
  kept.set(rules, names);
  return names;
}
