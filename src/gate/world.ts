import type { PlanHour } from '../advice/plan/index.ts';
import { placesHere } from '../advice/positions/index.ts';
import { knownOf } from '../advice/rules/index.ts';
import { closedPlaces, leeOnly } from '../advice/safety/index.ts';
import type { PhaseAdvice, SafetyAdvice } from '../advice/index.ts';
import type { RuleBook } from '../config/index.ts';
import type { Conditions } from '../signals/index.ts';
import type { DeclaredPlaces } from '../vocabulary/index.ts';
import type { World } from './types.ts';

/** What the claims of a day are held against. */
export function worldOf(
  conditions: Conditions,
  phase: PhaseAdvice,
  rules: RuleBook,
  day: { readonly hours: readonly PlanHour[]; readonly fishing: World['fishing'] },
  water: {
    readonly places?: DeclaredPlaces | undefined;
    readonly named?: readonly string[];
    readonly limitM?: number | undefined;
    readonly validUntilMs?: number;
    readonly faces?: ReadonlyMap<string, number>;
    /** The day's hazards; left out: none. */
    readonly safety?: SafetyAdvice;
  } = {},
): World {
  const { limitM, validUntilMs, faces, safety } = water;
  return {
    waterBody: conditions.waterBody,
    species: conditions.species,
    signals: knownOf(conditions).signals,
    hours: day.hours,
    fishing: day.fishing,
    membership: phase.membership,
    places: placesHere(conditions.waterBody, water.places, water.named),
    closed: safety === undefined ? [] : closedPlaces(safety, rules.safety, conditions.waterBody),
    lee: safety === undefined ? [] : leeOnly(safety, rules.safety),
    positions: rules.positions,
    ...(faces === undefined ? {} : { faces }),
    ...(limitM === undefined ? {} : { limitM }),
    ...(validUntilMs === undefined ? {} : { validUntilMs }),
    date: conditions.date,
    zone: conditions.zone,
  };
}
