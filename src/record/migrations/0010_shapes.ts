import type { Kysely } from 'kysely';

/** What was computed from outlines: a fresh process takes it from here, since reading one anew costs a morning its time. */
export async function shapes(db: Kysely<unknown>): Promise<void> {
  await db.schema
    .createTable('kept_shape')
    .addColumn('lake', 'text', (c) => c.notNull())
    .addColumn('part', 'text', (c) => c.notNull())
    .addColumn('key', 'text', (c) => c.notNull())
    .addColumn('body_json', 'text', (c) => c.notNull())
    .addPrimaryKeyConstraint('kept_shape_key', ['lake', 'part'])
    .execute();
}
