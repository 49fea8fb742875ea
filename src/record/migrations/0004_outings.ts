import type { Kysely } from 'kysely';

/**
 * What readers say of a day on the water. It belongs to the reader and goes with them; the reading that an outing brought
 * stands among the lake's readings and is named here, so that it can go too.
 */
export async function outings(db: Kysely<unknown>): Promise<void> {
  const { schema } = db;
  await schema
    .createTable('outing')
    .addColumn('id', 'text', (c) => c.primaryKey().notNull())
    .addColumn('reader_id', 'text', (c) => c.notNull().references('readers.id').onDelete('cascade'))
    .addColumn('lake', 'text', (c) => c.notNull())
    .addColumn('local_date', 'text', (c) => c.notNull())
    .addColumn('from_minute', 'integer')
    .addColumn('to_minute', 'integer')
    .addColumn('hours', 'double precision', (c) => c.notNull())
    .addColumn('places_json', 'text', (c) => c.notNull())
    .addColumn('lures_json', 'text', (c) => c.notNull())
    .addColumn('bites', 'integer')
    .addColumn('fish', 'integer', (c) => c.notNull())
    .addColumn('biggest_m', 'double precision')
    .addColumn('biggest_kg', 'double precision')
    .addColumn('water_c', 'double precision')
    .addColumn('water_depth_m', 'double precision')
    .addColumn('clarity_m', 'double precision')
    .addColumn('reading_id', 'text')
    .addColumn('plan', 'text')
    .addColumn('note', 'text', (c) => c.notNull())
    .addColumn('shared', 'integer', (c) => c.notNull())
    .addColumn('told_ms', 'bigint', (c) => c.notNull())
    .execute();
  await schema.createIndex('outing_by_lake').on('outing').columns(['lake', 'local_date']).execute();
  await schema.createIndex('outing_by_reader').on('outing').columns(['reader_id', 'local_date']).execute();
}
