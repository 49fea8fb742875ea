import type { SafetyTable } from '../../config/index.ts';
import type { WaterBody } from '../../signals/index.ts';
import type { Hazard, HazardHours, HazardLevel, SafetyAdvice } from '../types.ts';
import { RUNNING_WATER } from './quantities.ts';
import { isOfWind } from './windSide.ts';

/** From this level a hazard closes the kinds of place that its rule names. */
const CLOSES_FROM: HazardLevel = 3;

/** Kinds of place that a standing hazard closes. */
export interface ClosedPlaces {
  readonly hazard: string;
  readonly level: HazardLevel;
  readonly places: readonly string[];
  /** Left out: it stands all day. */
  readonly hours?: readonly HazardHours[];
}

interface Closing {
  readonly closesPlaces?: readonly string[] | undefined;
  readonly closesInRivers?: readonly string[] | undefined;
}

/** A hazard's own rule; none for an official statement or a number that is not known. */
export function rowOf(
  { id, code }: Pick<Hazard, 'id' | 'code'>,
  { hazards, combinations, flood }: SafetyTable,
): Closing | undefined {
  if (code === 'flood') return flood;
  return [...hazards, ...combinations].find((row) => row.id === id);
}

/** Kinds of place that one hazard's rule closes on a water. */
function placesOf(hazard: Hazard, table: SafetyTable, water: WaterBody): readonly string[] {
  const row = rowOf(hazard, table);
  const inRivers = RUNNING_WATER.includes(water) ? (row?.closesInRivers ?? []) : [];
  return [...(row?.closesPlaces ?? []), ...inRivers];
}

/** Every hazard of the day, also the milder ones that a severer one of their group tells. */
const each = ({ hazards }: SafetyAdvice): Hazard[] =>
  hazards.flatMap((hazard) => [hazard, ...(hazard.also ?? [])]);

/** What the day's hazards close on this water, severest first. */
export function closedPlaces(safety: SafetyAdvice, table: SafetyTable, water: WaterBody): ClosedPlaces[] {
  return each(safety).flatMap((hazard): ClosedPlaces[] => {
    const places = hazard.level < CLOSES_FROM ? [] : placesOf(hazard, table, water);
    if (places.length === 0) return [];
    const { id, level, hours } = hazard;
    return [{ hazard: id, level, places, ...(hours === undefined ? {} : { hours }) }];
  });
}

/** Kinds of place that are closed all day, each with the severest hazard that closes it. */
export function closedAllDay(closed: readonly ClosedPlaces[]): ReadonlyMap<string, string> {
  const found = new Map<string, string>();
  for (const { hazard, places, hours } of closed) {
    if (hours !== undefined) continue;
    for (const place of places) if (!found.has(place)) found.set(place, hazard);
  }
  return found;
}

/** Whether serious wind or waves come in any hour of the day. */
export const isWindy = (safety: SafetyAdvice, table: SafetyTable): boolean =>
  each(safety).some((hazard) => hazard.level >= CLOSES_FROM && isOfWind(hazard, table));
