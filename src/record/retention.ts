/** What the record keeps and for how long. Nothing is removed by one long statement: readers and writers go on meanwhile. */
import { setTimeout as sleep } from 'node:timers/promises';
import { sql, type Kysely } from 'kysely';
import { DAY_MS } from '../units/time/index.ts';
import { thinForecasts, type MorningClock } from './observations/forecastThinning.ts';
import type { Database } from './schema/index.ts';
import { writing } from './writing.ts';

/**
 * How long each kind is kept, days. Measured values and readings are never removed: hindsight needs years. Of forecasts
 * one issue a morning stays for ever, hourly to 48 h and daily to the tenth day: replay and the scores of the outlook
 * need it.
 */
export const RETENTION_DAYS = {
  /** Every issue of a forecast, whole. */
  everyIssue: 14,
  alerts: 1830,
  floods: 1830,
  retrievals: 90,
  validators: 30,
  /** Mails that were sent, failed or dropped. */
  outbox: 90,
  bounces: 400,
  runs: 400,
  /** Issued documents, which the archive shows. */
  briefings: 1100,
  /** What issues said of the water ahead: a season of it is learned from. */
  outlook: 400,
  /** Readers who left: until then nobody can bring them back by mistake. */
  leftReaders: 400,
} as const;

export interface Compacted {
  readonly forecastRows: number;
  readonly alerts: number;
  readonly floods: number;
  readonly retrievals: number;
  readonly validators: number;
  readonly mails: number;
  readonly runs: number;
  readonly briefings: number;
}

/** Rows removed by one statement: some milliseconds of the write lock. */
const STEP_ROWS = 2000;
/** Between two steps, so that somebody who waits gets the lock, ms. */
const STEP_PAUSE_MS = 5;

type Table =
  | 'alert'
  | 'alert_check'
  | 'flood'
  | 'retrieval'
  | 'validator'
  | 'outbox'
  | 'bounces'
  | 'runs'
  | 'briefings'
  | 'outlook';

/** The instant that a table's rows age by. */
const AGED_BY = {
  alert: 'last_seen_ms',
  alert_check: 'checked_ms',
  flood: 'at_ms',
  retrieval: 'at_ms',
  validator: 'set_ms',
  outbox: 'finished_ms',
  bounces: 'at_ms',
  runs: 'due_ms',
  briefings: 'issued_ms',
  outlook: 'issued_ms',
} as const satisfies Record<Table, string>;

async function removeOlder(db: Kysely<Database>, table: Table, beforeMs: number): Promise<number> {
  const column = db.dynamic.ref(AGED_BY[table]);
  for (let removed = 0; ;) {
    // The instant below which a step's worth of rows lies, so that no table needs a row number.
    const step = await db
      .selectFrom(table)
      .select(sql.ref<number>(AGED_BY[table]).as('at'))
      .where(column, '<', beforeMs)
      .orderBy(column)
      .limit(1)
      .offset(STEP_ROWS)
      .executeTakeFirst();
    const untilMs = step === undefined ? beforeMs : step.at + 1;
    const { numDeletedRows } = await writing(db, (tx) =>
      tx.deleteFrom(table).where(column, '<', Math.min(untilMs, beforeMs)).executeTakeFirstOrThrow(),
    );
    removed += Number(numDeletedRows);
    if (step === undefined) return removed;
    await sleep(STEP_PAUSE_MS);
  }
}

/**
 * Removes what the rules no longer keep, in steps that each are a transaction of their own: it may run beside everything
 * else, and be stopped anywhere.
 *
 * @param mornings when each lake's morning briefing is made, which says whose issue of a forecast it used
 */
export async function compact(
  db: Kysely<Database>,
  nowMs: number,
  mornings: ReadonlyMap<string, MorningClock>,
): Promise<Compacted> {
  const older = (table: Table, days: number): Promise<number> =>
    removeOlder(db, table, nowMs - days * DAY_MS);
  await older('alert_check', RETENTION_DAYS.alerts);
  await older('bounces', RETENTION_DAYS.bounces);
  await older('outlook', RETENTION_DAYS.outlook);
  return {
    forecastRows: await thinForecasts(db, nowMs - RETENTION_DAYS.everyIssue * DAY_MS, mornings),
    alerts: await older('alert', RETENTION_DAYS.alerts),
    floods: await older('flood', RETENTION_DAYS.floods),
    retrievals: await older('retrieval', RETENTION_DAYS.retrievals),
    validators: await older('validator', RETENTION_DAYS.validators),
    mails: await older('outbox', RETENTION_DAYS.outbox),
    runs: await older('runs', RETENTION_DAYS.runs),
    briefings: await older('briefings', RETENTION_DAYS.briefings),
  };
}
