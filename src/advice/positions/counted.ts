import type { PlaceRule, PositionRules } from '../../config/index.ts';
import { applyWhen } from '../rules/apply.ts';
import type { Known } from '../rules/known.ts';
import { PHASES, type PhaseId } from '../types.ts';

/** What counted fish do to the other rules on a day. */
export interface Counted {
  /** False where no fish were counted: then everything stays as it is. */
  readonly speaks: boolean;
  /** Factor on what a rule of a group gives a place; bases are the group `base`. */
  readonly factorOf: (place: string, group: string, rule: string) => number;
  /** What a place gets instead, by the id that says so. */
  readonly insteadAt: (place: string) => readonly Instead[];
}
interface Instead {
  readonly id: string;
  readonly share: number;
  readonly points: number;
}

const NOTHING: Counted = { speaks: false, factorOf: () => 1, insteadAt: () => [] };

/**
 * How far the other rules give way where fish were counted: what the counting saw of them is in its own rules, so of
 * them a share counts on, and nothing of a rule that the fish contradict.
 */
export function countedOn(counted: PositionRules['counted'], known: Known): Counted {
  const speaking = counted.flatMap(({ when, places, groups, contradicted, ...rule }) => {
    const share = applyWhen(when, known)?.share ?? 0;
    const sets = {
      places: new Set<string>(places),
      groups: new Set(groups),
      contradicted: new Set(contradicted),
    };
    return share === 0 ? [] : [{ ...rule, ...sets, share }];
  });
  if (speaking.length === 0) return NOTHING;
  return {
    speaks: true,
    factorOf: (place, group, rule) =>
      speaking.reduce((factor, { share, keep, places, groups, contradicted }) => {
        if (!places.has(place) || !groups.has(group)) return factor;
        return factor * (1 - share * (1 - (contradicted.has(rule) ? 0 : keep)));
      }, 1),
    insteadAt: (place) =>
      speaking.flatMap(({ id, share, level, places }) =>
        places.has(place) ? [{ id, share, points: share * level }] : [],
      ),
  };
}

/** Points of a place by the season, and what it gets instead of what has given way. */
export function seasonPoints(
  { id, base }: PlaceRule,
  membership: Readonly<Record<PhaseId, number>>,
  { speaks, factorOf, insteadAt }: Counted,
): number {
  let sum = 0;
  for (const phase of PHASES) {
    if (membership[phase] === 0) continue;
    const factor = speaks ? factorOf(id, 'base', `base.${id}.${phase}`) : 1;
    sum += factor * membership[phase] * base[phase].points;
  }
  for (const { points } of insteadAt(id)) sum += points;
  return sum;
}
