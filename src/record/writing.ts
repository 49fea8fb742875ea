import type { Kysely } from 'kysely';
import type { Database } from './schema/index.ts';

/**
 * The one way to write: in the caller's transaction where there is one, else in one of its own. Outside of a transaction
 * the database itself refuses to write.
 */
export function writing<T>(db: Kysely<Database>, work: (db: Kysely<Database>) => Promise<T>): Promise<T> {
  return db.isTransaction ? work(db) : db.transaction().execute(work);
}
