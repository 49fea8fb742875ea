import type { SafetyTable } from '../../config/index.ts';
import type { Conditions } from '../../signals/index.ts';
import { HOUR_MS } from '../../units/time/index.ts';
import type { Hazard, HazardLevel, NotChecked, SafetyAdvice } from '../types.ts';
import { floodHazard, officialHazards } from './official.ts';
import { hourQuantities, spansOf } from './hours.ts';
import { safetyQuantities, type Quantities } from './quantities.ts';
import { combinedHazard, hazardOf, standingOf } from './rows.ts';
import type { SafetyExtras } from './types.ts';
import { withWindSide } from './windSide.ts';

export { safetyHour } from './hours.ts';
export type { FloodWord, LakeAlert, SafetyExtras, SafetyHour } from './types.ts';

/** Below this no heat index is worth asking for, degC: with any humidity it stays out of the hazard classes. */
const HEAT_MATTERS_C = 27;

/**
 * The dangers of the day, from a printed table: the highest level wins, and what is unknown is never called safe.
 *
 * @param conditions the day's signals, SI; figures with an interval are judged at its worse end
 * @param table      levels, classes and combinations (`config/rules/safety.yaml`)
 * @param extras     official statements, flood category, dam, fetch, running speed, humidity
 * @returns level 1 to 4 with its hazards, highest first, and what was not checked
 */
export function judgeSafety(conditions: Conditions, table: SafetyTable, extras: SafetyExtras): SafetyAdvice {
  const quantities = safetyQuantities(conditions, extras, table.assumed);
  const found: (Hazard | null)[] = [
    ...officialHazards(extras.alerts, conditions.asOfMs, conditions.zone, table.official),
    floodHazard(extras.floodCategory, table.flood),
    ...ruledHazards(table, quantities),
  ];
  const ranked = found
    .filter((hazard) => hazard !== null)
    .map((hazard, order) => ({ hazard, order }))
    .sort((a, b) => b.hazard.level - a.hazard.level || a.order - b.order)
    .map(({ hazard }) => hazard);
  const timed = withHours(ranked, conditions, table, extras);
  const hazards = withWindSide(oneOfEachThing(timed, table), table, extras);
  const level = hazards.reduce<HazardLevel>((most, { level: own }) => (own > most ? own : most), 1);
  return { level, hazards, notChecked: notChecked(quantities, table, extras) };
}

/** Hazards of several things at once, then those of one number. */
function ruledHazards(table: SafetyTable, quantities: Quantities): Hazard[] {
  const standings = new Map(table.hazards.map((row) => [row.id, standingOf(row, quantities)]));
  const together = table.combinations.map((row) => combinedHazard(row, standings, quantities));
  return [...together.filter((hazard) => hazard !== null), ...singleHazards(table, quantities)];
}

/** A hazard stands in the hours that reach its level, or any serious one where it is worse at times. */
const leastLevel = (level: HazardLevel): HazardLevel => (level > AVOID_LEVEL ? AVOID_LEVEL : level);

/** The part of the table that says whether some hazards stand: their rows, what covers them, what they are made of. */
function rowsOf(hazards: readonly Hazard[], table: SafetyTable): SafetyTable {
  const ids = new Set(hazards.map(({ id }) => id));
  const combinations = table.combinations.filter(({ id }) => ids.has(id));
  const parts = new Set(
    combinations.flatMap(({ all }) => all.flatMap((part) => ('hazard' in part ? [part.hazard] : []))),
  );
  return {
    ...table,
    combinations,
    hazards: table.hazards.filter(
      ({ id, covers }) =>
        ids.has(id) || ids.has(`${id}-unknown`) || parts.has(id) || (covers !== undefined && ids.has(covers)),
    ),
  };
}

/** The hours of hazards that come and go through the day; a hazard that stands in all of them or none has no hours. */
function withHours(
  hazards: readonly Hazard[],
  conditions: Conditions,
  table: SafetyTable,
  extras: SafetyExtras,
): Hazard[] {
  const hours = extras.hours ?? [];
  if (hours.length === 0 || !hazards.some(({ level }) => level > 1)) return [...hazards];
  const needed = rowsOf(hazards, table);
  const levels = hours.map((point) => {
    const there = ruledHazards(needed, hourQuantities(point, conditions, table, extras));
    return new Map(there.map(({ id, level }) => [id, level]));
  });
  return hazards.map((hazard) => {
    const stands = levels.map((there) => (there.get(hazard.id) ?? 0) >= leastLevel(hazard.level));
    if (!stands.includes(true) || !stands.includes(false)) return hazard;
    return { ...hazard, hours: spansOf(hours, stands, clearMs(hazard, needed)) };
  });
}

/** How long a serious hazard is waited out after its last hour, ms. */
function clearMs({ id, level }: Hazard, { hazards, combinations }: SafetyTable): number {
  if (level < AVOID_LEVEL) return 0;
  return (([...hazards, ...combinations].find((row) => row.id === id)?.clearMin ?? 0) * HOUR_MS) / 60;
}

/** Of the hazards of one group the severest, with the milder ones in it. */
function oneOfEachThing(ranked: readonly Hazard[], table: SafetyTable): Hazard[] {
  const groupOf = new Map([...table.hazards, ...table.combinations].map(({ id, group }) => [id, group]));
  const first = new Map<string, string>();
  for (const { id } of ranked) {
    const group = groupOf.get(id);
    if (group !== undefined && !first.has(group)) first.set(group, id);
  }
  return ranked.flatMap((hazard) => {
    const group = groupOf.get(hazard.id);
    if (group === undefined) return [hazard];
    if (first.get(group) !== hazard.id) return [];
    const also = ranked.filter((other) => other !== hazard && groupOf.get(other.id) === group);
    return [also.length === 0 ? hazard : { ...hazard, also }];
  });
}

/** From this level a hazard's own hours are no time to fish. */
const AVOID_LEVEL = 3;

/** Local hours that a serious hazard takes out of the day; undefined where none does. */
export function avoidedHours(
  safety: SafetyAdvice,
  table: SafetyTable,
): readonly [number, number] | undefined {
  const serious = safety.hazards
    .flatMap((hazard) => [hazard, ...(hazard.also ?? [])])
    .filter(({ level }) => level >= AVOID_LEVEL);
  const ranges = serious.flatMap(({ id }) => {
    const range = table.hazards.find((row) => row.id === id)?.avoidHours;
    return range === undefined ? [] : [range];
  });
  if (ranges.length === 0) return undefined;
  return [Math.min(...ranges.map(([from]) => from)), Math.max(...ranges.map(([, to]) => to))];
}

/** Each row's own hazard, without those that a row of the same or a higher level already covers. */
function singleHazards(table: SafetyTable, quantities: Quantities): Hazard[] {
  const standing = table.hazards.map((row) => ({ row, hazard: hazardOf(row, quantities) }));
  return standing.flatMap(({ row, hazard }) => {
    const covered = standing.some(
      (other) => other.row.covers === row.id && (other.hazard?.level ?? 0) >= (hazard?.level ?? 0),
    );
    return hazard === null || covered ? [] : [hazard];
  });
}

function notChecked(quantities: Quantities, table: SafetyTable, extras: SafetyExtras): NotChecked[] {
  const airMax = quantities.airMaxC?.value;
  const heatUnjudged =
    quantities.heatIndexC === undefined && airMax !== undefined && airMax >= HEAT_MATTERS_C;
  const bySigns = quantities.thunderPct === undefined && quantities.stormSign !== undefined;
  return [
    ...table.hazards
      .filter(
        (row) =>
          quantities[row.quantity] === undefined &&
          row.unknown !== undefined &&
          !(row.quantity === 'thunderPct' && bySigns),
      )
      .map((row) => ({ code: 'hazard', row: row.id }) as const),
    ...(bySigns ? [{ code: 'thunderBySigns' } as const] : []),
    ...(airMax === undefined ? [{ code: 'air' } as const] : []),
    ...(heatUnjudged ? [{ code: 'humidity' } as const] : []),
    ...(extras.floodCategory === 'unknown' ? [{ code: 'flood' } as const] : []),
    ...(extras.alertsChecked ? [] : [{ code: 'alerts' } as const]),
  ];
}
export { type ClosedPlaces, closedPlaces } from './closedPlaces.ts';
export { keptToLee, leeOnly, type LeeOnly } from './lee.ts';
