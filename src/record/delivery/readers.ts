/** Readers as rows. What a state means and who may change it is decided in delivery/. */
import { sql, type Kysely } from 'kysely';
import { truncateLog } from '../dialect/index.ts';
import type { Edition, GoneState, ReaderOrigin, ReaderState, ReadersTable } from '../schema/delivery.ts';
import { eraseOutingsOf } from '../readings/outings.ts';
import type { Database } from '../schema/index.ts';
import { writing } from '../writing.ts';
import { keepAway } from './away.ts';

export type DeliveryDb = Kysely<Database>;
/** The part of the record that delivery and schedule work with. */
export interface DeliveryRecord {
  /** For the files of src/record only; the style check refuses it elsewhere. */
  readonly db: DeliveryDb;
}

/** Work that happens wholly or not at all; inside a step it joins that one. */
export const inOneStep = <T>(
  { db }: DeliveryRecord,
  work: (record: DeliveryRecord) => Promise<T>,
): Promise<T> => writing(db, (tx) => work({ db: tx }));
export type ReaderRow = ReadersTable;
const GONE: readonly GoneState[] = ['left', 'bounced', 'complained'];
export interface ReaderWithLakes extends ReaderRow {
  readonly lakes: readonly string[];
}

export async function insertReader(
  { db }: DeliveryRecord,
  row: ReaderRow,
  lakes: readonly string[],
): Promise<void> {
  await writing(db, async (tx) => {
    await tx.insertInto('readers').values(row).execute();
    await putLakes(tx, row.id, lakes);
  });
}

export async function updateReader(
  { db }: DeliveryRecord,
  id: string,
  change: Partial<Omit<ReaderRow, 'id'>>,
  lakes?: readonly string[],
): Promise<void> {
  await writing(db, async (tx) => {
    if (Object.keys(change).length > 0) {
      await tx.updateTable('readers').set(change).where('id', '=', id).execute();
    }
    if (lakes === undefined) return;
    await tx.deleteFrom('reader_lakes').where('reader_id', '=', id).execute();
    await putLakes(tx, id, lakes);
  });
}

async function putLakes(tx: DeliveryDb, id: string, lakes: readonly string[]): Promise<void> {
  const rows = [...new Set(lakes)].map((lake_id) => ({ reader_id: id, lake_id }));
  if (rows.length > 0) await tx.insertInto('reader_lakes').values(rows).execute();
}

export async function readerByAddress(
  { db }: DeliveryRecord,
  address: string,
): Promise<ReaderWithLakes | undefined> {
  const row = await db.selectFrom('readers').selectAll().where('address', '=', address).executeTakeFirst();
  return row && withLakes(db, row);
}

export async function readerById({ db }: DeliveryRecord, id: string): Promise<ReaderWithLakes | undefined> {
  const row = await db.selectFrom('readers').selectAll().where('id', '=', id).executeTakeFirst();
  return row && withLakes(db, row);
}

async function withLakes(db: DeliveryDb, row: ReaderRow): Promise<ReaderWithLakes> {
  const lakes = await db
    .selectFrom('reader_lakes')
    .select('lake_id')
    .where('reader_id', '=', row.id)
    .orderBy('lake_id')
    .execute();
  return { ...row, lakes: lakes.map((l) => l.lake_id) };
}

/** The lakes of some readers, by reader, each in order. */
export async function lakesOfReaders(
  { db }: DeliveryRecord,
  ids: readonly string[],
): Promise<Map<string, readonly string[]>> {
  const found = new Map<string, string[]>();
  if (ids.length === 0) return found;
  const rows = await db
    .selectFrom('reader_lakes')
    .select(['reader_id', 'lake_id'])
    .where('reader_id', 'in', [...new Set(ids)])
    .orderBy('lake_id')
    .execute();
  for (const { reader_id, lake_id } of rows) found.set(reader_id, [...(found.get(reader_id) ?? []), lake_id]);
  return found;
}

/** Readers in order of id, a page at a time, so that a large list is never held in memory. */
export async function* allReaders(
  { db }: DeliveryRecord,
  filter: { state?: ReaderState; lake?: string; origin?: ReaderOrigin } = {},
  pageSize = 1000,
): AsyncGenerator<ReaderWithLakes> {
  let after = '';
  for (;;) {
    let query = db.selectFrom('readers').selectAll('readers').where('readers.id', '>', after);
    if (filter.state !== undefined) query = query.where('readers.state', '=', filter.state);
    if (filter.origin !== undefined) query = query.where('readers.origin', '=', filter.origin);
    if (filter.lake !== undefined) {
      const lake = filter.lake;
      query = query.where('readers.id', 'in', (q) =>
        q.selectFrom('reader_lakes').select('reader_id').where('lake_id', '=', lake),
      );
    }
    const page = await query.orderBy('readers.id').limit(pageSize).execute();
    for (const row of page) yield await withLakes(db, row);
    const last = page.at(-1);
    if (last === undefined || page.length < pageSize) return;
    after = last.id;
  }
}

/**
 * Removes the reader and everything that points at them, also what is still waiting to be sent, and what the file's log
 * still holds of them.
 */
export async function eraseReader({ db }: DeliveryRecord, id: string): Promise<void> {
  await eraseRows(db, id);
  await truncateLog(db);
}

async function eraseRows(db: DeliveryDb, id: string): Promise<void> {
  await writing(db, async (tx) => {
    await eraseOutingsOf(tx, id);
    await tx.deleteFrom('outbox').where('reader_id', '=', id).execute();
    await tx.deleteFrom('bounces').where('reader_id', '=', id).execute();
    await tx.deleteFrom('reader_lakes').where('reader_id', '=', id).execute();
    await tx.deleteFrom('readers').where('id', '=', id).execute();
  });
}

/** Notes one bounce or complaint; a second report of the same kind on the same day changes nothing. */
export async function noteBounce(
  { db }: DeliveryRecord,
  bounce: {
    reader_id: string;
    kind: 'hard' | 'soft' | 'complaint';
    utc_date: string;
    at_ms: number;
  },
): Promise<void> {
  await writing(db, (tx) =>
    tx
      .insertInto('bounces')
      .values(bounce)
      .onConflict((c) => c.doNothing())
      .execute(),
  );
}

/** Days with a bounce of the kind since the instant. */
export async function bounceDays(
  { db }: DeliveryRecord,
  readerId: string,
  kind: 'hard' | 'soft',
  sinceMs: number,
): Promise<number> {
  const row = await db
    .selectFrom('bounces')
    .select((e) => e.fn.countAll<number>().as('n'))
    .where('reader_id', '=', readerId)
    .where('kind', '=', kind)
    .where('at_ms', '>=', sinceMs)
    .executeTakeFirstOrThrow();
  return row.n;
}

export async function countPendingSince({ db }: DeliveryRecord, sinceMs: number): Promise<number> {
  const row = await db
    .selectFrom('readers')
    .select((e) => e.fn.countAll<number>().as('n'))
    .where('state', '=', 'pending')
    .where('created_ms', '>=', sinceMs)
    .executeTakeFirstOrThrow();
  return row.n;
}

/** Erases those who never confirmed. Who had left before somebody asked for them has left again, since then. */
export async function erasePendingBefore({ db }: DeliveryRecord, beforeMs: number): Promise<number> {
  await writing(db, (tx) =>
    tx
      .updateTable('readers')
      .set((e) => ({ state: sql<ReaderState>`${e.ref('gone_state')}`, gone_state: null }))
      .where('state', '=', 'pending')
      .where('created_ms', '<', beforeMs)
      .where('gone_state', 'is not', null)
      .execute(),
  );
  const rows = await db
    .selectFrom('readers')
    .select('id')
    .where('state', '=', 'pending')
    .where('created_ms', '<', beforeMs)
    .execute();
  for (const { id } of rows) await eraseRows(db, id);
  if (rows.length > 0) await truncateLog(db);
  return rows.length;
}

/** Erases those who left, or whose address failed, before an instant; that they did stays known. */
export async function eraseLeftBefore({ db }: DeliveryRecord, beforeMs: number): Promise<number> {
  const rows = await db
    .selectFrom('readers')
    .select(['id', 'address', 'state', 'left_ms'])
    .where('state', 'in', GONE)
    .where('left_ms', '<', beforeMs)
    .execute();
  for (const { id, address, state, left_ms } of rows)
    await writing(db, async (tx) => {
      const said = GONE.find((one) => one === state);
      if (said !== undefined) await keepAway({ db: tx }, address, { said, atMs: left_ms ?? beforeMs });
      await eraseRows(tx, id);
    });
  if (rows.length > 0) await truncateLog(db);
  return rows.length;
}

/** Active readers of a lake who want this edition on this weekday, by id: at most `limit` after the id `after`. */
export function readersWanting(
  { db }: DeliveryRecord,
  issue: {
    readonly lakeId: string;
    readonly edition: Edition;
    /** 1 Monday to 7 Sunday. */ readonly weekday: number;
  },
  after: string,
  limit: number,
): Promise<{ id: string; earliest_hour: number }[]> {
  let query = db
    .selectFrom('reader_lakes')
    .innerJoin('readers', 'readers.id', 'reader_lakes.reader_id')
    .select(['readers.id as id', 'readers.earliest_hour as earliest_hour'])
    .where('reader_lakes.lake_id', '=', issue.lakeId)
    .where('reader_lakes.reader_id', '>', after)
    .where('readers.state', '=', 'active')
    .where(sql<boolean>`(readers.days_mask & ${sql.lit(1 << (issue.weekday - 1))}) != 0`);
  if (issue.edition === 'amendment') query = query.where('readers.amendments', '=', 1);
  return query.orderBy('reader_lakes.reader_id').limit(limit).execute();
}

/** Active readers of a lake. */
export async function countReaders({ db }: DeliveryRecord, lakeId: string): Promise<number> {
  const row = await db
    .selectFrom('reader_lakes')
    .innerJoin('readers', 'readers.id', 'reader_lakes.reader_id')
    .select((e) => e.fn.countAll<number>().as('n'))
    .where('reader_lakes.lake_id', '=', lakeId)
    .where('readers.state', '=', 'active')
    .executeTakeFirstOrThrow();
  return row.n;
}
