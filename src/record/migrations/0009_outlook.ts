import type { Kysely } from 'kysely';
import { makeTables } from '../dialect/postgres/tables.ts';
import { outlookOf } from '../schedule/outlook.ts';
import type { Database } from '../schema/index.ts';

/** Issues that are read at once: their documents are large. */
const PAGE = 50;

/**
 * The water of the days ahead as issues had it, in a table of its own, so that a morning can look back on a season of
 * issues without reading their documents. What was issued before is put into it.
 */
export async function outlook(db: Kysely<unknown>): Promise<void> {
  await db.schema
    .createTable('outlook')
    .addColumn('lake_id', 'text', (c) => c.notNull())
    .addColumn('local_date', 'text', (c) => c.notNull())
    .addColumn('lead_days', 'integer', (c) => c.notNull())
    .addColumn('issued_ms', 'integer', (c) => c.notNull())
    .addColumn('water_c', 'double precision', (c) => c.notNull())
    .addColumn('half_c', 'double precision', (c) => c.notNull())
    .addPrimaryKeyConstraint('outlook_key', ['lake_id', 'local_date', 'lead_days'])
    .execute();
  await fromDocuments(db);
}

export async function outlookOnPostgres(db: Kysely<unknown>): Promise<void> {
  await makeTables(db, 9);
  await fromDocuments(db);
}

async function fromDocuments(untyped: Kysely<unknown>): Promise<void> {
  const db = untyped.withTables<Pick<Database, 'briefings' | 'outlook'>>();
  for (let offset = 0; ; offset += PAGE) {
    const page = await db
      .selectFrom('briefings')
      .select(['lake_id', 'local_date', 'issued_ms', 'document_json'])
      .where('edition', '=', 'morning')
      .orderBy('lake_id')
      .orderBy('local_date')
      .limit(PAGE)
      .offset(offset)
      .execute();
    const rows = page.flatMap(({ lake_id, local_date, issued_ms, document_json }) =>
      outlookOf(document_json).map((day) => ({ lake_id, local_date, issued_ms, ...day })),
    );
    if (rows.length > 0) await db.insertInto('outlook').values(rows).execute();
    if (page.length < PAGE) return;
  }
}
