/** What the two databases say differently, handled once. */
import { sql, SqliteAdapter, type Kysely, type RawBuilder } from 'kysely';
import type { Database } from '../schema/index.ts';

/** Whether PostgreSQL stands behind the record, and not a SQLite file. */
export const isPostgres = (db: Kysely<Database>): boolean =>
  !(db.getExecutor().adapter instanceof SqliteAdapter);

/** Whole numbers of a column as one line with commas between, in the order of the rows; null of no rows. */
export const wholeLine = (db: Kysely<Database>, column: string): RawBuilder<string | null> =>
  isPostgres(db) ? sql`string_agg(${sql.ref(column)}::text, ',')` : sql`group_concat(${sql.ref(column)})`;

/**
 * The same of doubles, so that each comes back to the bit. PostgreSQL writes the shortest text that tells a double from
 * every other; SQLite needs 17 digits for it, and its own JSON writes 15. What is smaller than anything an instrument
 * gives (some 1e-100) comes back from SQLite as zero.
 */
export const doubleLine = (db: Kysely<Database>, column: string): RawBuilder<string | null> =>
  isPostgres(db)
    ? sql`string_agg(${sql.ref(column)}::text, ',')`
    : sql`group_concat(format('%!.17g', ${sql.ref(column)}))`;

/** A column as the text of a JSON array, in the order of the rows. */
export const jsonLine = (db: Kysely<Database>, column: string): RawBuilder<string> =>
  isPostgres(db)
    ? sql`coalesce(json_agg(${sql.ref(column)})::text, '[]')`
    : sql`json_group_array(${sql.ref(column)})`;

/** What stands behind the @ of an address. */
export const domainOf = (db: Kysely<Database>, column: string): RawBuilder<string> =>
  isPostgres(db)
    ? sql`substr(${sql.ref(column)}, strpos(${sql.ref(column)}, '@') + 1)`
    : sql`substr(${sql.ref(column)}, instr(${sql.ref(column)}, '@') + 1)`;

/** A statement written out with `?` for its values, as the database behind the record wants them. */
export function withValues(db: Kysely<Database>, statement: string): string {
  if (!isPostgres(db)) return statement;
  let n = 0;
  return statement.replaceAll('?', () => `$${(n += 1)}`);
}
