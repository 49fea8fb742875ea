import { mkdirSync } from 'node:fs';
import { dirname } from 'node:path';
import { Kysely } from 'kysely';
import { ThawlineError } from '../units/index.ts';
import { sqliteDialect } from './dialect.ts';
import { migrate } from './migrate.ts';
import type { Database } from './schema/index.ts';
import { RecordStore } from './store.ts';

/**
 * Opens the record, making or migrating it as needed.
 *
 * @param path SQLite file, or `:memory:`
 * @throws ThawlineError `record` when the file is newer than this program, is not a record, or cannot be written
 */
export async function openRecord(path: string): Promise<RecordStore> {
  let db: Kysely<Database> | undefined;
  try {
    if (path !== ':memory:') mkdirSync(dirname(path), { recursive: true });
    db = new Kysely<Database>({ dialect: sqliteDialect(path) });
    await migrate(db, path, Date.now());
    return new RecordStore(db);
  } catch (cause) {
    await db?.destroy();
    if (cause instanceof ThawlineError) throw cause;
    const why = cause instanceof Error ? cause.message : String(cause);
    throw new ThawlineError(
      'record',
      `The record ${path} could not be opened (${why}): check that the folder exists and is writable and that the file is a Thawline record.`,
      { cause },
    );
  }
}
