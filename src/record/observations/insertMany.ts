import type { Compilable, CompiledQuery, Kysely } from 'kysely';
import type { Database } from '../schema/index.ts';

/** Rows a statement, most first: SQLite takes 32,766 parameters, PostgreSQL 65,535; eight columns each. */
const SIZES = [512, 64, 8, 1];

const valuesOf: (row: object) => unknown[] = Object.values;

/**
 * Inserts rows by statements of a few sizes, each of which is put together once and then only given its values: for some
 * ten thousand rows the wording takes longer than the database does.
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
    let done = 0;
    for (const size of SIZES) {
      for (; rows.length - done >= size; done += size) {
        const part = rows.slice(done, done + size);
        const statement = worded.get(size) ?? wordingFor(part).compile();
        worded.set(size, statement);
        await db.executeQuery({
          ...statement,
          parameters: part.flatMap(valuesOf),
        });
      }
    }
  };
}
