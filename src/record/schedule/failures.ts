/**
 * Work that failed and has not succeeded since: counted by what it was, left alone for a growing while, and kept until
 * it succeeds or somebody drops it.
 */
import { sql, type Selectable } from 'kysely';
import type { DeliveryRecord } from '../delivery/readers.ts';
import type { FailuresTable } from '../schema/work.ts';
import { writing } from '../writing.ts';

export type Failure = Selectable<FailuresTable>;

/** What failed: a queue of work, and which piece of it. */
export interface WorkKey {
  readonly queue: string;
  readonly key: string;
}

/** @param waitMs how long it is left alone, by how often it has failed in a row */
export async function noteFailure(
  { db }: DeliveryRecord,
  { queue, key }: WorkKey,
  failure: { problem: string; nowMs: number; waitMs: (attempts: number) => number },
): Promise<void> {
  const { problem, nowMs, waitMs } = failure;
  await writing(db, async (tx) => {
    const row = await tx
      .insertInto('failures')
      .values({ queue, key, attempts: 1, first_ms: nowMs, last_ms: nowMs, next_ms: nowMs, problem })
      .onConflict((c) =>
        c
          .columns(['queue', 'key'])
          .doUpdateSet({ attempts: sql`failures.attempts + 1`, last_ms: nowMs, problem }),
      )
      .returning(['id', 'attempts'])
      .executeTakeFirstOrThrow();
    const next_ms = nowMs + waitMs(row.attempts);
    await tx.updateTable('failures').set({ next_ms }).where('id', '=', row.id).execute();
  });
}

/** It succeeded, or is no longer wanted. @returns whether it had failed */
export async function forgetFailure({ db }: DeliveryRecord, { queue, key }: WorkKey): Promise<boolean> {
  const { numDeletedRows } = await writing(db, (tx) =>
    tx.deleteFrom('failures').where('queue', '=', queue).where('key', '=', key).executeTakeFirstOrThrow(),
  );
  return numDeletedRows > 0n;
}

/** What failed fewer than so many times in a row and not since an instant: a passing trouble that is over. */
export async function forgetPassing(
  { db }: DeliveryRecord,
  attempts: number,
  beforeMs: number,
): Promise<void> {
  await writing(db, (tx) =>
    tx.deleteFrom('failures').where('attempts', '<', attempts).where('last_ms', '<', beforeMs).execute(),
  );
}

/** All of it, oldest first. */
export const failuresOf = ({ db }: DeliveryRecord): Promise<Failure[]> =>
  db.selectFrom('failures').selectAll().orderBy('first_ms').orderBy('id').execute();

/** Tries it again at once, as if it had never failed. @returns what it is; undefined when nothing has this number */
export const retryFailure = ({ db }: DeliveryRecord, id: number): Promise<Failure | undefined> =>
  writing(db, (tx) =>
    tx
      .updateTable('failures')
      .set({ attempts: 0, next_ms: 0 })
      .where('id', '=', id)
      .returningAll()
      .executeTakeFirst(),
  );

/** @returns what it was; undefined when nothing has this number */
export const dropFailure = ({ db }: DeliveryRecord, id: number): Promise<Failure | undefined> =>
  writing(db, (tx) => tx.deleteFrom('failures').where('id', '=', id).returningAll().executeTakeFirst());
