import type { Kysely } from 'kysely';

/** Hours of release as an operator told them; what was told before stays, with when it was told and when taken back. */
export async function releases(db: Kysely<unknown>): Promise<void> {
  const { schema } = db;
  await schema
    .createTable('told_release')
    .addColumn('id', 'text', (c) => c.notNull())
    .addColumn('known_ms', 'bigint', (c) => c.notNull())
    .addColumn('lake', 'text', (c) => c.notNull())
    .addColumn('from_ms', 'bigint', (c) => c.notNull())
    .addColumn('to_ms', 'bigint', (c) => c.notNull())
    .addColumn('flow_m3s', 'double precision')
    .addColumn('units', 'integer')
    .addColumn('gone', 'integer', (c) => c.notNull())
    .addPrimaryKeyConstraint('told_release_key', ['id', 'known_ms'])
    .execute();
  await schema.createIndex('told_release_by_time').on('told_release').columns(['lake', 'to_ms']).execute();
}
