/** Processes that work on a record that many share: each says that it is there, and its word stands for a while. */
import { sql } from 'kysely';
import type { DeliveryRecord } from '../delivery/readers.ts';
import { isPostgres } from '../dialect/index.ts';
import { freeLock, holdLock } from './runs.ts';

const PREFIX = 'worker:';
/** How long a word stands. */
export const WORKER_TTL_MS = 90_000;

export interface SeenWorker {
  readonly owner: string;
  readonly untilMs: number;
}

export const seeWorker = ({ db }: DeliveryRecord, owner: string, nowMs: number): Promise<boolean> =>
  holdLock({ db }, PREFIX + owner, { owner, nowMs, ttlMs: WORKER_TTL_MS });

export const forgetWorker = (record: DeliveryRecord, owner: string): Promise<void> =>
  freeLock(record, PREFIX + owner, owner);

/** All that were seen and have not said goodbye, those whose word has run out among them. */
export async function workersOf({ db }: DeliveryRecord): Promise<SeenWorker[]> {
  const rows = await db
    .selectFrom('locks')
    .select(['owner', 'until_ms'])
    .where('name', '>=', PREFIX)
    .where('name', '<', `${PREFIX}\uffff`)
    .orderBy('name')
    .execute();
  return rows.map(({ owner, until_ms }) => ({ owner, untilMs: until_ms }));
}

/** The database's own clock, which all who share it go by; this machine's on SQLite. Epoch ms. */
export async function sharedNowMs({ db }: DeliveryRecord): Promise<number> {
  if (!isPostgres(db)) return Date.now();
  const { rows } = await sql<{ now: number }>`
    select (extract(epoch from clock_timestamp()) * 1000)::bigint as now`.execute(db);
  return rows[0]?.now ?? Date.now();
}
