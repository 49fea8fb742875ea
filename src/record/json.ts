/** JSON that columns of the record hold, looked at before it is believed. */
import type { z } from 'zod';
import { ThawlineError } from '../units/index.ts';

const damaged = (column: string, cause?: unknown): ThawlineError =>
  new ThawlineError(
    'record',
    `The record holds something in "${column}" that this program did not write. Restore the last copy of it, or use the version that wrote it.`,
    { cause },
  );

function parsed(text: string, column: string): unknown {
  try {
    return JSON.parse(text);
  } catch (cause) {
    throw damaged(column, cause);
  }
}

/**
 * What a column holds.
 *
 * @param column its name, for the error
 * @throws ThawlineError `record` when it is no JSON or another thing than the schema has
 */
export function fromColumn<T>(text: string, schema: z.ZodType<T>, column: string): T {
  const found = schema.safeParse(parsed(text, column));
  if (found.success) return found.data;
  throw damaged(column, found.error);
}

/**
 * A line of numbers with commas between, as the database writes a whole column; without a schema, for there are tens of
 * thousands of them.
 *
 * @throws ThawlineError `record` when something else stands among them
 */
export function numbersOf(line: string, column: string): number[] {
  const list = parsed(`[${line}]`, column);
  if (Array.isArray(list) && list.every((value): value is number => typeof value === 'number')) return list;
  throw damaged(column);
}
