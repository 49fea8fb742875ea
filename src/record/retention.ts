import { sql, type Kysely } from 'kysely';
import { writing } from './writing.ts';
import type { Database } from './schema/index.ts';
import { DAY_MS } from '../units/calendar.ts';

/** How long each kind is kept, days. Measured values and readings are never removed: hindsight needs years. */
export const RETENTION_DAYS = {
  /** Every issue of a forecast. */
  everyIssue: 60,
  /** After that only the first issue of each UTC day, to judge forecasts by lead. */
  dailyIssue: 400,
  alerts: 400,
  floods: 400,
  retrievals: 90,
  validators: 30,
} as const;

export interface Compacted {
  readonly forecastRows: number;
  readonly alerts: number;
  readonly floods: number;
  readonly retrievals: number;
  readonly validators: number;
}

interface Deleted {
  readonly numDeletedRows: bigint;
}

const total = (results: readonly Deleted[]): number =>
  results.reduce((sum, { numDeletedRows }) => sum + Number(numDeletedRows), 0);

async function thinForecasts(db: Kysely<Database>, nowMs: number): Promise<number> {
  const dailyBefore = nowMs - RETENTION_DAYS.everyIssue * DAY_MS;
  const issues = await db
    .selectFrom('forecast')
    .select(['series_id', 'issued_ms'])
    .distinct()
    .where('issued_ms', '<', dailyBefore)
    .orderBy('series_id')
    .orderBy('issued_ms')
    .execute();
  const noneBefore = nowMs - RETENTION_DAYS.dailyIssue * DAY_MS;
  const kept = new Set<string>();
  let removed = 0;
  for (const { series_id, issued_ms } of issues) {
    const day = `${series_id}/${Math.floor(issued_ms / DAY_MS)}`;
    if (issued_ms >= noneBefore && !kept.has(day)) {
      kept.add(day);
      continue;
    }
    removed += total(
      await db
        .deleteFrom('forecast')
        .where('series_id', '=', series_id)
        .where('issued_ms', '=', issued_ms)
        .execute(),
    );
  }
  return removed;
}

/** Removes what the retention rules no longer keep, in one transaction. */
export async function compact(db: Kysely<Database>, nowMs: number): Promise<Compacted> {
  const before = (days: number): number => nowMs - days * DAY_MS;
  return writing(db, async (trx) => {
    await trx.deleteFrom('alert_check').where('checked_ms', '<', before(RETENTION_DAYS.alerts)).execute();
    const gone = {
      forecastRows: await thinForecasts(trx, nowMs),
      alerts: total(
        await trx.deleteFrom('alert').where('last_seen_ms', '<', before(RETENTION_DAYS.alerts)).execute(),
      ),
      floods: total(
        await trx.deleteFrom('flood').where('at_ms', '<', before(RETENTION_DAYS.floods)).execute(),
      ),
      retrievals: total(
        await trx.deleteFrom('retrieval').where('at_ms', '<', before(RETENTION_DAYS.retrievals)).execute(),
      ),
      validators: total(
        await trx.deleteFrom('validator').where('set_ms', '<', before(RETENTION_DAYS.validators)).execute(),
      ),
    };
    await sql`analyze`.execute(trx);
    return gone;
  });
}
