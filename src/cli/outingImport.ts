/** Outings of a CSV file. Units stand in the names of the columns. */
import {
  OUTING_COLUMNS,
  readOuting,
  unguarded,
  UNTOLD,
  type OutingContext,
  type WrittenOuting,
} from '../outings/index.ts';
import type { OutingEntry } from '../record/index.ts';
import { ThawlineError } from '../units/index.ts';
import { wordsFor } from '../words/index.ts';
import { readCsv, type CsvRow } from './csvTable.ts';

/** Columns that say one field, each with its unit. */
const WITH_UNIT = {
  biggest: { biggest_cm: 'cm', biggest_in: 'in', biggest_kg: 'kg', biggest_lb: 'lb' },
  water: { water_c: 'C', water_f: 'F' },
  depth: { depth_m: 'm' },
  clarity: { clarity_m: 'm' },
} as const;

/** A number of a column with the unit that its name says; '' where there is none. */
function measured(row: CsvRow, field: keyof typeof WITH_UNIT): { text: string; column: string } {
  const columns = Object.entries(WITH_UNIT[field]);
  const filled = columns.flatMap(([column, unit]) => {
    const value = row.text(column);
    return value === undefined ? [] : [{ column, text: `${value} ${unit}` }];
  });
  const [one, second] = filled;
  // A fish may be weighed and measured; one of the two is enough for the record's own check.
  if (second !== undefined && field === 'water')
    throw row.complain(second.column, 'one of water_c and water_f', 'leave one of the two empty');
  return one ?? { text: '', column: columns[0]?.[0] ?? field };
}

const listOf = (text: string): string[] => text.split('|').map((word) => word.trim());

interface WrittenRow {
  readonly told: WrittenOuting;
  /** The column that each field stands in. */
  readonly columns: Readonly<Partial<Record<keyof WrittenOuting, string>>>;
}

function writtenRow(row: CsvRow): WrittenRow {
  const text = (column: string): string => row.text(column) ?? '';
  const of = {
    biggest: measured(row, 'biggest'),
    water: measured(row, 'water'),
    depth: measured(row, 'depth'),
    clarity: measured(row, 'clarity'),
  };
  return {
    told: {
      ...UNTOLD,
      date: text('date'),
      from: text('from'),
      to: text('to'),
      hours: text('hours'),
      places: listOf(unguarded(row.written('places'))),
      lures: listOf(unguarded(row.written('lures'))),
      bites: text('bites'),
      fish: text('fish'),
      biggest: of.biggest.text,
      water: of.water.text,
      depth: of.depth.text,
      clarity: of.clarity.text,
      plan: text('plan'),
      note: unguarded(row.written('note')),
      shared: row.yesNo('shared') ?? false,
    },
    columns: {
      biggest: of.biggest.column,
      water: of.water.column,
      depth: of.depth.column,
      clarity: of.clarity.column,
    },
  };
}

/**
 * Outings of a file, all of them looked at before one is kept.
 *
 * @throws ThawlineError `usage` with file, line and column
 */
export function outingsIn(
  path: string,
  context: OutingContext,
): (OutingEntry & { readonly called: string; readonly water: string })[] {
  const rows = readCsv(path, ['date', 'fish'], OUTING_COLUMNS);
  if (rows.length === 0) throw new ThawlineError('usage', `${path}: there is no outing in it.`);
  const lines = new Map<string, number>();
  return rows.map((row) => {
    const lake = row.text('lake');
    if (lake !== undefined && lake !== context.lake.id)
      throw row.complain(
        'lake',
        context.lake.id,
        'import the outings of each lake by themselves, or correct the field',
      );
    const { told, columns } = writtenRow(row);
    const read = readOuting(told, context);
    if (!('outing' in read)) {
      const [first] = read.problems;
      const column = first === undefined ? '' : (columns[first.field] ?? first.field);
      const says = read.problems.map(wordsFor('en').outingProblem).join(' ');
      throw new ThawlineError(
        'usage',
        `${path}, line ${row.line}, column "${column}": ${says} Nothing was stored.`,
      );
    }
    const before = lines.get(read.outing.id);
    if (before !== undefined)
      throw new ThawlineError(
        'usage',
        `${path}, line ${row.line}: the same outing as in line ${before} (day, hours, places and lures); take one of the two out. Nothing was stored.`,
      );
    lines.set(read.outing.id, row.line);
    return { ...read, called: `${path}, line ${row.line}`, water: told.water.replace(' ', '') };
  });
}
