/** Delimited text (RFC 4180) as rows of fields, by a library; which mark stands between the fields is found out. */
import { CsvError, parse } from 'csv-parse/sync';

const MARKS = [',', ';', '\t'] as const;

export interface DelimitedRow {
  /** Line of the file it ends on, from 1. */
  readonly line: number;
  readonly fields: readonly string[];
}

/** What the text breaks of the form, and on which line. */
export interface DelimitedFault {
  readonly line: number;
  readonly problem: 'quote' | 'form';
}

/** Comma, semicolon or tab: whichever the first line that is no remark has most of, quoted fields left aside. */
function markOf(text: string, remark: string | undefined): string {
  const header =
    text
      .split(/\r?\n/)
      .find((line) => line.trim() !== '' && (remark === undefined || !line.startsWith(remark))) ?? '';
  const bare = header.replace(/"[^"]*"/g, '');
  const count = (mark: string): number => bare.split(mark).length;
  return MARKS.reduce<string>((best, mark) => (count(mark) > count(best) ? mark : best), MARKS[0]);
}

/**
 * Rows of a delimited text, the header among them; empty lines are left out, rows may differ in length.
 *
 * @param remark lines that start with it are left out
 * @returns the rows, or the first fault where the text is not of the form
 */
export function delimitedRows(text: string, remark?: string): readonly DelimitedRow[] | DelimitedFault {
  const rows: DelimitedRow[] = [];
  try {
    parse(text, {
      bom: true,
      delimiter: markOf(text, remark),
      relax_column_count: true,
      relax_quotes: true,
      skip_empty_lines: true,
      on_record: (fields: readonly string[], { lines }) => {
        if (fields.length > 1 || fields[0]?.trim() !== '') rows.push({ line: lines, fields });
        return null;
      },
      ...(remark === undefined ? {} : { comment: remark, comment_no_infix: true }),
    });
    return rows;
  } catch (error) {
    if (!(error instanceof CsvError)) throw error;
    const line = typeof error['lines'] === 'number' ? error['lines'] : 1;
    return { line, problem: error.code === 'CSV_QUOTE_NOT_CLOSED' ? 'quote' : 'form' };
  }
}
