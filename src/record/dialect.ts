/** The one place that knows which database stands behind the record. */
import { setTimeout as sleep } from 'node:timers/promises';
import Libsql from 'libsql';
import { SqliteDialect, SqliteDriver } from 'kysely';
import type { Dialect, Driver, SqliteDatabase } from 'kysely';

/** How long a single statement blocks for another process; short, because nothing else in this process runs meanwhile. */
const STATEMENT_WAIT_MS = 5000;
/** How long a transaction waits for another one to end, in pauses that let this process go on. */
const TRANSACTION_WAIT_MS = 20_000;
const PAUSE_MS = 15;

function isBusy(error: unknown): boolean {
  return error instanceof Error && (error as { code?: unknown }).code === 'SQLITE_BUSY';
}

/**
 * A reader that turns writer in mid-transaction fails at once when another process wrote; one that starts as a writer
 * waits. `exec`, not a prepared statement: a refused prepared `begin` stays open until it is collected and lets the
 * commit after it fail.
 */
async function beginAsWriter(file: Libsql.Database): Promise<void> {
  const until = Date.now() + TRANSACTION_WAIT_MS;
  file.exec('pragma busy_timeout = 0');
  try {
    for (;;) {
      try {
        file.exec('begin immediate');
        return;
      } catch (error) {
        if (!isBusy(error) || Date.now() > until) throw error;
        await sleep(PAUSE_MS);
      }
    }
  } finally {
    file.exec(`pragma busy_timeout = ${STATEMENT_WAIT_MS}`);
  }
}

class WriterFirstDriver extends SqliteDriver {
  readonly #file: () => Libsql.Database;

  constructor(file: () => Libsql.Database) {
    super({ database: () => Promise.resolve(file() as unknown as SqliteDatabase) });
    this.#file = file;
  }

  override beginTransaction(): Promise<void> {
    return beginAsWriter(this.#file());
  }
}

class WriterFirstDialect extends SqliteDialect {
  readonly #file: () => Libsql.Database;

  constructor(file: () => Libsql.Database) {
    super({ database: () => Promise.resolve(file() as unknown as SqliteDatabase) });
    this.#file = file;
  }

  override createDriver(): Driver {
    return new WriterFirstDriver(this.#file);
  }
}

function openFile(path: string): Libsql.Database {
  const file = new Libsql(path);
  file.exec(`pragma busy_timeout = ${STATEMENT_WAIT_MS}`);
  file.exec('pragma journal_mode = wal');
  file.exec('pragma synchronous = normal');
  file.exec('pragma foreign_keys = on');
  return file;
}

/**
 * SQLite in one file, write-ahead log. `synchronous = normal`: a killed process loses nothing that was committed;
 * a power cut may lose the last commits but leaves the file whole.
 */
export function sqliteDialect(path: string): Dialect {
  let file: Libsql.Database | undefined;
  return new WriterFirstDialect(() => (file ??= openFile(path)));
}
