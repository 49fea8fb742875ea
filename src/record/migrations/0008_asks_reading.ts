import { sql, type Kysely } from 'kysely';

/** Whether a reader wishes to be asked for a reading at the top of the mail; null for no. */
export async function asksReading(db: Kysely<unknown>): Promise<void> {
  await db.schema.alterTable('readers').addColumn('asks_reading', 'integer').execute();
}

/** A new record has the column from its description already. */
export async function asksReadingOnPostgres(db: Kysely<unknown>): Promise<void> {
  await sql.raw('alter table readers add column if not exists asks_reading smallint').execute(db);
}
