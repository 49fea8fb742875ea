import { Kysely, sql } from 'kysely';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { RecordStore } from '../../src/record/index.ts';
import { isPostgres } from '../../src/record/dialect/index.ts';
import { TABLES, type TableDescription } from '../../src/record/schema/description.ts';
import type { Database } from '../../src/record/schema/index.ts';
import { freshRecord } from '../helpers/record.ts';

let record: RecordStore;
beforeAll(async () => {
  record = await freshRecord();
});
afterAll(() => record.close());

/** What the database itself says a column holds, in the words of the description. */
const KIND: Readonly<Record<string, string>> = {
  bigint: 'whole',
  int8: 'whole',
  integer: 'whole',
  int2: 'whole',
  'double precision': 'real',
  float8: 'real',
  text: 'text',
  blob: 'bytes',
  bytea: 'bytes',
};

/** Columns of a unique index or key, each as one text, sorted. */
async function uniqueOf(db: Kysely<Database>, table: string): Promise<string[]> {
  const { rows } = isPostgres(db)
    ? await sql<{ name: string; columns: string }>`
        select i.relname as name, string_agg(a.attname, ',' order by k.n) as columns
        from pg_index x join pg_class i on i.oid = x.indexrelid join pg_class t on t.oid = x.indrelid
          join pg_namespace s on s.oid = t.relnamespace
          cross join lateral unnest(x.indkey) with ordinality k(attnum, n)
          join pg_attribute a on a.attrelid = t.oid and a.attnum = k.attnum
        where t.relname = ${table} and s.nspname = current_schema() and x.indisunique group by i.relname`.execute(
        db,
      )
    : await sql<{ name: string; columns: string }>`
        select l.name, (select group_concat(i.name) from (select name from pragma_index_info(l.name) order by seqno) i) as columns
        from pragma_index_list(${sql.lit(table)}) l where l."unique" = 1`.execute(db);
  return rows.map(({ columns }) => columns);
}

/** Names of the other indexes with their columns. */
async function indexesOf(db: Kysely<Database>, table: string): Promise<Record<string, string>> {
  const { rows } = isPostgres(db)
    ? await sql<{ name: string; columns: string }>`
        select i.relname as name, string_agg(a.attname, ',' order by k.n) as columns
        from pg_index x join pg_class i on i.oid = x.indexrelid join pg_class t on t.oid = x.indrelid
          join pg_namespace s on s.oid = t.relnamespace
          cross join lateral unnest(x.indkey) with ordinality k(attnum, n)
          join pg_attribute a on a.attrelid = t.oid and a.attnum = k.attnum
        where t.relname = ${table} and s.nspname = current_schema() and not x.indisunique group by i.relname`.execute(
        db,
      )
    : await sql<{ name: string; columns: string }>`
        select l.name, (select group_concat(i.name) from (select name from pragma_index_info(l.name) order by seqno) i) as columns
        from pragma_index_list(${sql.lit(table)}) l where l."unique" = 0`.execute(db);
  return Object.fromEntries(rows.map(({ name, columns }) => [name, columns]));
}

/** What only many processes need is in no file. */
const here = (): [string, TableDescription][] =>
  Object.entries(TABLES).filter(([, { shared }]) => shared !== true || isPostgres(record.db));

describe('the tables that the steps of the schema have made', () => {
  it('are those of the description, column by column, in whichever database', async () => {
    const found = await record.db.introspection.getTables();
    const tables = Object.fromEntries(
      found
        // Months of observations are parts of a table, not tables.
        .filter(({ name }) => name !== 'record_version' && !/^observation_y\d/.test(name))
        .map(({ name, columns }) => [
          name,
          Object.fromEntries(
            columns.map(({ name: column, dataType, isNullable }) => [
              column,
              `${KIND[dataType.toLowerCase()] ?? dataType}${isNullable ? '?' : ''}`,
            ]),
          ),
        ]),
    );
    const described = Object.fromEntries(
      here().map(([name, { columns, key }]) => [
        name,
        Object.fromEntries(
          Object.entries(columns).map(([column, kind]) => [column, kind.replace(/^(id|flag)/, 'whole')]),
        ),
        key,
      ]),
    );
    // SQLite lets the one number that it gives itself be null on paper.
    for (const table of Object.values(tables)) if (table['id'] === 'whole?') table['id'] = 'whole';
    for (const [name, table] of Object.entries(tables))
      for (const column of TABLES[name]?.key ?? [])
        if (!isPostgres(record.db)) table[column] = table[column]?.replace('?', '') ?? '';
    expect(tables).toEqual(described);
  });

  it('keep the same things unique and have the same indexes', async () => {
    for (const [name, { key, unique = [], indexes = {} }] of here()) {
      const isOwnNumber = key.length === 1 && TABLES[name]?.columns[key[0] ?? ''] === 'id';
      const wanted = [...(isOwnNumber && !isPostgres(record.db) ? [] : [key]), ...unique];
      expect((await uniqueOf(record.db, name)).sort(), name).toEqual(wanted.map((on) => on.join(',')).sort());
      expect(await indexesOf(record.db, name), name).toEqual(
        Object.fromEntries(Object.entries(indexes).map(([index, { on }]) => [index, on.join(',')])),
      );
    }
  });
});
