import { sql, type Kysely } from 'kysely';

/** Rows lie in key order on disk, so a span of one series is one contiguous read however old the file is. */
const IN_KEY_ORDER = sql`without rowid`;

/** Series, values, forecasts by issue, readings, alerts, floods, retrieval log, validators. */
export async function observations(db: Kysely<unknown>): Promise<void> {
  const { schema } = db;
  await schema
    .createTable('series')
    .addColumn('id', 'integer', (c) => c.primaryKey())
    .addColumn('lake', 'text', (c) => c.notNull())
    .addColumn('variable', 'text', (c) => c.notNull())
    .addColumn('source', 'text', (c) => c.notNull())
    .addColumn('station', 'text', (c) => c.notNull())
    .addColumn('kind', 'text', (c) => c.notNull())
    .addColumn('period_s', 'integer', (c) => c.notNull())
    .addColumn('datum', 'text', (c) => c.notNull())
    .addUniqueConstraint('series_key', ['lake', 'variable', 'source', 'station', 'kind', 'period_s', 'datum'])
    .execute();
  await schema
    .createTable('observation')
    .addColumn('series_id', 'integer', (c) => c.notNull().references('series.id').onDelete('cascade'))
    .addColumn('at_ms', 'bigint', (c) => c.notNull())
    .addColumn('value', 'double precision', (c) => c.notNull())
    .addColumn('provisional', 'integer')
    .addColumn('qualifiers', 'text')
    .addColumn('doubt', 'text')
    .addPrimaryKeyConstraint('observation_key', ['series_id', 'at_ms'])
    .modifyEnd(IN_KEY_ORDER)
    .execute();
  await schema
    .createTable('forecast')
    .addColumn('series_id', 'integer', (c) => c.notNull().references('series.id').onDelete('cascade'))
    .addColumn('issued_ms', 'bigint', (c) => c.notNull())
    .addColumn('at_ms', 'bigint', (c) => c.notNull())
    .addColumn('value', 'double precision', (c) => c.notNull())
    .addPrimaryKeyConstraint('forecast_key', ['series_id', 'issued_ms', 'at_ms'])
    .modifyEnd(IN_KEY_ORDER)
    .execute();
  await schema
    .createTable('reading')
    .addColumn('id', 'text', (c) => c.primaryKey())
    .addColumn('lake', 'text', (c) => c.notNull())
    .addColumn('at_ms', 'bigint', (c) => c.notNull())
    .addColumn('water_c', 'double precision')
    .addColumn('clarity_m', 'double precision')
    .addColumn('depth_m', 'double precision', (c) => c.notNull())
    .addColumn('sd_c', 'double precision', (c) => c.notNull())
    .addColumn('place', 'text', (c) => c.notNull())
    .addColumn('pocket', 'text')
    .execute();
  await schema.createIndex('reading_by_time').on('reading').columns(['lake', 'at_ms']).execute();
  await schema
    .createTable('alert_check')
    .addColumn('lake', 'text', (c) => c.notNull())
    .addColumn('checked_ms', 'bigint', (c) => c.notNull())
    .addPrimaryKeyConstraint('alert_check_key', ['lake', 'checked_ms'])
    .modifyEnd(IN_KEY_ORDER)
    .execute();
  await schema
    .createTable('alert')
    .addColumn('lake', 'text', (c) => c.notNull())
    .addColumn('id', 'text', (c) => c.notNull())
    .addColumn('first_seen_ms', 'bigint', (c) => c.notNull())
    .addColumn('last_seen_ms', 'bigint', (c) => c.notNull())
    .addColumn('issuer', 'text', (c) => c.notNull())
    .addColumn('event', 'text', (c) => c.notNull())
    .addColumn('severity', 'text', (c) => c.notNull())
    .addColumn('headline', 'text', (c) => c.notNull())
    .addColumn('description', 'text', (c) => c.notNull())
    .addColumn('instruction', 'text', (c) => c.notNull())
    .addColumn('onset_ms', 'bigint')
    .addColumn('ends_ms', 'bigint')
    .addColumn('expires_ms', 'bigint')
    .addColumn('url', 'text')
    .addPrimaryKeyConstraint('alert_key', ['lake', 'id'])
    .execute();
  await schema.createIndex('alert_by_time').on('alert').columns(['lake', 'last_seen_ms']).execute();
  await schema
    .createTable('flood')
    .addColumn('lake', 'text', (c) => c.notNull())
    .addColumn('station', 'text', (c) => c.notNull())
    .addColumn('at_ms', 'bigint', (c) => c.notNull())
    .addColumn('observed', 'text', (c) => c.notNull())
    .addColumn('forecast', 'text', (c) => c.notNull())
    .addColumn('thresholds_m', 'text', (c) => c.notNull())
    .addPrimaryKeyConstraint('flood_key', ['lake', 'station', 'at_ms'])
    .modifyEnd(IN_KEY_ORDER)
    .execute();
  await schema
    .createTable('retrieval')
    .addColumn('id', 'integer', (c) => c.primaryKey())
    .addColumn('lake', 'text', (c) => c.notNull())
    .addColumn('source', 'text', (c) => c.notNull())
    .addColumn('at_ms', 'bigint', (c) => c.notNull())
    .addColumn('ok', 'integer', (c) => c.notNull())
    .addColumn('status', 'integer')
    .addColumn('duration_ms', 'double precision', (c) => c.notNull())
    .addColumn('bytes', 'bigint', (c) => c.notNull())
    .addColumn('problem', 'text', (c) => c.notNull())
    .execute();
  await schema.createIndex('retrieval_by_time').on('retrieval').columns(['lake', 'at_ms']).execute();
  await schema
    .createTable('validator')
    .addColumn('url', 'text', (c) => c.primaryKey())
    .addColumn('etag', 'text')
    .addColumn('last_modified', 'text')
    .addColumn('set_ms', 'bigint', (c) => c.notNull())
    .execute();
}
