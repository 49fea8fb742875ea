/** Moves a record from one database to another: page by page in the order of the keys, resumed where it stopped, verified. */
import { createHash } from 'node:crypto';
import { sql, type Kysely } from 'kysely';
import { ThawlineError } from '../units/index.ts';
import { isPostgres, readyMonths } from './dialect/index.ts';
import { TABLES, type TableDescription } from './schema/description.ts';
import type { Database } from './schema/index.ts';
import { writing } from './writing.ts';

type Row = Record<string, unknown>;
type Table = keyof Database;

/** Rows a statement: PostgreSQL takes 65,535 values, the widest table has 21 columns. */
const PAGE = 2000;
/** Who holds what is no longer true elsewhere; it is made anew. */
const LEFT_OUT = new Set(['locks']);
/** Only ever added to, and large: what is there already need not be sent again. */
const ADDED_TO = new Set([
  'observation',
  'forecast',
  'retrieval',
  'briefings',
  'renderings',
  'own_renderings',
]);
/** Row that says that a target is a copy under way. */
const MARK = 'record-copy';

export interface CopiedTable {
  readonly table: string;
  readonly rows: number;
  /** SHA-256 of all rows in the order of their keys, the same on both sides. */
  readonly checksum: string;
}

const nameOf = (table: string): Table => table as Table;

/** Rows with a greater key, in its order. */
async function pageAfter(
  db: Kysely<Database>,
  table: string,
  { key }: TableDescription,
  last: Row | undefined,
): Promise<Row[]> {
  const columns = sql.join(key.map((column) => sql.ref(column)));
  const after =
    last === undefined ? sql`` : sql`where (${columns}) > (${sql.join(key.map((column) => last[column]))})`;
  const { rows } = await sql<Row>`
    select * from ${sql.table(table)} ${after} order by ${columns} limit ${sql.lit(PAGE)}`.execute(db);
  return rows;
}

async function lastOf(
  db: Kysely<Database>,
  table: string,
  { key }: TableDescription,
): Promise<Row | undefined> {
  const columns = sql.join(key.map((column) => sql`${sql.ref(column)} desc`));
  const { rows } = await sql<Row>`select * from ${sql.table(table)} order by ${columns} limit 1`.execute(db);
  return rows[0];
}

async function* pagesOf(
  db: Kysely<Database>,
  table: string,
  description: TableDescription,
  from?: Row,
): AsyncGenerator<Row[]> {
  for (let last = from; ;) {
    const page = await pageAfter(db, table, description, last);
    if (page.length > 0) yield page;
    if (page.length < PAGE) return;
    last = page.at(-1);
  }
}

const plain = (value: unknown): unknown =>
  value instanceof Uint8Array ? Buffer.from(value).toString('base64') : value;

async function checked(
  db: Kysely<Database>,
  table: string,
  description: TableDescription,
): Promise<CopiedTable> {
  const hash = createHash('sha256');
  let rows = 0;
  for await (const page of pagesOf(db, table, description))
    for (const row of page) {
      hash.update(JSON.stringify(Object.keys(description.columns).map((column) => plain(row[column]))));
      rows += 1;
    }
  return { table, rows, checksum: hash.digest('hex') };
}

const empty = (db: Kysely<Database>, table: string): Promise<unknown> =>
  writing(db, (tx) => sql`delete from ${sql.table(table)}`.execute(tx));

async function send(
  from: Kysely<Database>,
  to: Kysely<Database>,
  table: string,
  description: TableDescription,
  last: Row | undefined,
  onRows: (rows: number) => void,
): Promise<void> {
  for await (const page of pagesOf(from, table, description, last)) {
    await writing(to, async (tx) => {
      if (description.byMonthOf !== undefined)
        await readyMonths(
          tx,
          page.map((row) => Number(row[description.byMonthOf ?? ''])),
        );
      await tx.insertInto(nameOf(table)).values(page).execute();
    });
    onRows(page.length);
  }
}

/** The next number that the database gives comes after those that were brought. */
async function settleNumbers(db: Kysely<Database>): Promise<void> {
  if (!isPostgres(db)) return;
  for (const [table, { columns }] of Object.entries(TABLES))
    if (columns['id'] === 'id')
      await sql`select setval(pg_get_serial_sequence(${table}, 'id'), (select coalesce(max(id), 0) + 1 from ${sql.table(table)}), false)`.execute(
        db,
      );
}

/** A target that holds something else is refused; one in which a copy stopped is gone on with. */
async function begin(from: string, to: Kysely<Database>): Promise<void> {
  const mark = await to.selectFrom('locks').select('owner').where('name', '=', MARK).executeTakeFirst();
  if (mark?.owner === from) return;
  const series = await to.selectFrom('series').select('id').limit(1).executeTakeFirst();
  const reader = await to.selectFrom('readers').select('id').limit(1).executeTakeFirst();
  if (mark !== undefined || series !== undefined || reader !== undefined)
    throw new ThawlineError(
      'record',
      'The database that is to take the copy holds another record already: name an empty one. Nothing was changed in it.',
    );
  await writing(to, (tx) =>
    tx.insertInto('locks').values({ name: MARK, owner: from, until_ms: 0 }).execute(),
  );
}

/**
 * Copies everything and compares both sides by counts and checksums. Nobody may write to the record meanwhile; what was
 * stopped goes on where it was.
 *
 * @param name of the record that is copied: the target remembers whose copy it is
 * @throws ThawlineError `record` when the target holds something else, or when a table differs in the end
 */
export async function copyRecord(
  from: { readonly db: Kysely<Database> },
  to: { readonly db: Kysely<Database> },
  name: string,
  onProgress: (table: string, rows: number) => void = () => undefined,
): Promise<CopiedTable[]> {
  await begin(name, to.db);
  const tables = Object.entries(TABLES).filter(
    ([table, { shared }]) => shared !== true && !LEFT_OUT.has(table),
  );
  const goesOn = (table: string): boolean => ADDED_TO.has(table);
  // What others refer to is not taken away under them: rows that refer go first, in the other order.
  for (const [table] of tables.toReversed())
    if (!goesOn(table) && table !== 'series') await empty(to.db, table);
  const copied: CopiedTable[] = [];
  for (const [table, description] of tables) {
    const resumes = goesOn(table) || table === 'series';
    const tell = (rows: number): void => onProgress(table, rows);
    await send(
      from.db,
      to.db,
      table,
      description,
      resumes ? await lastOf(to.db, table, description) : undefined,
      tell,
    );
    const source = await checked(from.db, table, description);
    let target = await checked(to.db, table, description);
    if (target.checksum !== source.checksum && goesOn(table)) {
      // Rows came among those that had been brought: this table from the beginning.
      await empty(to.db, table);
      await send(from.db, to.db, table, description, undefined, tell);
      target = await checked(to.db, table, description);
    }
    if (target.checksum !== source.checksum)
      throw new ThawlineError(
        'record',
        `${table} differs after the copy (${source.rows} rows here, ${target.rows} there): something wrote to the record meanwhile. Stop whatever uses it and run this again.`,
        { retryable: true },
      );
    copied.push(source);
  }
  await settleNumbers(to.db);
  await writing(to.db, (tx) => tx.deleteFrom('locks').where('name', '=', MARK).execute());
  return copied;
}
