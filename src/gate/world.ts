import type { PlanHour } from '../advice/plan/index.ts';
import { placesHere, standingOn } from '../advice/positions/index.ts';
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
  const { species, waterBody } = conditions;
  const { signals } = knownOf(conditions);
  const here = placesHere(waterBody, water.places, water.named);
  const { membership } = phase;
  return {
    waterBody,
    species,
    signals,
    hours: day.hours,
    fishing: day.fishing,
    membership,
    places: standingOn(here, rules.positions, { species, waterBody, signals, membership }),
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
