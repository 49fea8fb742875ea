import type { SafetyTable } from '../../config/rulesSafety.ts';
import type { Conditions } from '../../signals/types.ts';
import type { Hazard, HazardLevel, SafetyAdvice } from '../types.ts';
import { floodHazard, officialHazards } from './official.ts';
import { safetyQuantities, type Quantities } from './quantities.ts';
import { combinedHazard, hazardOf, standingOf } from './rows.ts';
import type { SafetyExtras } from './types.ts';

export type { FloodWord, LakeAlert, SafetyExtras } from './types.ts';

/** Below this no heat index is worth asking for, degC: with any humidity it stays out of the hazard classes. */
const HEAT_MATTERS_C = 27;

/**
 * The dangers of the day, from a printed table: the highest level wins, and what is unknown is never called safe.
 *
 * @param conditions the day's signals, SI; figures with an interval are judged at its worse end
 * @param table      levels, classes and combinations (`config/rules/safety.yaml`)
 * @param extras     official statements, flood category, dam, fetch, running speed, humidity
 * @returns level 1 to 4 with its hazards, highest first, and what was not checked, in words
 */
export function judgeSafety(conditions: Conditions, table: SafetyTable, extras: SafetyExtras): SafetyAdvice {
  const quantities = safetyQuantities(conditions, extras, table.assumed);
  const standings = new Map(table.hazards.map((row) => [row.id, standingOf(row, quantities)]));
  const found: (Hazard | null)[] = [
    ...officialHazards(extras.alerts, conditions.asOfMs, conditions.zone, table.official),
    floodHazard(extras.floodCategory, table.flood),
    ...table.combinations.map((row) => combinedHazard(row, standings, quantities)),
    ...singleHazards(table, quantities),
  ];
  const hazards = found
    .filter((hazard) => hazard !== null)
    .map((hazard, order) => ({ hazard, order }))
    .sort((a, b) => b.hazard.level - a.hazard.level || a.order - b.order)
    .map(({ hazard }) => hazard);
  const level = hazards.reduce<HazardLevel>((most, { level: own }) => (own > most ? own : most), 1);
  return {
    level,
    levelWords: table.levels[level],
    hazards,
    notChecked: notChecked(quantities, table, extras),
    deferTo: table.deferTo,
  };
}

/** From this level a hazard's own hours are no time to fish. */
const AVOID_LEVEL = 3;

/** Local hours that a serious hazard takes out of the day; undefined where none does. */
export function avoidedHours(
  safety: SafetyAdvice,
  table: SafetyTable,
): readonly [number, number] | undefined {
  const serious = safety.hazards.filter(({ level }) => level >= AVOID_LEVEL);
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

function notChecked(quantities: Quantities, table: SafetyTable, extras: SafetyExtras): string[] {
  const airMax = quantities.airMaxC?.value;
  const sentences = table.hazards.flatMap((row) =>
    quantities[row.quantity] === undefined && row.unknown !== undefined ? [row.unknown.sentence] : [],
  );
  if (airMax === undefined)
    sentences.push('Air temperature is unknown: neither heat nor wind chill was judged.');
  if (quantities.heatIndexC === undefined && airMax !== undefined && airMax >= HEAT_MATTERS_C) {
    sentences.push('Humidity is unknown, so the heat index was not computed. Moist air feels hotter.');
  }
  if (extras.floodCategory === 'unknown') sentences.push(table.flood.unknown);
  if (!extras.alertsChecked) sentences.push(table.official.unchecked);
  return sentences;
}
