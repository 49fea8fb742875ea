import { ThawlineError } from '../../units/index.ts';

/**
 * Rows of a delimited text by column name (RFC 4180 quotes). Comma, semicolon or tab, whichever the header has most
 * of; lines that start with `#` are remarks.
 *
 * @throws ThawlineError when there is no header, or a quote is never closed
 */
export function readTable(text: string, path: string): Map<string, string>[] {
  const lines = text.replace(/^\uFEFF/, '');
  const header = lines.split(/\r?\n/).find((line) => line.trim() !== '' && !line.startsWith('#')) ?? '';
  const bare = header.replace(/"[^"]*"/g, '');
  const count = (mark: string): number => bare.split(mark).length;
  const delimiter = [',', ';', '\t'].reduce((best, mark) => (count(mark) > count(best) ? mark : best));
  const [names, ...rows] = split(lines, delimiter, path).filter(
    (row) => !(row.length === 1 && row[0]?.trim() === '') && row[0]?.startsWith('#') !== true,
  );
  if (names === undefined) throw new ThawlineError('service', `The logger file ${path} is empty.`);
  const plain = names.map((name) => name.trim());
  return rows.map((row) => new Map(plain.map((name, i) => [name, (row[i] ?? '').trim()])));
}

function split(text: string, delimiter: string, path: string): string[][] {
  const rows: string[][] = [];
  let row: string[] = [];
  let field = '';
  let quoted = false;
  for (let i = 0; i < text.length; i += 1) {
    const c = text.charAt(i);
    if (quoted) {
      if (c !== '"') field += c;
      else if (text.charAt(i + 1) === '"') {
        field += '"';
        i += 1;
      } else quoted = false;
    } else if (c === '"' && field === '') quoted = true;
    else if (c === delimiter) {
      row.push(field);
      field = '';
    } else if (c === '\n') {
      rows.push([...row, field.replace(/\r$/, '')]);
      row = [];
      field = '';
    } else field += c;
  }
  if (quoted) throw new ThawlineError('service', `The logger file ${path} has a quote that is never closed.`);
  if (field !== '' || row.length > 0) rows.push([...row, field]);
  return rows;
}
