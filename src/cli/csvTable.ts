import { readFileSync } from 'node:fs';
import { ThawlineError } from '../units/index.ts';

/** One line of a CSV file, by column name, with the place it came from for errors. */
export interface CsvRow {
  readonly line: number;
  text(column: string): string | undefined;
  /** @returns undefined when the field is absent, empty, NA, NaN or null */
  number(column: string, low: number, high: number): number | undefined;
  date(column: string): string;
  /** Error that names file, line, column, what was found, what was expected. */
  complain(column: string, expected: string): ThawlineError;
}

const EMPTY = new Set(['', 'na', 'nan', 'null']);

/**
 * Reads a CSV file with a header line; comma, semicolon or tab between fields, quotes around fields allowed.
 *
 * @throws ThawlineError `usage` when the file cannot be read, `config` when it lacks a column or a line is short
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
  const lines = text.replace(/^\uFEFF/, '').split(/\r?\n/);
  const head = lines[0] ?? '';
  const separator = [',', ';', '\t'].reduce((a, b) => (head.split(b).length > head.split(a).length ? b : a));
  const names = fields(head, separator).map((name) => name.trim().toLowerCase());
  for (const column of required)
    if (!names.includes(column))
      throw new ThawlineError(
        'config',
        `${path}, line 1: there is no column "${column}" (found: ${names.join(', ') || 'nothing'}); add it to the header line.`,
      );
  const rows: CsvRow[] = [];
  lines.forEach((content, i) => {
    if (i === 0 || content.trim() === '') return;
    const values = fields(content, separator);
    if (values.length !== names.length)
      throw new ThawlineError(
        'config',
        `${path}, line ${i + 1}: ${values.length} fields where the header has ${names.length}; give every line one field per column, empty where missing.`,
      );
    rows.push(row(path, i + 1, names, values));
  });
  return rows;
}

function row(path: string, line: number, names: readonly string[], values: readonly string[]): CsvRow {
  const text = (column: string): string | undefined => {
    const value = values[names.indexOf(column)]?.trim();
    return value === undefined || EMPTY.has(value.toLowerCase()) ? undefined : value;
  };
  const complain = (column: string, expected: string): ThawlineError =>
    new ThawlineError(
      'config',
      `${path}, line ${line}, column "${column}": found "${text(column) ?? ''}", expected ${expected}; correct the field or leave it empty.`,
    );
  return {
    line,
    text,
    complain,
    number(column, low, high) {
      const value = text(column);
      if (value === undefined) return undefined;
      const parsed = Number(value);
      if (!Number.isFinite(parsed) || parsed < low || parsed > high)
        throw complain(column, `a number from ${low} to ${high} with a decimal point`);
      return parsed;
    },
    date(column) {
      const value = text(column) ?? '';
      const ms = /^\d{4}-\d{2}-\d{2}$/.test(value) ? Date.parse(`${value}T00:00:00Z`) : Number.NaN;
      if (!Number.isFinite(ms) || new Date(ms).toISOString().slice(0, 10) !== value)
        throw complain(column, 'a local date like 2024-03-07');
      return value;
    },
  };
}

/** Splits one line; a quoted field may hold the separator and doubled quotes, not a line break. */
function fields(line: string, separator: string): string[] {
  if (!line.includes('"')) return line.split(separator);
  const out: string[] = [];
  let field = '';
  let quoted = false;
  for (let i = 0; i < line.length; i++) {
    const char = line.charAt(i);
    if (char === '"' && quoted && line.charAt(i + 1) === '"') {
      field += '"';
      i++;
    } else if (char === '"') quoted = !quoted;
    else if (char === separator && !quoted) {
      out.push(field);
      field = '';
    } else field += char;
  }
  out.push(field);
  return out;
}
