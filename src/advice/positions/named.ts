import type { PositionRules } from '../../config/index.ts';
import type { Evidence } from '../types.ts';

/** Of rules that fish were counted for the strongest alone: the others of a place would say the same again. */
export function withOneCount<T extends Pick<Evidence, 'grade'>>(evidence: readonly T[]): T[] {
  const first = evidence.findIndex(({ grade }) => grade === 'measured');
  return evidence.filter(({ grade }, index) => grade !== 'measured' || index === first);
}

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
