import { setTimeout as sleep } from 'node:timers/promises';
import type { Kysely } from 'kysely';
import { addDays, DAY_MS, HOUR_MS, instantOf, localDateAt, localHourAt } from '../../units/time/index.ts';
import { getState, putState } from '../schedule/runs.ts';
import type { Database } from '../schema/index.ts';
import { writing } from '../writing.ts';

/** When a lake's morning briefing is made. */
export interface MorningClock {
  readonly zone: string;
  /** Local time, `HH:mm`. */
  readonly at: string;
}

/** For series of a lake that is in the record but no longer in the configuration. */
const NO_CLOCK: MorningClock = { zone: 'utc', at: '10:00' };
/** Up to here a kept issue stays hour by hour; the plan of the day and the next one look no further. */
const HOURLY_MS = 48 * HOUR_MS;
const LAST_MS = 10 * DAY_MS;
/** Beyond, the hour of a day that stays: where the day's warmth and wind are near their highest. */
const KEPT_HOUR = 15;
/** Where the thinning had come to, in the small facts of the record. */
const DONE_KEY = 'forecasts-thinned-to';
const ISSUES_A_STEP = 10;
const STEP_PAUSE_MS = 5;

/** The morning that an issue serves: the first whose instant is not before it. */
function morningOf(issuedMs: number, { zone, at }: MorningClock): { date: string; atMs: number } {
  const today = localDateAt(issuedMs, zone);
  const todayMs = instantOf(today, at, zone);
  if (issuedMs <= todayMs) return { date: today, atMs: todayMs };
  const date = addDays(today, 1);
  return { date, atMs: instantOf(date, at, zone) };
}

/** Instants of a kept issue that stay: all of two days, then one a local day to the tenth. */
function keptInstants(issuedMs: number, instants: readonly number[], zone: string): Set<number> {
  const kept = new Set<number>();
  const nearest = new Map<string, { atMs: number; away: number }>();
  for (const atMs of instants) {
    const leadMs = atMs - issuedMs;
    if (leadMs <= HOURLY_MS) {
      if (atMs % HOUR_MS === 0) kept.add(atMs);
      continue;
    }
    if (leadMs > LAST_MS) continue;
    const date = localDateAt(atMs, zone);
    const away = Math.abs(localHourAt(atMs, zone) - KEPT_HOUR);
    if (away < (nearest.get(date)?.away ?? Infinity)) nearest.set(date, { atMs, away });
  }
  for (const { atMs } of nearest.values()) kept.add(atMs);
  return kept;
}

async function dropIssues(
  db: Kysely<Database>,
  seriesId: number,
  issues: readonly number[],
): Promise<number> {
  let removed = 0;
  for (let i = 0; i < issues.length; i += ISSUES_A_STEP) {
    const { numDeletedRows } = await writing(db, (tx) =>
      tx
        .deleteFrom('forecast')
        .where('series_id', '=', seriesId)
        .where('issued_ms', 'in', issues.slice(i, i + ISSUES_A_STEP))
        .executeTakeFirstOrThrow(),
    );
    removed += Number(numDeletedRows);
    await sleep(STEP_PAUSE_MS);
  }
  return removed;
}

async function thinIssue(
  db: Kysely<Database>,
  seriesId: number,
  issuedMs: number,
  zone: string,
): Promise<number> {
  const rows = await db
    .selectFrom('forecast')
    .select('at_ms')
    .where('series_id', '=', seriesId)
    .where('issued_ms', '=', issuedMs)
    .execute();
  const kept = keptInstants(
    issuedMs,
    rows.map((row) => row.at_ms),
    zone,
  );
  const gone = rows.map((row) => row.at_ms).filter((atMs) => !kept.has(atMs));
  if (gone.length === 0) return 0;
  const { numDeletedRows } = await writing(db, (tx) =>
    tx
      .deleteFrom('forecast')
      .where('series_id', '=', seriesId)
      .where('issued_ms', '=', issuedMs)
      .where('at_ms', 'in', gone)
      .executeTakeFirstOrThrow(),
  );
  return Number(numDeletedRows);
}

async function thinSeries(
  db: Kysely<Database>,
  seriesId: number,
  clock: MorningClock,
  fromMs: number,
  toMs: number,
): Promise<number> {
  const issues = await db
    .selectFrom('forecast')
    .select('issued_ms')
    .distinct()
    .where('series_id', '=', seriesId)
    .where('issued_ms', '>=', fromMs)
    .where('issued_ms', '<', toMs)
    .orderBy('issued_ms')
    .execute();
  const newest = new Map<string, number>();
  const over: number[] = [];
  for (const { issued_ms } of issues) {
    const { date, atMs } = morningOf(issued_ms, clock);
    // A morning that is not wholly before the limit may still get a newer issue than those seen here.
    if (atMs >= toMs) continue;
    const older = newest.get(date);
    if (older !== undefined) over.push(older);
    newest.set(date, issued_ms);
  }
  let removed = await dropIssues(db, seriesId, over);
  for (const issuedMs of newest.values()) removed += await thinIssue(db, seriesId, issuedMs, clock.zone);
  return removed;
}

/**
 * Of every forecast issued before an instant, keeps the newest issue before each morning, thinned.
 *
 * @returns rows removed
 */
export async function thinForecasts(
  db: Kysely<Database>,
  beforeMs: number,
  mornings: ReadonlyMap<string, MorningClock>,
): Promise<number> {
  const done = await getState({ db }, DONE_KEY);
  // Two days back: the morning that was left over last time, whole.
  const fromMs = typeof done === 'number' && done < beforeMs ? done - 2 * DAY_MS : Number.MIN_SAFE_INTEGER;
  const series = await db
    .selectFrom('series')
    .select(['id', 'lake'])
    .where('kind', '=', 'forecast')
    .orderBy('id')
    .execute();
  let removed = 0;
  for (const { id, lake } of series)
    removed += await thinSeries(db, id, mornings.get(lake) ?? NO_CLOCK, fromMs, beforeMs);
  await putState({ db }, DONE_KEY, beforeMs, beforeMs);
  return removed;
}
