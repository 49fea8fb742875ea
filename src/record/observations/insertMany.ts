import type { Compilable, CompiledQuery, Kysely } from 'kysely';
import type { Database } from '../schema/index.ts';

/** Rows a statement: SQLite takes 32,766 parameters, PostgreSQL 65,535; eight columns each. */
const CHUNK = 500;

const valuesOf: (row: object) => unknown[] = Object.values;

/**
 * Inserts rows by statements that are put together once for each number of rows and then only given other values: for
 * some ten thousand rows the wording takes longer than the database does, and the series of a reply are of one length.
 *
 * @param wordingFor the statement that inserts these rows; of rows of one shape its columns are those of the first, in order
 * @returns inserts rows of that shape
 */
export function insertMany<Row extends object>(
  db: Kysely<Database>,
  wordingFor: (rows: readonly Row[]) => Compilable,
): (rows: readonly Row[]) => Promise<void> {
  const worded = new Map<number, CompiledQuery>();
  return async (rows) => {
    for (let done = 0; done < rows.length; done += CHUNK) {
      const part = rows.slice(done, done + CHUNK);
      const statement = worded.get(part.length) ?? wordingFor(part).compile();
      worded.set(part.length, statement);
      await db.executeQuery({ ...statement, parameters: part.flatMap(valuesOf) });
    }
  };
}
