/** Runs, refreshes, locks and small facts of the schedule. The primary key of `runs` is what makes an issue unique. */
import { sql, type Selectable } from 'kysely';
import type { DeliveryRecord } from '../delivery/readers.ts';
import { isPostgres } from '../dialect/index.ts';
import type { Edition, RunsTable } from '../schema/delivery.ts';
import { writing } from '../writing.ts';

export type RunRow = Selectable<RunsTable>;
export interface RunKey {
  readonly lakeId: string;
  readonly localDate: string;
  readonly edition: Edition;
}

/** Two clocks that agree to this are the same clock, ms. */
const AHEAD_MS = 10 * 60_000;

/**
 * Takes the run, or takes over one that failed or whose holder is gone; `evenMissed` also revives one that passed.
 *
 * @returns number of the attempt, with which the run has to be ended; null when somebody else has it or it is over
 */
export async function claimRun(
  { db }: DeliveryRecord,
  key: RunKey,
  claim: { owner: string; nowMs: number; leaseMs: number; dueMs: number; evenMissed?: boolean },
): Promise<number | null> {
  const { rows } = await writing(db, (tx) =>
    sql<{ attempts: number }>`
    insert into runs (lake_id, local_date, edition, state, owner, lease_until_ms, attempts, due_ms, started_ms)
    values (${key.lakeId}, ${key.localDate}, ${key.edition}, 'claimed', ${claim.owner},
            ${claim.nowMs + claim.leaseMs}, 1, ${claim.dueMs}, ${claim.nowMs})
    on conflict (lake_id, local_date, edition) do update set
      state = 'claimed', owner = excluded.owner, lease_until_ms = excluded.lease_until_ms,
      attempts = runs.attempts + 1, started_ms = excluded.started_ms
    where runs.state = 'failed'
       or (runs.state = 'missed' and ${sql.lit(claim.evenMissed === true)})
       or (runs.state = 'claimed' and (runs.lease_until_ms <= ${claim.nowMs} or runs.owner = ${claim.owner}))
    returning attempts`.execute(tx),
  );
  return rows[0]?.attempts ?? null;
}

/**
 * Ends the attempt that this owner began; false when the run has passed to another one meanwhile, also to a later one of
 * the same owner. Who was held up past its lease comes too late, and writes nothing.
 */
export async function endRun(
  { db }: DeliveryRecord,
  key: RunKey,
  holder: { readonly owner: string; readonly attempt: number },
  end: {
    state: 'issued' | 'failed';
    nowMs: number;
    safetyLevel?: number;
    firstPlace?: string;
    problem?: string;
  },
): Promise<boolean> {
  const result = await writing(db, (tx) =>
    tx
      .updateTable('runs')
      .set({
        state: end.state,
        finished_ms: end.nowMs,
        safety_level: end.safetyLevel ?? null,
        first_place: end.firstPlace ?? null,
        problem: end.problem ?? null,
      })
      .where('lake_id', '=', key.lakeId)
      .where('local_date', '=', key.localDate)
      .where('edition', '=', key.edition)
      .where('owner', '=', holder.owner)
      .where('attempts', '=', holder.attempt)
      .where('state', '=', 'claimed')
      .executeTakeFirst(),
  );
  return result.numUpdatedRows === 1n;
}

/** Records that a slot passed without an issue, so that a missed morning is never silent. */
export async function missRun(
  { db }: DeliveryRecord,
  key: RunKey,
  miss: { owner: string; nowMs: number; dueMs: number; problem: string },
): Promise<boolean> {
  const { rows } = await writing(db, (tx) =>
    sql<{ owner: string }>`
    insert into runs (lake_id, local_date, edition, state, owner, lease_until_ms, attempts, due_ms,
                      started_ms, finished_ms, problem)
    values (${key.lakeId}, ${key.localDate}, ${key.edition}, 'missed', ${miss.owner}, ${miss.nowMs}, 0,
            ${miss.dueMs}, ${miss.nowMs}, ${miss.nowMs}, ${miss.problem})
    on conflict (lake_id, local_date, edition) do update set
      state = 'missed', finished_ms = excluded.finished_ms,
      problem = coalesce(runs.problem, excluded.problem)
    where runs.state = 'failed' or (runs.state = 'claimed' and runs.lease_until_ms <= ${miss.nowMs})
    returning owner`.execute(tx),
  );
  return rows.length === 1;
}

/**
 * Forgets what was noted for days to come while the clock ran ahead: runs, their mails and their documents. Without this
 * the mornings of those days would count as done when they really come.
 *
 * @param today local date of the lake by the clock now
 * @param nowMs by the clock now
 * @returns local dates that were freed
 */
export function forgetAhead(
  { db }: DeliveryRecord,
  lakeId: string,
  today: string,
  nowMs: number,
): Promise<string[]> {
  return writing(db, async (tx) => {
    const ahead = await tx
      .selectFrom('runs')
      .select('local_date')
      .distinct()
      .where('lake_id', '=', lakeId)
      .where('local_date', '>', today)
      .where('started_ms', '>', nowMs + AHEAD_MS)
      .orderBy('local_date')
      .execute();
    const dates = ahead.map((row) => row.local_date);
    if (dates.length === 0) return dates;
    for (const table of ['runs', 'outbox', 'briefings', 'renderings', 'own_renderings', 'outlook'] as const)
      await tx.deleteFrom(table).where('lake_id', '=', lakeId).where('local_date', 'in', dates).execute();
    return dates;
  });
}

/** Runs of a lake from a local date on, oldest first. */
export async function runsSince(
  { db }: DeliveryRecord,
  lakeId: string,
  localDate: string,
): Promise<RunRow[]> {
  return db
    .selectFrom('runs')
    .selectAll()
    .where('lake_id', '=', lakeId)
    .where('local_date', '>=', localDate)
    .orderBy('local_date')
    .orderBy('edition')
    .execute();
}

/** Last run of a lake in one of the states, by local date. */
export async function lastRun(
  { db }: DeliveryRecord,
  lakeId: string,
  states: readonly RunRow['state'][],
): Promise<RunRow | undefined> {
  return db
    .selectFrom('runs')
    .selectAll()
    .where('lake_id', '=', lakeId)
    .where('state', 'in', [...states])
    .orderBy('local_date', 'desc')
    .orderBy('started_ms', 'desc')
    .limit(1)
    .executeTakeFirst();
}

export async function noteRefresh(
  { db }: DeliveryRecord,
  lakeId: string,
  refresh: { atMs: number; ok: boolean; problem?: string },
): Promise<void> {
  const row = {
    at_ms: refresh.atMs,
    problem: refresh.problem ?? null,
    ...(refresh.ok ? { ok_ms: refresh.atMs } : {}),
  };
  await writing(db, (tx) =>
    tx
      .insertInto('refreshes')
      .values({ lake_id: lakeId, ok_ms: null, ...row })
      .onConflict((c) => c.column('lake_id').doUpdateSet(row))
      .execute(),
  );
}

export async function refreshOf(
  { db }: DeliveryRecord,
  lakeId: string,
): Promise<{ at_ms: number; ok_ms: number | null; problem: string | null } | undefined> {
  return db
    .selectFrom('refreshes')
    .select(['at_ms', 'ok_ms', 'problem'])
    .where('lake_id', '=', lakeId)
    .executeTakeFirst();
}

export interface LockHolder {
  readonly owner: string;
  readonly until_ms: number;
}

/**
 * Takes or renews a named lock. Returns true when this owner holds it now. A lock whose time is over is free;
 * `deadOwner` names a holder known to be gone, whose lock may be taken before that.
 */
export async function holdLock(
  { db }: DeliveryRecord,
  name: string,
  claim: { owner: string; nowMs: number; ttlMs: number; deadOwner?: string },
): Promise<boolean> {
  // A holder far in the future means the clock was set back: its claim counts as expired too.
  const { rows } = await writing(db, (tx) =>
    sql<{ owner: string }>`
    insert into locks (name, owner, until_ms) values (${name}, ${claim.owner}, ${claim.nowMs + claim.ttlMs})
    on conflict (name) do update set owner = excluded.owner, until_ms = excluded.until_ms
    where locks.owner = ${claim.owner} or locks.until_ms <= ${claim.nowMs}
       or locks.owner = ${claim.deadOwner ?? ''}
       or locks.until_ms > ${claim.nowMs + 2 * claim.ttlMs}
    returning owner`.execute(tx),
  );
  return rows.length === 1;
}

export async function lockHolder({ db }: DeliveryRecord, name: string): Promise<LockHolder | undefined> {
  return db.selectFrom('locks').select(['owner', 'until_ms']).where('name', '=', name).executeTakeFirst();
}

export async function freeLock({ db }: DeliveryRecord, name: string, owner: string): Promise<void> {
  await writing(db, (tx) =>
    tx.deleteFrom('locks').where('name', '=', name).where('owner', '=', owner).execute(),
  );
}

/** Runs a dead or departing owner left half done become free at once. */
export async function handBackRuns({ db }: DeliveryRecord, owner: string, nowMs: number): Promise<number> {
  const result = await writing(db, (tx) =>
    tx
      .updateTable('runs')
      .set({ lease_until_ms: nowMs })
      .where('state', '=', 'claimed')
      .where('owner', '=', owner)
      .executeTakeFirst(),
  );
  return Number(result.numUpdatedRows);
}

export async function putState(
  { db }: DeliveryRecord,
  key: string,
  value: unknown,
  nowMs: number,
): Promise<void> {
  const row = { value_json: JSON.stringify(value), at_ms: nowMs };
  await writing(db, (tx) =>
    tx
      .insertInto('delivery_state')
      .values({ key, ...row })
      .onConflict((c) => c.column('key').doUpdateSet(row))
      .execute(),
  );
}

/** Reads and writes a fact in one step, so that of several who change it at once nobody's change is lost. */
export async function changeState(
  { db }: DeliveryRecord,
  key: string,
  change: (value: unknown) => unknown,
  nowMs: number,
): Promise<void> {
  await writing(db, async (tx) => {
    // SQLite has one writer at a time by itself.
    if (isPostgres(tx)) await sql`select pg_advisory_xact_lock(hashtext(${key}))`.execute(tx);
    await putState({ db: tx }, key, change(await getState({ db: tx }, key)), nowMs);
  });
}

/** The stored value, unchecked: the caller parses it with its own schema. */
export async function getState({ db }: DeliveryRecord, key: string): Promise<unknown> {
  const row = await db
    .selectFrom('delivery_state')
    .select('value_json')
    .where('key', '=', key)
    .executeTakeFirst();
  return row === undefined ? undefined : JSON.parse(row.value_json);
}
