import type { Kysely } from 'kysely';
import type { Database } from './schema/index.ts';
import type { FloodCategory, FloodStatus } from './types.ts';
import { writing } from './writing.ts';

export async function putFloods(db: Kysely<Database>, floods: readonly FloodStatus[]): Promise<void> {
  await writing(db, async (trx) => {
    for (const flood of floods) {
      const row = {
        observed: flood.observed,
        forecast: flood.forecast,
        thresholds_m: JSON.stringify(flood.thresholdsM),
      };
      await trx
        .insertInto('flood')
        .values({ lake: flood.lake, station: flood.station, at_ms: flood.atMs, ...row })
        .onConflict((c) => c.columns(['lake', 'station', 'at_ms']).doUpdateSet(row))
        .execute();
    }
  });
}

/** The newest status of each station in (fromMs, toMs]. */
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
    .orderBy('station')
    .orderBy('at_ms')
    .execute();
  const newest = new Map(rows.map((row) => [row.station, row]));
  return [...newest.values()].map((row) => ({
    lake: row.lake,
    station: row.station,
    observed: row.observed as FloodCategory,
    forecast: row.forecast as FloodCategory,
    atMs: row.at_ms,
    thresholdsM: JSON.parse(row.thresholds_m) as FloodStatus['thresholdsM'],
  }));
}
