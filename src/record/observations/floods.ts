import type { Kysely } from 'kysely';
import { z } from 'zod';
import { fromColumn } from '../json.ts';
import type { Database } from '../schema/index.ts';
import type { FloodCategory, FloodStatus } from '../types.ts';
import { writing } from '../writing.ts';

const thresholdsSchema = z.partialRecord(z.enum(['action', 'minor', 'moderate', 'major']), z.number());

/** @param knownMs when they were asked for, epoch ms; left out, each counts as known at its own instant */
export async function putFloods(
  db: Kysely<Database>,
  floods: readonly FloodStatus[],
  knownMs?: number,
): Promise<void> {
  if (floods.length === 0) return;
  await writing(db, async (trx) => {
    for (const flood of floods) {
      const row = {
        observed: flood.observed,
        forecast: flood.forecast,
        thresholds_m: JSON.stringify(flood.thresholdsM),
      };
      const known_ms = Math.max(knownMs ?? flood.atMs, flood.atMs);
      const key = { lake: flood.lake, station: flood.station, at_ms: flood.atMs };
      const before = await trx
        .selectFrom('flood')
        .selectAll()
        .where((e) => e.and(key))
        .where('known_ms', '<=', known_ms)
        .orderBy('known_ms', 'desc')
        .limit(1)
        .executeTakeFirst();
      const isSame =
        before?.observed === row.observed &&
        before.forecast === row.forecast &&
        before.thresholds_m === row.thresholds_m;
      if (isSame) continue;
      await trx
        .insertInto('flood')
        .values({ ...key, known_ms, ...row })
        .onConflict((c) => c.columns(['lake', 'station', 'at_ms', 'known_ms']).doUpdateSet(row))
        .execute();
    }
  });
}

/** The newest status of each station in (fromMs, toMs] that was known by then. */
export async function floodsAt(
  db: Kysely<Database>,
  lake: string,
  fromMs: number,
  toMs: number,
): Promise<FloodStatus[]> {
  const rows = await db
    .selectFrom('flood')
    .selectAll()
    .where('lake', '=', lake)
    .where('at_ms', '>', fromMs)
    .where('at_ms', '<=', toMs)
    .where('known_ms', '<=', toMs)
    .orderBy('station')
    .orderBy('at_ms')
    .orderBy('known_ms')
    .execute();
  const newest = new Map(rows.map((row) => [row.station, row]));
  return [...newest.values()].map((row) => ({
    lake: row.lake,
    station: row.station,
    observed: row.observed as FloodCategory,
    forecast: row.forecast as FloodCategory,
    atMs: row.at_ms,
    thresholdsM: fromColumn(row.thresholds_m, thresholdsSchema, 'thresholds_m'),
  }));
}
