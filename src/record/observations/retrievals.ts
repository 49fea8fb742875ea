import type { Kysely } from 'kysely';
import type { DeliveryRecord } from '../delivery/readers.ts';
import type { Database } from '../schema/index.ts';
import type { Retrieval } from '../types.ts';
import { writing } from '../writing.ts';

export async function putRetrievals(db: Kysely<Database>, retrievals: readonly Retrieval[]): Promise<void> {
  if (retrievals.length === 0) return;
  await writing(db, async (trx) => {
    for (const r of retrievals) {
      await trx
        .insertInto('retrieval')
        .values({
          lake: r.lake,
          source: r.source,
          at_ms: r.atMs,
          ok: Number(r.ok),
          status: r.status,
          duration_ms: r.durationMs,
          bytes: r.bytes,
          problem: r.problem,
        })
        .execute();
    }
  });
}

/** Attempts in (fromMs, toMs], oldest first. */
export async function retrievalsBetween(
  db: Kysely<Database>,
  lake: string,
  fromMs: number,
  toMs: number,
): Promise<Retrieval[]> {
  const rows = await db
    .selectFrom('retrieval')
    .selectAll()
    .where('lake', '=', lake)
    .where('at_ms', '>', fromMs)
    .where('at_ms', '<=', toMs)
    .orderBy('at_ms')
    .orderBy('id')
    .execute();
  return rows.map((row) => ({
    lake: row.lake,
    source: row.source,
    atMs: row.at_ms,
    ok: row.ok === 1,
    status: row.status,
    durationMs: row.duration_ms,
    bytes: row.bytes,
    problem: row.problem,
  }));
}

/** When a lake was last fetched successfully; null when never. */
export async function lastRefreshMs(db: Kysely<Database>, lake: string): Promise<number | null> {
  const row = await db
    .selectFrom('retrieval')
    .select('at_ms')
    .where('lake', '=', lake)
    .where('ok', '=', 1)
    .orderBy('at_ms', 'desc')
    .limit(1)
    .executeTakeFirst();
  return row?.at_ms ?? null;
}

/** When a source was last asked for a lake, and when it last answered; null when never. */
export async function lastAsked(
  { db }: DeliveryRecord,
  lake: string,
  source: string,
): Promise<{ askedMs: number | null; answeredMs: number | null }> {
  const newest = async (onlyOk: boolean): Promise<number | null> => {
    let query = db
      .selectFrom('retrieval')
      .select('at_ms')
      .where('lake', '=', lake)
      .where('source', '=', source);
    if (onlyOk) query = query.where('ok', '=', 1);
    return (await query.orderBy('at_ms', 'desc').limit(1).executeTakeFirst())?.at_ms ?? null;
  };
  return { askedMs: await newest(false), answeredMs: await newest(true) };
}
