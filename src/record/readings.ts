import type { Kysely } from 'kysely';
import type { Database } from './schema/index.ts';
import type { Reading } from './types.ts';
import { writing } from './writing.ts';

/** Stores a reading; one with the same id replaces it. */
export async function putReading(db: Kysely<Database>, reading: Reading): Promise<void> {
  const row = {
    lake: reading.lake,
    at_ms: reading.atMs,
    water_c: reading.waterC ?? null,
    clarity_m: reading.clarityM ?? null,
    depth_m: reading.depthM,
    sd_c: reading.sdC,
    place: reading.where,
    pocket: reading.pocket ?? null,
  };
  await writing(db, (tx) =>
    tx
      .insertInto('reading')
      .values({ id: reading.id, ...row })
      .onConflict((c) => c.column('id').doUpdateSet(row))
      .execute(),
  );
}

/** A lake's readings in (fromMs, toMs], oldest first. */
export async function readings(
  db: Kysely<Database>,
  lake: string,
  fromMs = Number.MIN_SAFE_INTEGER,
  toMs = Number.MAX_SAFE_INTEGER,
): Promise<Reading[]> {
  const rows = await db
    .selectFrom('reading')
    .selectAll()
    .where('lake', '=', lake)
    .where('at_ms', '>', fromMs)
    .where('at_ms', '<=', toMs)
    .orderBy('at_ms')
    .orderBy('id')
    .execute();
  return rows.map((row) => ({
    id: row.id,
    lake: row.lake,
    atMs: row.at_ms,
    ...(row.water_c === null ? {} : { waterC: row.water_c }),
    ...(row.clarity_m === null ? {} : { clarityM: row.clarity_m }),
    depthM: row.depth_m,
    sdC: row.sd_c,
    where: row.place,
    ...(row.pocket === null ? {} : { pocket: row.pocket }),
  }));
}

/** @returns whether there was such a reading */
export async function removeReading(db: Kysely<Database>, id: string): Promise<boolean> {
  const result = await writing(db, (tx) => tx.deleteFrom('reading').where('id', '=', id).executeTakeFirst());
  return Number(result.numDeletedRows) > 0;
}
