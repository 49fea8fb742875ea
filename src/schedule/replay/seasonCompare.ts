/** Where two sets of rules part on the mornings of one season, and what moved them. Pure. */
import type { SeasonDay } from './seasonDay.ts';

export interface Difference {
  readonly what: 'danger' | 'first place' | 'lure' | 'hours';
  readonly before: string;
  readonly after: string;
  readonly movedBy: string;
}

export interface DayDifference {
  readonly date: string;
  readonly items: readonly Difference[];
}

/** Signals named as what moved a place. */
const NAMED = 3;
/** Points below which a signal moved nothing. */
const LEAST_POINTS = 0.05;

/** Hazards that are on one side only, or there at another level. */
function hazardMoves(a: SeasonDay, b: SeasonDay): string {
  const gone = a.hazards.filter((id) => !b.hazards.includes(id)).map((id) => `-${id}`);
  const come = b.hazards.filter((id) => !a.hazards.includes(id)).map((id) => `+${id}`);
  return [...come, ...gone].join(' ');
}

/** Signals by how far their points for the first place lie apart. */
function pointMoves(a: SeasonDay, b: SeasonDay): string {
  const ids = [...new Set([...Object.keys(a.points), ...Object.keys(b.points)])];
  return ids
    .map((id) => ({ id, by: (b.points[id] ?? 0) - (a.points[id] ?? 0) }))
    .filter(({ by }) => Math.abs(by) >= LEAST_POINTS)
    .sort((x, y) => Math.abs(y.by) - Math.abs(x.by))
    .slice(0, NAMED)
    .map(({ id, by }) => `${id} ${by > 0 ? '+' : ''}${by.toFixed(1)}`)
    .join(' ');
}

function differencesOf(a: SeasonDay, b: SeasonDay): Difference[] {
  const items: Difference[] = [];
  if (a.danger !== b.danger)
    items.push({
      what: 'danger',
      before: String(a.danger),
      after: String(b.danger),
      movedBy: hazardMoves(a, b),
    });
  if (a.first !== b.first)
    items.push({ what: 'first place', before: a.first, after: b.first, movedBy: pointMoves(a, b) });
  // Another place brings another lure and other hours with it.
  const byPlace = a.first === b.first ? '' : 'first place';
  if (a.lure !== b.lure) items.push({ what: 'lure', before: a.lure, after: b.lure, movedBy: byPlace });
  if (a.hours !== b.hours) items.push({ what: 'hours', before: a.hours, after: b.hours, movedBy: byPlace });
  return items;
}

/** Days on which the two differ, oldest first. */
export function compareSeasons(before: readonly SeasonDay[], after: readonly SeasonDay[]): DayDifference[] {
  const others = new Map(after.map((day) => [day.date, day]));
  return before.flatMap((day) => {
    const other = others.get(day.date);
    const items = other === undefined ? [] : differencesOf(day, other);
    return items.length === 0 ? [] : [{ date: day.date, items }];
  });
}

/** On how many days each thing differs. */
export const countDifferences = (
  differences: readonly DayDifference[],
): readonly (readonly [Difference['what'], number])[] =>
  (['danger', 'first place', 'lure', 'hours'] as const).map((what) => [
    what,
    differences.filter(({ items }) => items.some((item) => item.what === what)).length,
  ]);

/** The same for a terminal: `danger 3, first place 1, lure 0, hours 0`. */
export const countWords = (differences: readonly DayDifference[]): string =>
  countDifferences(differences)
    .map(([what, n]) => `${what} ${n}`)
    .join(', ');
