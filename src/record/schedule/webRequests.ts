/** How often visitors ask all web processes of a server together. Nobody's address is kept, and nothing for long. */
import { sql } from 'kysely';
import type { DeliveryRecord } from '../delivery/readers.ts';
import { writing } from '../writing.ts';

/** A window slides in tenths. */
const PARTS = 10;

export interface Asked {
  /** A digest. */
  readonly visitor: string;
  readonly kind: string;
  /** Requests that are told together. */
  readonly requests: number;
}

export interface Window {
  readonly nowMs: number;
  readonly windowMs: number;
  /** Requests that pass in it. */
  readonly most: number;
}

/**
 * Counts requests of one visitor to all processes, one process at a time.
 *
 * @returns 0 when they pass and are counted; else when the next may, epoch ms
 */
export function countRequests(
  { db }: DeliveryRecord,
  { visitor, kind, requests }: Asked,
  { nowMs, windowMs, most }: Window,
): Promise<number> {
  const partMs = windowMs / PARTS;
  return writing(db, async (tx) => {
    await sql`select pg_advisory_xact_lock(hashtext(${`${kind} ${visitor}`}))`.execute(tx);
    const had = await tx
      .selectFrom('web_requests')
      .select((e) => [e.fn.sum<number | null>('requests').as('n'), e.fn.min('slot_ms').as('oldestMs')])
      .where('visitor', '=', visitor)
      .where('kind', '=', kind)
      .where('slot_ms', '>', nowMs - windowMs)
      .where('slot_ms', '<=', nowMs)
      .executeTakeFirstOrThrow();
    if (had.n !== null && had.n + requests > most) return had.oldestMs + windowMs;
    const slot_ms = Math.floor(nowMs / partMs) * partMs;
    await tx
      .insertInto('web_requests')
      .values({ visitor, kind, slot_ms, requests })
      .onConflict((c) =>
        c
          .columns(['visitor', 'kind', 'slot_ms'])
          .doUpdateSet({ requests: sql`web_requests.requests + excluded.requests` }),
      )
      .execute();
    return 0;
  });
}

/** Forgets what no window looks back to. */
export async function forgetRequests({ db }: DeliveryRecord, beforeMs: number): Promise<void> {
  await writing(db, (tx) => tx.deleteFrom('web_requests').where('slot_ms', '<', beforeMs).execute());
}
