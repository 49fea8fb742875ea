import { dirname } from 'node:path';
import { Kysely } from 'kysely';
import { ThawlineError } from '../units/index.ts';
import { sqliteRecord } from './dialect/index.ts';
import { makeFolder } from './folder.ts';
import { migrate } from './migrate.ts';
import { isServerRecord, serverAddress } from './server.ts';
import type { Database } from './schema/index.ts';
import { RecordStore } from './store.ts';

/**
 * Opens the record, making or migrating it as needed.
 *
 * @param path SQLite file, `:memory:`, or `postgres:` and the name of the environment variable with a server's address
 * @param patienceMs how long every call waits for another process that holds the write lock
 * @throws ThawlineError `record` when the file is newer than this program, is not a record, or cannot be written
 */
export async function openRecord(path: string, patienceMs?: number): Promise<RecordStore> {
  if (isServerRecord(path))
    return (await import('./openServer.ts')).openServerRecord(serverAddress(path, process.env));
  let db: Kysely<Database> | undefined;
  try {
    if (path !== ':memory:') makeFolder(dirname(path));
    const file = sqliteRecord(path, patienceMs);
    db = new Kysely<Database>({ dialect: file.dialect });
    await migrate(db, path, Date.now(), (target) => file.upkeep().copyTo(target));
    return new RecordStore(db, file.upkeep());
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
