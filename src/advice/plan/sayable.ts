import type { PositionRules, Truth } from '../../config/index.ts';
import type { PhaseId } from '../../vocabulary/index.ts';
import { saysItself } from '../phase.ts';
import { namesOf } from '../positions/named.ts';
import { isTrueOf } from '../rules/truth.ts';
import type { SayableOf } from './reasons.ts';

/** What stands beside the sentence of a rule, and the season it is of. */
interface Beside {
  readonly trueWhen: readonly Truth[] | undefined;
  readonly season: PhaseId | null;
}

const besideSentences = new WeakMap<PositionRules, ReadonlyMap<string, Beside>>();

/** Kept with the rules, which nobody changes. */
function besideOf(rules: PositionRules): ReadonlyMap<string, Beside> {
  const kept = besideSentences.get(rules);
  if (kept !== undefined) return kept;
  const beside = new Map<string, Beside>(
    rules.modifiers.map(({ id, trueWhen }) => [id, { trueWhen, season: null }]),
  );
  for (const { id, base } of rules.places)
    for (const [phase, { trueWhen }] of Object.entries(base))
      beside.set(`base.${id}.${phase}`, { trueWhen, season: phase as PhaseId });
  besideSentences.set(rules, beside);
  return beside;
}

/**
 * Which rules' sentences may be said of an hour: the conditions beside the sentence hold for it, and a sentence of a
 * season is said in its season only, one that names places of those only.
 */
export function sayableOf(
  rules: PositionRules,
  membership: Readonly<Record<PhaseId, number>>,
  places: ReadonlySet<string>,
): SayableOf {
  const beside = besideOf(rules);
  const names = namesOf(rules);
  return (rule, { hour }, place) => {
    if (!names(rule, place)) return false;
    // What counted fish put in place of other rules has points and no sentence.
    const sentence = beside.get(rule);
    if (sentence === undefined) return false;
    const { trueWhen, season } = sentence;
    if (season !== null && !saysItself(season, membership)) return false;
    const { species, waterBody } = hour.known;
    return isTrueOf(trueWhen, { species, waterBody, signals: hour.signals, membership, places });
  };
}
