import type { Kysely } from 'kysely';
import { ThawlineError } from '../../units/index.ts';
import type { Database } from '../schema/index.ts';
import type { Reading } from '../types.ts';
import { writing } from '../writing.ts';

/** How far the clock that a reading is dated by may be ahead of ours (common practice, no source). */
const CLOCKS_APART_MS = 10 * 60_000;

/** @throws ThawlineError `usage` for a reading that lies further in the future than clocks differ */
export function refuseAhead({ atMs }: Reading, nowMs: number): void {
  if (atMs <= nowMs + CLOCKS_APART_MS) return;
  throw new ThawlineError(
    'usage',
    `The reading is dated ${new Date(atMs).toISOString().slice(0, 16)} UTC, which is still to come: nobody has read a thermometer then. Correct its day or hour. Nothing was stored.`,
  );
}

/**
 * Stores a reading; one with the same id replaces it from then on.
 *
 * @param knownMs when it was given, epoch ms: a reading typed in later was not known before
 * @throws ThawlineError `usage` when it is dated after that
 */
export async function putReading(db: Kysely<Database>, reading: Reading, knownMs: number): Promise<void> {
  refuseAhead(reading, knownMs);
  const row = {
    lake: reading.lake,
    at_ms: reading.atMs,
    water_c: reading.waterC ?? null,
    clarity_m: reading.clarityM ?? null,
    depth_m: reading.depthM,
    sd_c: reading.sdC,
    place: reading.where,
    pocket: reading.pocket ?? null,
    known_how: null,
  };
  await writing(db, (tx) =>
    tx
      .insertInto('reading')
      .values({ id: reading.id, known_ms: knownMs, ...row })
      .onConflict((c) => c.columns(['id', 'known_ms']).doUpdateSet(row))
      .execute(),
  );
}

/** A lake's readings in (fromMs, toMs] that were known by an instant, oldest first. */
export async function readings(
  db: Kysely<Database>,
  lake: string,
  fromMs = Number.MIN_SAFE_INTEGER,
  toMs = Number.MAX_SAFE_INTEGER,
  knownByMs = toMs,
): Promise<Reading[]> {
  // A reading may be put right to another time: the version that counts is chosen before its time is looked at.
  const rows = await db
    .selectFrom('reading')
    .selectAll()
    .where('lake', '=', lake)
    .where('known_ms', '<=', knownByMs)
    .orderBy('known_ms')
    .execute();
  const newest = new Map(rows.map((row) => [row.id, row]));
  return [...newest.values()]
    .filter((row) => row.at_ms > fromMs && row.at_ms <= toMs)
    .sort((a, b) => a.at_ms - b.at_ms || (a.id < b.id ? -1 : 1))
    .map((row) => ({
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

/**
 * Takes a reading out, with all that it once said: the one thing that also leaves the past, because a reading belongs to
 * who gave it.
 *
 * @returns whether there was such a reading
 */
export async function removeReading(db: Kysely<Database>, id: string): Promise<boolean> {
  const result = await writing(db, (tx) => tx.deleteFrom('reading').where('id', '=', id).executeTakeFirst());
  return Number(result.numDeletedRows) > 0;
}
