import type { Kysely } from 'kysely';
import { mayBeRepeated } from './dialect/index.ts';
import type { Database } from './schema/index.ts';

const ATTEMPTS = 4;

/** A server may end a transaction that stood in another's way; then all of it is done again. */
async function persistently<T>(work: () => Promise<T>): Promise<T> {
  for (let n = 1; ; n += 1) {
    try {
      return await work();
    } catch (error) {
      if (n >= ATTEMPTS || !mayBeRepeated(error)) throw error;
    }
  }
}

/**
 * The one way to write: in the caller's transaction where there is one, else in one of its own. Outside of a transaction
 * the database itself refuses to write.
 */
export function writing<T>(db: Kysely<Database>, work: (db: Kysely<Database>) => Promise<T>): Promise<T> {
  return db.isTransaction ? work(db) : persistently(() => db.transaction().execute(work));
}
