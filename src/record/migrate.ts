import { existsSync } from 'node:fs';
import { sql, type Kysely } from 'kysely';
import { ThawlineError } from '../units/index.ts';
import { hasVersionTable, isPostgres, markOurs, refuseForeign } from './dialect/index.ts';
import { MIGRATIONS, type Migration } from './migrations/index.ts';
import { sharedNowMs, WORKER_TTL_MS, workersOf } from './schedule/workers.ts';
import type { Database } from './schema/index.ts';

async function versionOf(db: Kysely<Database>): Promise<number> {
  const row = await db
    .selectFrom('record_version')
    .select((e) => e.fn.max('version').as('version'))
    .executeTakeFirst();
  return row?.version ?? 0;
}

function refuseNewer(path: string, found: number, known: number): void {
  if (found <= known) return;
  throw new ThawlineError(
    'record',
    `The record ${path} was written by a newer Thawline (version ${found}, this one knows ${known}): install that version again, or restore the copy named ${backupPath(path, known)} beside it.`,
  );
}

/** Where the copy of a version goes before the record is changed. */
export function backupPath(path: string, version: number): string {
  return `${path}.v${version}.backup`;
}

/** Keeps an earlier copy of the same version: a failed attempt must not overwrite the good one. */
function freeBackupPath(path: string, version: number): string {
  let target = backupPath(path, version);
  for (let n = 2; existsSync(target); n += 1) target = `${backupPath(path, version)}-${n}`;
  return target;
}

/** Whether a newer program has changed the record since this one opened it. */
export const isChangedByNewer = async ({ db }: { readonly db: Kysely<Database> }): Promise<boolean> =>
  (await versionOf(db)) > MIGRATIONS.length;

/** Workers of an older version may not find the tables changed under them: they are stopped first. */
async function refuseUnderWorkers(db: Kysely<Database>): Promise<void> {
  const nowMs = await sharedNowMs({ db });
  const living = (await workersOf({ db })).filter(({ untilMs }) => untilMs > nowMs);
  if (living.length === 0) return;
  throw new ThawlineError(
    'record',
    `${living.length === 1 ? 'A worker of an older version is' : `${living.length} workers of an older version are`} at work on this record: stop them (their word stands for ${WORKER_TTL_MS / 1000} s), then start this version. Nothing was changed.`,
    { retryable: true },
  );
}

/** The version of a file that may have no tables yet (0), and the newest one this program knows. */
export async function versionsOf(
  db: Kysely<Database>,
): Promise<{ readonly version: number; readonly newest: number }> {
  return { version: (await hasVersionTable(db)) ? await versionOf(db) : 0, newest: MIGRATIONS.length };
}

/**
 * Looks at whose the record is and how old, and changes nothing.
 *
 * @returns its version, 0 where there are no tables yet
 * @throws ThawlineError `record` when it is of a newer version or another program's
 */
export async function versionHere(db: Kysely<Database>, path: string): Promise<number> {
  const found = (await refuseForeign(db, path)) ? await versionOf(db) : 0;
  refuseNewer(path, found, MIGRATIONS.length);
  return found;
}

/**
 * Brings a record to the newest schema: copy first, then every missing step in one transaction.
 *
 * @param copyTo makes a whole copy of the record under another name
 * @throws ThawlineError `record` when the file is of a newer version or another program's, with what to do
 */
export async function migrate(
  db: Kysely<Database>,
  path: string,
  nowMs: number,
  copyTo: (target: string) => Promise<void>,
  migrations: readonly Migration[] = MIGRATIONS,
): Promise<void> {
  const before = (await refuseForeign(db, path)) ? await versionOf(db) : 0;
  refuseNewer(path, before, migrations.length);
  if (before === migrations.length) return;
  const onServer = isPostgres(db);
  if (before > 0 && path !== ':memory:' && !onServer) await copyTo(freeBackupPath(path, before));
  await db.transaction().execute(async (trx) => {
    // One at a time; SQLite's transactions are that by themselves.
    if (onServer) await sql`select pg_advisory_xact_lock(hashtext('thawline migration'))`.execute(trx);
    await trx.schema
      .createTable('record_version')
      .ifNotExists()
      .addColumn('version', 'integer', (c) => c.primaryKey())
      .addColumn('applied_ms', 'bigint', (c) => c.notNull())
      .execute();
    await markOurs(trx);
    // Another process may have migrated while this one waited for the lock.
    const from = await versionOf(trx);
    if (onServer && from > 0 && from < migrations.length) {
      // From here on no worker can say that it is there: it waits for the end of this, and then finds a newer record.
      await sql`lock table locks in share mode`.execute(trx);
      await refuseUnderWorkers(trx);
    }
    for (const [index, step] of migrations.entries()) {
      if (index < from) continue;
      const up = (onServer ? step.onPostgres : undefined) ?? step.up;
      await up(trx as unknown as Kysely<unknown>);
      await trx
        .insertInto('record_version')
        .values({ version: index + 1, applied_ms: nowMs })
        .execute();
    }
  });
}
