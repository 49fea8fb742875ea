import {
  SAFETY_QUANTITIES,
  type CombinationRow,
  type HazardClass,
  type HazardRow,
} from '../../config/rulesSafety.ts';
import { quantity, quantityRange } from '../../units/index.ts';
import type { Hazard, HazardLevel } from '../types.ts';
import type { Judged, Quantities } from './quantities.ts';

/** Severest class that applies, judged at the worse end of the number's interval; undefined when none does. */
function classOf(row: HazardRow, judged: Judged): HazardClass | undefined {
  const worst = row.direction === 'below' ? judged.low : judged.high;
  return row.classes.find((entry) => (row.direction === 'below' ? worst < entry.at : worst >= entry.at));
}

/** The number as judged: a range when only its worse end reaches the class. */
function shown(row: HazardRow, entry: HazardClass, { value, low, high }: Judged): string {
  const kind = SAFETY_QUANTITIES[row.quantity];
  const itself = row.direction === 'below' ? value < entry.at : value >= entry.at;
  if (itself) return quantity(kind, value);
  return row.direction === 'below' ? quantityRange(kind, low, value) : quantityRange(kind, value, high);
}

/** Hazard of one row; null when no class applies. An unknown number gives the row's own statement from level 2 up. */
export function hazardOf(row: HazardRow, quantities: Quantities): Hazard | null {
  const judged = quantities[row.quantity];
  const place = { where: row.where, when: row.when, source: row.source };
  if (judged === undefined) {
    if (row.unknown === undefined || row.unknown.level < 2) return null;
    return {
      id: `${row.id}-unknown`,
      level: row.unknown.level,
      headline: `${row.label}: unknown, so not safe`,
      what: row.unknown.sentence,
      doThis: 'Find out before you launch; until then act as if it were there.',
      ...place,
    };
  }
  const entry = classOf(row, judged);
  if (entry === undefined) return null;
  const fill = (text: string): string => text.replaceAll('{value}', shown(row, entry, judged));
  return {
    id: row.id,
    level: entry.level,
    headline: `${row.label}: ${fill(entry.headline)}`,
    what: fill(entry.what),
    doThis: fill(entry.do),
    ...place,
  };
}

/**
 * Level a row stands at for the combinations. An unknown wind has its own statement; adding it to cold water would send
 * everybody ashore every winter morning without a forecast, and would soon be heeded by nobody.
 */
export function standingOf(row: HazardRow, quantities: Quantities): Standing {
  const judged = quantities[row.quantity];
  if (judged === undefined)
    return { level: row.unknown?.presume === true ? row.unknown.level : 0, known: false };
  return { level: classOf(row, judged)?.level ?? 0, known: true };
}

/** How a row stands for the combinations. */
export interface Standing {
  readonly level: HazardLevel | 0;
  /** Whether its number is known; an unknown one counts only where its row presumes the worse. */
  readonly known: boolean;
}

/** Hazard of several things at once; null unless all of them hold, and at least one of them is known to. */
export function combinedHazard(
  row: CombinationRow,
  standings: ReadonlyMap<string, Standing>,
  quantities: Quantities,
): Hazard | null {
  const anyKnown = row.all.some((part) => 'quantity' in part || standings.get(part.hazard)?.known === true);
  if (!anyKnown) return null;
  const holds = row.all.every((part) => {
    if ('hazard' in part) return (standings.get(part.hazard)?.level ?? 0) >= part.level;
    const judged = quantities[part.quantity];
    if (judged === undefined) return false;
    return 'above' in part ? judged.high >= part.above : judged.low < part.below;
  });
  if (!holds) return null;
  return {
    id: row.id,
    level: row.level,
    headline: `${row.label}: ${row.headline}`,
    what: row.what,
    where: row.where,
    when: row.when,
    doThis: row.do,
    source: row.source,
  };
}
