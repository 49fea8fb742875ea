import { randomBytes } from 'node:crypto';
import { sql, type Kysely } from 'kysely';
import { MONTHS_FUNCTION } from '../dialect/postgres/months.ts';
import { makeTables } from '../dialect/postgres/tables.ts';

/**
 * Who left, complained or was erased is known by a keyed hash when nothing else is, so that no list brings them back; and
 * a reader of whom somebody asks a subscription remembers what they were until the request is confirmed.
 */
export async function staysAway(db: Kysely<unknown>): Promise<void> {
  await db.schema
    .createTable('stays_away')
    .addColumn('hash', 'text', (c) => c.notNull().primaryKey())
    .addColumn('said', 'text', (c) => c.notNull())
    .addColumn('at_ms', 'integer', (c) => c.notNull())
    .execute();
  await db.schema.alterTable('readers').addColumn('gone_state', 'text').execute();
  await keyAndRequests(db);
}

export async function staysAwayOnPostgres(db: Kysely<unknown>): Promise<void> {
  await makeTables(db, 11);
  await sql.raw('alter table readers add column if not exists gone_state text collate "C"').execute(db);
  await keyAndRequests(db);
  // Two workers of a fresh record got into each other's way at its first month.
  await sql.raw(MONTHS_FUNCTION).execute(db);
}

async function keyAndRequests(db: Kysely<unknown>): Promise<void> {
  const key = JSON.stringify(randomBytes(32).toString('hex'));
  await sql`insert into delivery_state (key, value_json, at_ms) values ('away-key', ${key}, 0)`.execute(db);
  // Whose request waits and who has a day of leaving had left, or their address had failed, before it.
  await sql`update readers set gone_state = 'left' where state = 'pending' and left_ms is not null`.execute(
    db,
  );
}
