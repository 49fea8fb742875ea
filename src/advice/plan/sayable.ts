import type { PositionRules, Truth } from '../../config/rulesPlaces.ts';
import type { PhaseId } from '../../vocabulary/index.ts';
import { namesOf } from '../positions/named.ts';
import { isTrueOf } from '../rules/truth.ts';
import type { SayableOf } from './reasons.ts';

/** A sentence about a place in a season is said only where the season is at least this much of the day. */
export const SEASON_SHARE = 0.35;

/**
 * Which rules' sentences may be said of an hour: the conditions beside the sentence hold for it, and a sentence of a
 * season is said in its season only, one that names places of those only.
 */
export function sayableOf(
  rules: PositionRules,
  membership: Readonly<Record<PhaseId, number>>,
  places: ReadonlySet<string>,
): SayableOf {
  const truths = new Map<string, readonly Truth[] | undefined>(
    rules.modifiers.map(({ id, trueWhen }) => [id, trueWhen]),
  );
  const seasons = new Map<string, PhaseId>();
  for (const { id, base } of rules.places) {
    for (const [phase, cell] of Object.entries(base)) {
      truths.set(`base.${id}.${phase}`, cell.trueWhen);
      seasons.set(`base.${id}.${phase}`, phase as PhaseId);
    }
  }
  const names = namesOf(rules);
  return (rule, { hour }, place) => {
    if (!names(rule, place)) return false;
    const season = seasons.get(rule);
    if (season !== undefined && membership[season] < SEASON_SHARE) return false;
    const { species, waterBody } = hour.known;
    return isTrueOf(truths.get(rule), { species, waterBody, signals: hour.signals, membership, places });
  };
}
