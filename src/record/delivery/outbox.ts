/** The outbox: one row per (lake, local date, edition, reader), claimed in one statement, held under a lease. */
import { CompiledQuery, sql, type RawBuilder, type Selectable } from 'kysely';
import type { Language } from '../../vocabulary/index.ts';
import { domainOf, isPostgres, withValues } from '../dialect/index.ts';
import type { DeliveryRecord } from './readers.ts';
import type { OutboxKind, OutboxTable } from '../schema/delivery.ts';
import { writing } from '../writing.ts';

export type OutboxRow = Selectable<OutboxTable>;
/** A claimed row with what is needed to write the envelope. */
export interface ClaimedRow extends OutboxRow {
  readonly address: string;
  readonly units: 'us' | 'metric';
  readonly form: 'full' | 'short';
  readonly language: Language | null;
  readonly fishing: string | null;
  readonly asks_reading: number | null;
  readonly token_epoch: number;
  readonly reader_state: string;
}

export interface OutboxEntry {
  readonly lakeId: string;
  readonly localDate: string;
  readonly edition: OutboxKind;
  readonly readerId: string;
  readonly notBeforeMs: number;
  readonly expiresMs: number;
}

/** Adds rows; those that exist already stay as they are. Returns how many were new. */
export async function addToOutbox(
  { db }: DeliveryRecord,
  entries: readonly OutboxEntry[],
  nowMs: number,
): Promise<number> {
  let added = 0;
  // SQLite allows 32,766 bound values a statement; 500 rows of 9 stay well below.
  for (let i = 0; i < entries.length; i += 500) {
    const result = await writing(db, (tx) =>
      tx
        .insertInto('outbox')
        .values(
          entries.slice(i, i + 500).map((e) => ({
            lake_id: e.lakeId,
            local_date: e.localDate,
            edition: e.edition,
            reader_id: e.readerId,
            state: 'pending' as const,
            attempts: 0,
            next_attempt_ms: e.notBeforeMs,
            expires_ms: e.expiresMs,
            created_ms: nowMs,
          })),
        )
        .onConflict((c) => c.columns(['lake_id', 'local_date', 'edition', 'reader_id']).doNothing())
        .executeTakeFirst(),
    );
    added += Number(result.numInsertedOrUpdatedRows ?? 0n);
  }
  return added;
}

interface Claim {
  readonly owner: string;
  readonly nowMs: number;
  readonly leaseMs: number;
  readonly limit: number;
}

/** SQLite has one writer at a time: whoever claims is alone. */
const claimAlone = ({ owner, nowMs, leaseMs, limit }: Claim): RawBuilder<OutboxRow> => sql<OutboxRow>`
  update outbox set state = 'sending', attempts = attempts + 1,
    lease_owner = ${owner}, lease_until_ms = ${nowMs + leaseMs}
  where id in (
    select id from (
      select id, lease_until_ms as at_ms from outbox
        where state = 'sending' and lease_until_ms <= ${nowMs} and expires_ms > ${nowMs}
      union all
      select * from (
        select id, next_attempt_ms as at_ms from outbox
          where state = 'pending' and next_attempt_ms <= ${nowMs} and expires_ms > ${nowMs}
          order by next_attempt_ms, id limit ${limit}
      )
    ) order by at_ms, id limit ${limit}
  )
  returning *`;

/** On a server others claim at the same moment: rows that somebody has in hand are passed over, not waited for. */
const claimBeside = ({ owner, nowMs, leaseMs, limit }: Claim): RawBuilder<OutboxRow> => sql<OutboxRow>`
  with late as materialized (
    select id, lease_until_ms as at_ms from outbox
    where state = 'sending' and lease_until_ms <= ${nowMs} and expires_ms > ${nowMs}
    order by lease_until_ms, id limit ${limit} for update skip locked
  ), due as materialized (
    select id, next_attempt_ms as at_ms from outbox
    where state = 'pending' and next_attempt_ms <= ${nowMs} and expires_ms > ${nowMs}
    order by next_attempt_ms, id limit ${limit} for update skip locked
  ), chosen as (
    select id from (select * from late union all select * from due) as either order by at_ms, id limit ${limit}
  )
  update outbox set state = 'sending', attempts = attempts + 1,
    lease_owner = ${owner}, lease_until_ms = ${nowMs + leaseMs}
  where id in (select id from chosen)
  returning *`;

/**
 * Claims up to `limit` rows that are due, or whose lease ran out, in one statement, so that two workers
 * never hold the same row.
 */
export async function claimOutbox({ db }: DeliveryRecord, claim: Claim): Promise<ClaimedRow[]> {
  const { rows } = await writing(db, (tx) =>
    (isPostgres(tx) ? claimBeside(claim) : claimAlone(claim)).execute(tx),
  );
  if (rows.length === 0) return [];
  const readers = await db
    .selectFrom('readers')
    .select([
      'id',
      'address',
      'units',
      'form',
      'language',
      'fishing',
      'asks_reading',
      'token_epoch',
      'state as reader_state',
    ])
    .where('id', 'in', [...new Set(rows.map((r) => r.reader_id))])
    .execute();
  const byId = new Map(readers.map(({ id, ...rest }) => [id, rest]));
  const gone = {
    address: '',
    units: 'us',
    form: 'full',
    language: null,
    fishing: null,
    asks_reading: null,
    token_epoch: 0,
    reader_state: 'erased',
  } as const;
  return rows.map((row) => ({ ...row, ...(byId.get(row.reader_id) ?? gone) }));
}

const FINISH =
  'update outbox set state = ?, finished_ms = ?, smtp_code = ?, problem = ?, lease_owner = null, lease_until_ms = null where id = ? and lease_owner = ? and attempts = ?';

/** A row as it was claimed: the number of its attempt tells a late word from the present holder's. */
export type Claimed = Pick<OutboxRow, 'id' | 'attempts'>;

/** Ends a claim. Does nothing when the lease has passed to somebody else meanwhile, or to a later claim of the same owner. */
export async function finishOutbox(
  { db }: DeliveryRecord,
  { id, attempts }: Claimed,
  owner: string,
  end: { state: 'sent' | 'failed' | 'dropped'; nowMs: number; smtpCode?: number; problem?: string },
): Promise<void> {
  // Written out: it runs once a mail, and putting the statement together anew would take longer than running it.
  const values = [end.state, end.nowMs, end.smtpCode ?? null, end.problem ?? null, id, owner, attempts];
  await writing(db, (tx) => tx.executeQuery(CompiledQuery.raw(withValues(tx, FINISH), values)));
}

/** Puts a claimed row back for a later attempt; `counted: false` when no attempt was made. */
export async function postponeOutbox(
  { db }: DeliveryRecord,
  { id, attempts }: Claimed,
  owner: string,
  next: { atMs: number; counted: boolean; smtpCode?: number; problem?: string },
): Promise<void> {
  await writing(db, (tx) =>
    tx
      .updateTable('outbox')
      .set((e) => ({
        state: 'pending' as const,
        next_attempt_ms: next.atMs,
        attempts: next.counted ? e.ref('attempts') : e('attempts', '-', 1),
        smtp_code: next.smtpCode ?? null,
        problem: next.problem ?? null,
        lease_owner: null,
        lease_until_ms: null,
      }))
      .where('id', '=', id)
      .where('lease_owner', '=', owner)
      .where('attempts', '=', attempts)
      .execute(),
  );
}

/** Hands back every row the owner holds, at once, with its place in the queue; used by SIGTERM and by whoever finds the owner dead. */
export async function handBackOutbox({ db }: DeliveryRecord, owner: string): Promise<number> {
  const result = await writing(db, (tx) =>
    tx
      .updateTable('outbox')
      .set({ state: 'pending', lease_owner: null, lease_until_ms: null })
      .where('state', '=', 'sending')
      .where('lease_owner', '=', owner)
      .executeTakeFirst(),
  );
  return Number(result.numUpdatedRows);
}

/** Drops what has become stale; returns how many rows that were. */
export async function dropStale({ db }: DeliveryRecord, nowMs: number): Promise<number> {
  const result = await writing(db, (tx) =>
    tx
      .updateTable('outbox')
      .set({
        state: 'dropped',
        finished_ms: nowMs,
        problem: 'Not sent within its grace window.',
        lease_owner: null,
        lease_until_ms: null,
      })
      .where('expires_ms', '<=', nowMs)
      .where((e) =>
        e.or([
          e('state', '=', 'pending'),
          e.and([e('state', '=', 'sending'), e('lease_until_ms', '<=', nowMs)]),
        ]),
      )
      .executeTakeFirst(),
  );
  return Number(result.numUpdatedRows);
}

/** Rows by lake, edition and state for one lake and date or all. */
export async function countOutbox(
  { db }: DeliveryRecord,
  filter: { lakeId?: string; localDate?: string } = {},
): Promise<Record<OutboxRow['state'], number>> {
  let query = db
    .selectFrom('outbox')
    .select(['state', (e) => e.fn.countAll<number>().as('n')])
    .groupBy('state');
  if (filter.lakeId !== undefined) query = query.where('lake_id', '=', filter.lakeId);
  if (filter.localDate !== undefined) query = query.where('local_date', '=', filter.localDate);
  const counts = { pending: 0, sending: 0, sent: 0, failed: 0, dropped: 0 };
  for (const row of await query.execute()) counts[row.state] = row.n;
  return counts;
}

/** Why the mail of a lake and date that was tried last still waits; null where none was refused. */
export async function waitsBecause(
  { db }: DeliveryRecord,
  { lakeId, localDate }: { readonly lakeId: string; readonly localDate: string },
): Promise<string | null> {
  const row = await db
    .selectFrom('outbox')
    .select('problem')
    .where('lake_id', '=', lakeId)
    .where('local_date', '=', localDate)
    .where('state', 'in', ['pending', 'sending'])
    .where('problem', 'is not', null)
    .orderBy('attempts', 'desc')
    .orderBy('id', 'desc')
    .limit(1)
    .executeTakeFirst();
  return row?.problem ?? null;
}

/** What has not reached its readers yet, by why. */
export interface Undelivered {
  /** Would be sent, but something keeps it: a refusal for now, a limit, a pause. */
  readonly waiting: number;
  /** Waits for the hour its reader chose. */
  readonly later: number;
  /** Under the lease of a sender, living or dead. */
  readonly held: number;
}

/** Rows that are not over yet, of one lake and date or of all. */
export async function undelivered(
  { db }: DeliveryRecord,
  nowMs: number,
  filter: { lakeId?: string; localDate?: string } = {},
): Promise<Undelivered> {
  let query = db
    .selectFrom('outbox')
    .select((e) => [
      'state',
      sql<number>`case when problem is null then 0 else 1 end`.as('kept_back'),
      sql<number>`case when next_attempt_ms <= ${sql.lit(nowMs)} then 1 else 0 end`.as('due'),
      e.fn.countAll<number>().as('n'),
    ])
    .where('state', 'in', ['pending', 'sending'])
    .groupBy(['state', 'kept_back', 'due']);
  if (filter.lakeId !== undefined) query = query.where('lake_id', '=', filter.lakeId);
  if (filter.localDate !== undefined) query = query.where('local_date', '=', filter.localDate);
  const left = { waiting: 0, later: 0, held: 0 };
  for (const { state, kept_back, due, n } of await query.execute()) {
    if (state === 'sending') left.held += n;
    else if (kept_back === 1 || due === 1) left.waiting += n;
    else left.later += n;
  }
  return left;
}

/** More mails than can leave within any window that is counted. */
const NEWEST_ROWS = 50_000;

/** Receiving domain and instant of what was sent in (fromMs, toMs], oldest first. */
export async function sentSince(
  { db }: DeliveryRecord,
  fromMs: number,
  toMs: number,
): Promise<{ domain: string; atMs: number }[]> {
  return (
    db
      .selectFrom('outbox')
      .innerJoin('readers', 'readers.id', 'outbox.reader_id')
      .select([domainOf(db, 'readers.address').as('domain'), sql<number>`outbox.finished_ms`.as('atMs')])
      // The newest rows only: no window of a minute holds more, and the table has no index by time.
      .where('outbox.id', '>', (e) =>
        e
          .selectFrom('outbox as newest')
          .select(sql<number>`coalesce(max(newest.id), 0) - ${NEWEST_ROWS}`.as('id')),
      )
      .where('outbox.state', '=', 'sent')
      .where('outbox.finished_ms', '>', fromMs)
      .where('outbox.finished_ms', '<=', toMs)
      .orderBy('outbox.finished_ms')
      .execute()
  );
}

/** Who holds leases at the moment. */
export async function leaseHolders({ db }: DeliveryRecord): Promise<string[]> {
  const rows = await db
    .selectFrom('outbox')
    .select('lease_owner')
    .distinct()
    .where('state', '=', 'sending')
    .execute();
  return rows.flatMap(({ lease_owner }) => (lease_owner === null ? [] : [lease_owner]));
}

/** Permanent failures and drops, newest first, for the operator: reader ids, never addresses. */
export async function recentFailures({ db }: DeliveryRecord, limit: number): Promise<OutboxRow[]> {
  return db
    .selectFrom('outbox')
    .selectAll()
    .where('state', 'in', ['failed', 'dropped'])
    .orderBy('finished_ms', 'desc')
    .limit(limit)
    .execute();
}

export const mailOf = ({ db }: DeliveryRecord, id: number): Promise<OutboxRow | undefined> =>
  db.selectFrom('outbox').selectAll().where('id', '=', id).executeTakeFirst();

/** Puts a mail that was given up back among those that are due; false when it is none of them. */
export async function retryMail(
  { db }: DeliveryRecord,
  id: number,
  { nowMs, expiresMs }: { readonly nowMs: number; readonly expiresMs: number },
): Promise<boolean> {
  const { numUpdatedRows } = await writing(db, (tx) =>
    tx
      .updateTable('outbox')
      .set({
        state: 'pending',
        next_attempt_ms: nowMs,
        expires_ms: expiresMs,
        finished_ms: null,
        smtp_code: null,
        problem: null,
      })
      .where('id', '=', id)
      .where('state', 'in', ['failed', 'dropped'])
      .executeTakeFirst(),
  );
  return numUpdatedRows > 0n;
}

/** Mails that are due now, and since when the oldest of them is. */
export async function dueMails(
  { db }: DeliveryRecord,
  nowMs: number,
): Promise<{ readonly due: number; readonly oldestDueMs: number | null }> {
  const row = await db
    .selectFrom('outbox')
    .select((e) => [e.fn.countAll<number>().as('n'), e.fn.min('next_attempt_ms').as('oldest')])
    .where('state', '=', 'pending')
    .where('next_attempt_ms', '<=', nowMs)
    .executeTakeFirstOrThrow();
  return { due: row.n, oldestDueMs: row.oldest };
}
