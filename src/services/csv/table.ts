import { ThawlineError } from '../../units/index.ts';
import { delimitedRows } from '../../units/delimited.ts';

/**
 * Rows of a delimited text by column name (RFC 4180 quotes). Comma, semicolon or tab, whichever the header has most
 * of; lines that start with `#` are remarks.
 *
 * @throws ThawlineError when there is no header, or a quote is never closed
 */
export function readTable(text: string, path: string): Map<string, string>[] {
  const read = delimitedRows(text, '#');
  if ('problem' in read)
    throw new ThawlineError(
      'service',
      read.problem === 'quote'
        ? `The logger file ${path} has a quote that is never closed.`
        : `The logger file ${path} cannot be read from line ${read.line} on: is it a table of fields?`,
    );
  const [names, ...rows] = read;
  if (names === undefined) throw new ThawlineError('service', `The logger file ${path} is empty.`);
  const plain = names.fields.map((name) => name.trim());
  return rows.map(({ fields }) => new Map(plain.map((name, i) => [name, (fields[i] ?? '').trim()])));
}
