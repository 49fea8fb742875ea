import { sql, type Kysely } from 'kysely';
import type { Database } from '../schema/index.ts';
import { ThawlineError } from '../../units/index.ts';
import { isPostgres } from './which.ts';

/** "THWL": how a file says which program it belongs to. https://www.sqlite.org/fileformat2.html#application_id */
const APPLICATION_ID = 0x5448574c;

interface Owner {
  readonly id: number;
  readonly tables: number;
  readonly hasVersion: boolean;
}

async function ownerOf(db: Kysely<Database>): Promise<Owner> {
  if (isPostgres(db)) {
    const { rows } = await sql<{ name: string }>`select table_name as name from information_schema.tables
      where table_schema = current_schema()`.execute(db);
    return { id: 0, tables: rows.length, hasVersion: rows.some(({ name }) => name === 'record_version') };
  }
  const mark = await sql<{ application_id: number }>`pragma application_id`.execute(db);
  const tables = await sql<{ name: string }>`select name from sqlite_master where type = 'table'`.execute(db);
  return {
    id: mark.rows[0]?.application_id ?? 0,
    tables: tables.rows.length,
    hasVersion: tables.rows.some(({ name }) => name === 'record_version'),
  };
}

const isOther = ({ id, tables, hasVersion }: Owner): boolean =>
  id !== APPLICATION_ID && (id !== 0 || (tables > 0 && !hasVersion));

/** Whether the file is another program's database. */
export const isForeign = async (db: Kysely<Database>): Promise<boolean> => isOther(await ownerOf(db));

/** Whether tables of a record were ever made in it. */
export const hasVersionTable = async (db: Kysely<Database>): Promise<boolean> =>
  (await ownerOf(db)).hasVersion;

/**
 * Refuses another program's database, in which this one would make tables of its own.
 *
 * @returns whether the file is a record already
 * @throws ThawlineError `record`
 */
export async function refuseForeign(db: Kysely<Database>, path: string): Promise<boolean> {
  const owner = await ownerOf(db);
  if (isOther(owner))
    throw new ThawlineError(
      'record',
      `${path} is the database of another program (${owner.tables} tables): name another file as "record" in the configuration. Nothing was changed in it.`,
    );
  return owner.hasVersion;
}

/**
 * Empties the write-ahead log, in which what was erased still stands. Does nothing within a transaction or while a reader
 * elsewhere needs the log; the housekeeping comes back to it.
 */
export async function truncateLog(db: Kysely<Database>): Promise<void> {
  if (!db.isTransaction && !isPostgres(db)) await sql`pragma wal_checkpoint(truncate)`.execute(db);
}

/** Marks the file as this program's, within the transaction that makes its tables. */
export async function markOurs(trx: Kysely<Database>): Promise<void> {
  if (isPostgres(trx)) return;
  await sql.raw(`pragma application_id = ${APPLICATION_ID}`).execute(trx);
}
