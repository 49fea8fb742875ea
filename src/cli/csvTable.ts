import { readFileSync } from 'node:fs';
import { nearest, shown, textIn } from '../config/index.ts';
import { delimitedRows, ThawlineError } from '../units/index.ts';
import { counted } from './counted.ts';

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
  /** Whether the header names it. */
  has(column: string): boolean;
  text(column: string): string | undefined;
  /** The field as it stands, so that a note "NA" stays one; '' where it is absent. */
  written(column: string): string;
  /** @returns undefined when the field is absent or empty */
  yesNo(column: string): boolean | undefined;
  /** @returns undefined when the field is absent, empty, NA, NaN or null */
  number(column: string, range: NumberRange): number | undefined;
  date(column: string): string;
  /** Error that names file, line, column, what was found, what was expected, and how to mend it. */
  complain(column: string, expected: string, remedy?: string): ThawlineError;
}

const EMPTY = new Set(['', 'na', 'nan', 'null']);

/** Of what a file holds as much as a terminal takes. */
const quoted = (text: string): string => {
  const safe = shown(text);
  return `"${safe.length > 60 ? `${safe.slice(0, 57)}...` : safe}"`;
};

/** As many digits as say something. */
const bound = (value: number): number => Number(value.toPrecision(8));

/** @throws ThawlineError `usage` where it cannot be read or is no text */
function textOf(path: string): string {
  let bytes: Buffer;
  try {
    bytes = readFileSync(path);
  } catch (cause) {
    throw new ThawlineError('usage', `Cannot read ${path}; give the path of an existing CSV file.`, {
      cause,
    });
  }
  const text = textIn(bytes, path, 'usage');
  const zero = text.indexOf('\0');
  if (zero >= 0)
    throw new ThawlineError(
      'usage',
      `${path}:${text.slice(0, zero).split('\n').length}: this is no text; the file was saved as UTF-16, or as a table of a spreadsheet. Save it as CSV in UTF-8.`,
    );
  return text;
}

/**
 * Reads a CSV file with a header line; comma, semicolon or tab between fields, quotes around fields allowed.
 *
 * @param known the columns that are read, where a column that nobody reads would be a wish lost in silence
 * @throws ThawlineError `usage` when the file cannot be read, is not UTF-8, lacks a column or has one that is not known,
 *   or has a line of another length
 */
export function readCsv(path: string, required: readonly string[], known?: readonly string[]): CsvRow[] {
  const read = delimitedRows(textOf(path));
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
        `${path}, line 1: there is no column "${column}" (found: ${names.map(quoted).join(', ') || 'nothing'}); add it to the header line.`,
      );
  if (known !== undefined) refuseUnknown(path, names, known);
  // Of two columns of one name the first counts.
  const columns = new Map(names.map((name, i): [string, number] => [name, i]).reverse());
  return lines.map(({ line, fields }) => {
    if (fields.length !== names.length)
      throw new ThawlineError(
        'usage',
        `${path}, line ${line}: ${counted(fields.length, 'field')} where the header has ${names.length}; give every line one field per column, empty where missing.`,
      );
    return new Row(path, line, columns, fields);
  });
}

function refuseUnknown(path: string, names: readonly string[], known: readonly string[]): void {
  const other = names.find((name) => name !== '' && !known.includes(name));
  if (other === undefined) return;
  const guess = nearest(other, known);
  const cure =
    guess === null
      ? `known here: ${known.join(', ')}; rename it, or take it out`
      : `did you mean "${guess}"?`;
  throw new ThawlineError(
    'usage',
    `${path}, line 1: there is no column ${quoted(other)} in such a file; ${cure}${cure.endsWith('?') ? '' : '.'}`,
  );
}

class Row implements CsvRow {
  constructor(
    private readonly path: string,
    readonly line: number,
    private readonly columns: ReadonlyMap<string, number>,
    private readonly values: readonly string[],
  ) {}

  has(column: string): boolean {
    return this.columns.has(column);
  }

  written(column: string): string {
    return this.values[this.columns.get(column) ?? -1]?.trim() ?? '';
  }

  yesNo(column: string): boolean | undefined {
    const word = this.text(column)?.toLowerCase();
    if (word === undefined) return undefined;
    if (word !== 'yes' && word !== 'no') throw this.complain(column, 'yes or no');
    return word === 'yes';
  }

  text(column: string): string | undefined {
    const value = this.written(column);
    return value.length < 5 && EMPTY.has(value.toLowerCase()) ? undefined : value;
  }

  number(column: string, { low, high, ifAbove }: NumberRange): number | undefined {
    const value = this.text(column);
    if (value === undefined) return undefined;
    const parsed = Number(value);
    if (parsed >= low && parsed <= high) return parsed;
    const remedy =
      ifAbove !== undefined && parsed > high && parsed <= ifAbove.upTo ? ifAbove.remedy : undefined;
    throw this.complain(column, `a number from ${bound(low)} to ${bound(high)} with a decimal point`, remedy);
  }

  date(column: string): string {
    const value = this.text(column) ?? '';
    if (!isDate(value)) throw this.complain(column, 'a local date like 2024-03-07', 'correct the field');
    return value;
  }

  complain(column: string, expected: string, remedy = 'correct the field or leave it empty'): ThawlineError {
    return new ThawlineError(
      'usage',
      this.has(column)
        ? `${this.path}, line ${this.line}, column "${column}": found ${quoted(this.written(column))}, expected ${expected}; ${remedy}.`
        : `${this.path}, line ${this.line}: there is no column "${column}"; expected ${expected}; add it to the header line.`,
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
