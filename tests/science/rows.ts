import { readFileSync } from 'node:fs';

export interface Row<Inputs, Expected> {
  readonly fn: string;
  readonly inputs: Inputs;
  readonly expected: Expected;
  readonly tol: number;
  readonly source: string;
  readonly basis: string;
}

/** Rows of one quantity in a file of check values; fails when there are none, so that no table is tested in vain. */
export function rowsOf<Inputs, Expected>(file: string, fn: string): Row<Inputs, Expected>[] {
  const path = new URL(`../../fixtures/science/${file}.json`, import.meta.url);
  const all = JSON.parse(readFileSync(path, 'utf8')) as Row<Inputs, Expected>[];
  const rows = all.filter((row) => row.fn === fn);
  if (rows.length === 0) throw new Error(`no check values for ${fn} in ${file}.json`);
  return rows;
}

/** Name of a row for the test report: inputs, expected value, source. */
export function nameOf(row: Row<unknown, unknown>): string {
  return `${JSON.stringify(row.inputs)} -> ${JSON.stringify(row.expected)} (${row.source})`;
}
