import { readFileSync } from 'node:fs';
import { ThawlineError } from '../units/index.ts';
import { delimitedRows } from '../units/delimited.ts';

/** Numbers that a column takes. */
export interface NumberRange {
  readonly low: number;
  readonly high: number;
  /** What a number above `high`, but not above `upTo`, is likely to be, and how to mend it. */
  readonly ifAbove?: { readonly upTo: number; readonly remedy: string };
}

/** One line of a CSV file, by column name, with the place it came from for errors. */
export interface CsvRow {
  readonly line: number;
  text(column: string): string | undefined;
  /** @returns undefined when the field is absent, empty, NA, NaN or null */
  number(column: string, range: NumberRange): number | undefined;
  date(column: string): string;
  /** Error that names file, line, column, what was found, what was expected, and how to mend it. */
  complain(column: string, expected: string, remedy?: string): ThawlineError;
}

const EMPTY = new Set(['', 'na', 'nan', 'null']);

/**
 * Reads a CSV file with a header line; comma, semicolon or tab between fields, quotes around fields allowed.
 *
 * @throws ThawlineError `usage` when the file cannot be read, lacks a column, or has a line of another length
 */
export function readCsv(path: string, required: readonly string[]): CsvRow[] {
  let text: string;
  try {
    text = readFileSync(path, 'utf8');
  } catch (cause) {
    throw new ThawlineError('usage', `Cannot read ${path}; give the path of an existing CSV file.`, {
      cause,
    });
  }
  const read = delimitedRows(text);
  if ('problem' in read)
    throw new ThawlineError(
      'usage',
      `${path}, line ${read.line}: ${read.problem === 'quote' ? 'a quote is never closed; close it, or double it inside a field' : 'this is no line of fields; give comma, semicolon or tab between them'}.`,
    );
  const [head, ...lines] = read;
  const names = (head?.fields ?? []).map((name) => name.trim().toLowerCase());
  for (const column of required)
    if (!names.includes(column))
      throw new ThawlineError(
        'usage',
        `${path}, line 1: there is no column "${column}" (found: ${names.join(', ') || 'nothing'}); add it to the header line.`,
      );
  // Of two columns of one name the first counts.
  const columns = new Map(names.map((name, i): [string, number] => [name, i]).reverse());
  return lines.map(({ line, fields }) => {
    if (fields.length !== names.length)
      throw new ThawlineError(
        'usage',
        `${path}, line ${line}: ${fields.length} fields where the header has ${names.length}; give every line one field per column, empty where missing.`,
      );
    return new Row(path, line, columns, fields);
  });
}

class Row implements CsvRow {
  constructor(
    private readonly path: string,
    readonly line: number,
    private readonly columns: ReadonlyMap<string, number>,
    private readonly values: readonly string[],
  ) {}

  text(column: string): string | undefined {
    const value = this.values[this.columns.get(column) ?? -1]?.trim();
    return value === undefined || (value.length < 5 && EMPTY.has(value.toLowerCase())) ? undefined : value;
  }

  number(column: string, { low, high, ifAbove }: NumberRange): number | undefined {
    const value = this.text(column);
    if (value === undefined) return undefined;
    const parsed = Number(value);
    if (parsed >= low && parsed <= high) return parsed;
    const remedy =
      ifAbove !== undefined && parsed > high && parsed <= ifAbove.upTo ? ifAbove.remedy : undefined;
    throw this.complain(column, `a number from ${low} to ${high} with a decimal point`, remedy);
  }

  date(column: string): string {
    const value = this.text(column) ?? '';
    if (!isDate(value)) throw this.complain(column, 'a local date like 2024-03-07', 'correct the field');
    return value;
  }

  complain(column: string, expected: string, remedy = 'correct the field or leave it empty'): ThawlineError {
    return new ThawlineError(
      'usage',
      `${this.path}, line ${this.line}, column "${column}": found "${this.text(column) ?? ''}", expected ${expected}; ${remedy}.`,
    );
  }
}

function isDate(text: string): boolean {
  if (!/^\d{4}-\d{2}-\d{2}$/.test(text)) return false;
  const [month, day] = [Number(text.slice(5, 7)), Number(text.slice(8))];
  if (month < 1 || month > 12 || day < 1) return false;
  // The day 0 of the next month is the last one of this.
  return day <= 28 || day <= new Date(Date.UTC(Number(text.slice(0, 4)), month, 0)).getUTCDate();
}
