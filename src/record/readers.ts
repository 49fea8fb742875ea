/** Readers as rows. What a state means and who may change it is decided in delivery/. */
import type { Kysely } from 'kysely';
import { truncateLog } from './dialect/index.ts';
import type { ReaderOrigin, ReaderState, ReadersTable } from './schema/delivery.ts';
import type { Database } from './schema/index.ts';
import { eraseOutingsOf } from './outings.ts';
import { writing } from './writing.ts';

export type DeliveryDb = Kysely<Database>;
/** The part of the record that delivery and schedule work with. */
export interface DeliveryRecord {
  readonly db: DeliveryDb;
}
export type ReaderRow = ReadersTable;
export interface ReaderWithLakes extends ReaderRow {
  readonly lakes: readonly string[];
}

export async function insertReader(db: DeliveryDb, row: ReaderRow, lakes: readonly string[]): Promise<void> {
  await writing(db, async (tx) => {
    await tx.insertInto('readers').values(row).execute();
    await putLakes(tx, row.id, lakes);
  });
}

export async function updateReader(
  db: DeliveryDb,
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

export async function readerByAddress(db: DeliveryDb, address: string): Promise<ReaderWithLakes | undefined> {
  const row = await db.selectFrom('readers').selectAll().where('address', '=', address).executeTakeFirst();
  return row && withLakes(db, row);
}

export async function readerById(db: DeliveryDb, id: string): Promise<ReaderWithLakes | undefined> {
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

/** Readers in order of id, a page at a time, so that a large list is never held in memory. */
export async function* allReaders(
  db: DeliveryDb,
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
export async function eraseReader(db: DeliveryDb, id: string): Promise<void> {
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
  db: DeliveryDb,
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
  db: DeliveryDb,
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

export async function countPendingSince(db: DeliveryDb, sinceMs: number): Promise<number> {
  const row = await db
    .selectFrom('readers')
    .select((e) => e.fn.countAll<number>().as('n'))
    .where('state', '=', 'pending')
    .where('created_ms', '>=', sinceMs)
    .executeTakeFirstOrThrow();
  return row.n;
}

/** Erases those who never confirmed. */
export async function erasePendingBefore(db: DeliveryDb, beforeMs: number): Promise<number> {
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

/** Erases those who left, or whose address failed, before an instant. */
export async function eraseLeftBefore(db: DeliveryDb, beforeMs: number): Promise<number> {
  const rows = await db
    .selectFrom('readers')
    .select('id')
    .where('state', 'in', ['left', 'bounced', 'complained'])
    .where('left_ms', '<', beforeMs)
    .execute();
  for (const { id } of rows) await eraseRows(db, id);
  if (rows.length > 0) await truncateLog(db);
  return rows.length;
}
