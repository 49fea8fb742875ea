/** The one place that knows which database stands behind the record. */
import Libsql from 'libsql';
import { CompiledQuery, SqliteDialect, SqliteDriver } from 'kysely';
import type { DatabaseConnection, Dialect, Driver, SqliteDatabase, SqliteDialectConfig } from 'kysely';

/** How long a second process waits for the first one's transaction. */
const BUSY_TIMEOUT_MS = 15_000;

/** A reader that turns writer in mid-transaction fails at once when another process wrote; one that starts as a writer waits. */
class ImmediateDriver extends SqliteDriver {
  override async beginTransaction(connection: DatabaseConnection): Promise<void> {
    await connection.executeQuery(CompiledQuery.raw('begin immediate'));
  }
}

class ImmediateSqliteDialect extends SqliteDialect {
  readonly #config: SqliteDialectConfig;

  constructor(config: SqliteDialectConfig) {
    super(config);
    this.#config = config;
  }

  override createDriver(): Driver {
    return new ImmediateDriver(this.#config);
  }
}

/**
 * SQLite in one file, write-ahead log. `synchronous = normal`: a killed process loses nothing that was committed;
 * a power cut may lose the last commits but leaves the file whole.
 */
export function sqliteDialect(path: string): Dialect {
  return new ImmediateSqliteDialect({
    database: () => {
      const file = new Libsql(path);
      file.exec(`pragma busy_timeout = ${BUSY_TIMEOUT_MS}`);
      file.exec('pragma journal_mode = wal');
      file.exec('pragma synchronous = normal');
      file.exec('pragma foreign_keys = on');
      return Promise.resolve(file as unknown as SqliteDatabase);
    },
  });
}
