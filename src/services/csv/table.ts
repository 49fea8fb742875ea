import { delimitedRows, ThawlineError } from '../../units/index.ts';

/** One row of a logger file, with the line it stands on. */
export interface TableRow {
  readonly line: number;
  /** '' where the row is shorter than the header. */
  get(column: string): string;
  /** Fields behind the last column of the header that hold something. */
  readonly surplus: number;
}

export interface Table {
  readonly names: readonly string[];
  readonly headLine: number;
  readonly rows: readonly TableRow[];
}

/** A fault of a file: where it is, what was found, how to mend it. */
export const fileFault = (path: string, line: number, sentence: string): ThawlineError =>
  new ThawlineError('service', `The logger file ${path}, line ${line}: ${sentence}`);

/** A letter of two bytes read one by one leaves zeros, and its mark at the beginning two letters that are none. */
const isTwoByte = (text: string): boolean =>
  text.slice(0, 2000).includes('\0') || text.startsWith('\uFFFD\uFFFD');

/**
 * Rows of a delimited text by column name (RFC 4180 quotes). Comma, semicolon or tab, whichever the header has most
 * of; lines that start with `#` are remarks.
 *
 * @throws ThawlineError `service` when it is not UTF-8, there is no header, or a quote is never closed
 */
export function readTable(text: string, path: string): Table {
  if (isTwoByte(text))
    throw fileFault(
      path,
      1,
      'this is UTF-16 and not UTF-8. Let the logger write UTF-8, or save the file as UTF-8.',
    );
  const read = delimitedRows(text, '#');
  if ('problem' in read)
    throw fileFault(
      path,
      read.line,
      read.problem === 'quote'
        ? 'a quote that is never closed. Close it, or double it inside a field.'
        : 'it cannot be read from here on: is it a table of fields?',
    );
  const [head, ...rows] = read;
  if (head === undefined) throw new ThawlineError('service', `The logger file ${path} is empty.`);
  const names = head.fields.map((name) => name.trim());
  return {
    names,
    headLine: head.line,
    rows: rows.map(({ line, fields }) => ({
      line,
      get: (column) => (fields[names.indexOf(column)] ?? '').trim(),
      surplus: fields.slice(names.length).filter((field) => field.trim() !== '').length,
    })),
  };
}

/** @throws ThawlineError `service` when the header has no such column, or two */
export function demandColumn({ names, headLine }: Table, path: string, column: string): void {
  const count = names.filter((name) => name === column).length;
  if (count === 0)
    throw fileFault(
      path,
      headLine,
      `it has no column "${column}"; it has ${names.join(', ')}. Correct its name in the configuration.`,
    );
  if (count > 1)
    throw fileFault(path, headLine, `${count} columns are called "${column}". Give each its own name.`);
}
