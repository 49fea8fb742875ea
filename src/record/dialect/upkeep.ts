import { closeSync, existsSync, fsyncSync, openSync, renameSync, rmSync, statSync } from 'node:fs';
import { dirname } from 'node:path';
import { ThawlineError } from '../../units/index.ts';
import { copyFault } from './faults.ts';
import type { SqliteFileDriver } from './driver.ts';
import { ownersOnly } from './file.ts';

/** What keeps the file itself in order, beside what stands in it. */
export interface Upkeep {
  /** Gives free space back to the disk; holds the write lock and this process for as long as it takes. */
  shrink(): Promise<void>;
  /** A whole, checked copy under that name, of a record that may be in use. Nothing is there until it is whole. */
  copyTo(target: string): Promise<void>;
  /** Empties the write-ahead log; false while a reader elsewhere still needs it. */
  truncateLog(): Promise<boolean>;
  /** SQLite's own quick look at the file: '' when all is well, else its first complaint. */
  complaint(): Promise<string>;
  /** Whether the path still leads to the file that was opened, and not to another one or to none. */
  isStillThere(): boolean;
}

function identity(path: string): string {
  const { dev, ino } = statSync(path);
  return `${dev}:${ino}`;
}

/** A copy that a power cut cannot undo: its bytes are on the disk before it has its name. */
function settle(from: string, to: string): void {
  for (const path of [from, dirname(to)]) {
    const fd = openSync(path, 'r');
    fsyncSync(fd);
    closeSync(fd);
  }
  renameSync(from, to);
}

export function upkeepOf(driver: SqliteFileDriver, path: string): Upkeep {
  const openedAs = path === ':memory:' ? '' : identity(path);
  return {
    shrink: () => driver.alone((file) => file.exec('vacuum')),
    async copyTo(target) {
      if (existsSync(target))
        throw new ThawlineError(
          'record',
          `${target} exists already: name a file that does not, or remove it.`,
        );
      const half = `${target}.half`;
      try {
        rmSync(half, { force: true });
        ownersOnly(half);
        await driver.alone((file) => file.query({ sql: 'vacuum into ?', parameters: [half] }));
        settle(half, target);
      } catch (error) {
        throw copyFault(error, target);
      } finally {
        if (existsSync(half)) rmSync(half);
      }
    },
    async truncateLog() {
      const { rows } = await driver.alone((file) =>
        file.query<{ busy: number }>({ sql: 'pragma wal_checkpoint(truncate)', parameters: [] }),
      );
      return rows[0]?.busy === 0;
    },
    async complaint() {
      const { rows } = await driver.reading((file) =>
        file.query<{ quick_check: string }>({ sql: 'pragma quick_check(1)', parameters: [] }),
      );
      const [first] = rows;
      return first === undefined || first.quick_check === 'ok' ? '' : first.quick_check;
    },
    isStillThere() {
      if (openedAs === '') return true;
      return existsSync(path) && identity(path) === openedAs;
    },
  };
}
