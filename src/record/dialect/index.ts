/** The one place that knows which database stands behind the record. */
import { SqliteAdapter, SqliteIntrospector, SqliteQueryCompiler, type Dialect } from 'kysely';
import { SqliteFileDriver } from './driver.ts';
import { PATIENCE_MS } from './patience.ts';
import { upkeepOf, type Upkeep } from './upkeep.ts';

export { badFileWords, damagedWords } from './faults.ts';
export { refuseNoFile } from './file.ts';
export { hasVersionTable, isForeign, markOurs, refuseForeign, truncateLog } from './ours.ts';
export { readyMonths } from './postgres/months.ts';
export { mayBeRepeated } from './postgres/faults.ts';
export { domainOf, doubleLine, isPostgres, jsonLine, wholeLine, withValues } from './which.ts';
export { takeWhole } from './whole.ts';
export type { Upkeep } from './upkeep.ts';

export interface SqliteRecord {
  readonly dialect: Dialect;
  /** Once the file is open. */
  readonly upkeep: () => Upkeep;
}

/**
 * SQLite in one file, write-ahead log. `synchronous = normal`: a killed process loses nothing that was committed;
 * a power cut may lose the last commits but leaves the file whole.
 *
 * @param path file, or `:memory:`
 * @param patienceMs how long a call waits for another process that is in the way
 * @param readOnly a file that is only looked at: nothing is made, changed or left beside it
 */
export function sqliteRecord(path: string, patienceMs: number = PATIENCE_MS, readOnly = false): SqliteRecord {
  const driver = new SqliteFileDriver({ path, patienceMs, readOnly });
  return {
    dialect: {
      createDriver: () => driver,
      createQueryCompiler: () => new SqliteQueryCompiler(),
      createAdapter: () => new SqliteAdapter(),
      createIntrospector: (db) => new SqliteIntrospector(db),
    },
    upkeep: () => upkeepOf(driver, path),
  };
}
