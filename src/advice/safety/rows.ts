import type { CombinationRow, HazardClass, HazardRow } from '../../config/index.ts';
import type { Hazard, HazardLevel, HazardNumber } from '../types.ts';
import type { Judged, Quantities } from './quantities.ts';

/**
 * Severest class that applies, judged at the worse end of the number's interval; undefined when none does. What is
 * usual care anyway is told only where the number itself is in it: warm water has no cold end.
 */
function classOf(row: HazardRow, judged: Judged): HazardClass | undefined {
  const reaches = (number: number, { at }: HazardClass): boolean =>
    row.direction === 'below' ? number < at : number >= at;
  const worst = row.direction === 'below' ? judged.low : judged.high;
  return row.classes.find((entry) => reaches(entry.level > 1 ? worst : judged.value, entry));
}

const closing = ({ closes }: { readonly closes?: boolean | undefined }): { closes?: boolean } =>
  closes === undefined ? {} : { closes };

/** Hazard of one row; null when no class applies. An unknown number gives the row's own statement from level 2 up. */
export function hazardOf(row: HazardRow, quantities: Quantities): Hazard | null {
  const judged = quantities[row.quantity];
  const { source } = row;
  if (judged === undefined) {
    if (row.unknown === undefined || row.unknown.level < 2) return null;
    return { code: 'unknown', id: `${row.id}-unknown`, row: row.id, level: row.unknown.level, source };
  }
  const entry = classOf(row, judged);
  if (entry === undefined) return null;
  const { value, low, high } = judged;
  // A range when only the worse end of the number reaches the class.
  const itself = row.direction === 'below' ? value < entry.at : value >= entry.at;
  const shown = itself
    ? { value }
    : row.direction === 'below'
      ? // The whole range, as the table of figures tells it of the same water.
        { value: low, to: high }
      : { value, to: high };
  return {
    code: 'class',
    id: row.id,
    level: entry.level,
    source,
    ...closing(row),
    className: entry.name,
    quantity: row.quantity,
    ...shown,
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

/** The number of a part that is too high, for its sentence. */
function numberOf(part: CombinationRow['all'][number], quantities: Quantities): HazardNumber[] {
  if (!('above' in part)) return [];
  const judged = quantities[part.quantity];
  if (judged === undefined) return [];
  const { value, high } = judged;
  return [{ quantity: part.quantity, value, ...(value >= part.above ? {} : { to: high }) }];
}

/** Hazard of several things at once; null unless all of them hold, and at least one of them is known to. */
export function combinedHazard(
  row: CombinationRow,
  standings: ReadonlyMap<string, Standing>,
  quantities: Quantities,
): Hazard | null {
  const anyKnown = row.all.some(
    (part) =>
      ('quantity' in part && !('unknown' in part)) ||
      ('hazard' in part && standings.get(part.hazard)?.known === true),
  );
  if (!anyKnown) return null;
  const holds = row.all.every((part) => {
    if ('hazard' in part) return (standings.get(part.hazard)?.level ?? 0) >= part.level;
    const judged = quantities[part.quantity];
    if ('unknown' in part) return judged === undefined;
    if (judged === undefined) return false;
    return 'above' in part ? judged.high >= part.above : judged.low < part.below;
  });
  if (!holds) return null;
  const numbers = row.all.flatMap((part) => numberOf(part, quantities));
  return {
    code: 'together',
    id: row.id,
    level: row.level,
    source: row.source,
    ...closing(row),
    ...(numbers.length === 0 ? {} : { numbers }),
  };
}
