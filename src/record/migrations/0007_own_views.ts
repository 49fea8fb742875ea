import { sql, type Kysely } from 'kysely';
import { makeTables } from '../dialect/postgres/tables.ts';

const COLUMNS = ['language', 'fishing'] as const;

/**
 * What a reader wants otherwise than the lake has it: the language, and the hours they fish, `06:00-11:00`; null for as
 * the lake has it. Renderings made for such wishes stand beside those of the lake.
 */
export async function ownViews(db: Kysely<unknown>): Promise<void> {
  for (const column of COLUMNS) await db.schema.alterTable('readers').addColumn(column, 'text').execute();
  await db.schema
    .createTable('own_renderings')
    .addColumn('lake_id', 'text', (c) => c.notNull())
    .addColumn('local_date', 'text', (c) => c.notNull())
    .addColumn('edition', 'text', (c) => c.notNull())
    .addColumn('units', 'text', (c) => c.notNull())
    .addColumn('form', 'text', (c) => c.notNull())
    .addColumn('own', 'text', (c) => c.notNull())
    .addColumn('body', 'blob', (c) => c.notNull())
    .addPrimaryKeyConstraint('own_renderings_key', [
      'lake_id',
      'local_date',
      'edition',
      'units',
      'form',
      'own',
    ])
    .execute();
}

/** A new record has the columns from its description already. */
export async function ownViewsOnPostgres(db: Kysely<unknown>): Promise<void> {
  for (const column of COLUMNS)
    await sql.raw(`alter table readers add column if not exists ${column} text collate "C"`).execute(db);
  await makeTables(db, 7);
}
