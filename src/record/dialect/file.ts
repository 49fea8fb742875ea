import { chmodSync, closeSync, openSync, statSync, type Stats } from 'node:fs';
import { DatabaseSync, type StatementSyncInstance } from '@photostructure/sqlite';
import type { CompiledQuery, QueryResult } from 'kysely';
import { ThawlineError } from '../../units/index.ts';

/** Statements kept ready on a connection. */
const STATEMENTS = 200;
/** The longest insert of observations fits; longer ones differ in length every time and would only push the others out. */
const LONGEST_KEPT = 20_000;

interface Ready {
  readonly statement: StatementSyncInstance;
  readonly givesRows: boolean;
}

/** @throws ThawlineError `record` for a folder or a device */
export function refuseNoFile(path: string, found: Stats): void {
  if (found.isFile()) return;
  throw new ThawlineError(
    'record',
    `The record ${path} is ${found.isDirectory() ? 'a folder' : 'no file'}: name a file, such as \`record: data/thawline.sqlite\`.`,
  );
}

/**
 * Only the owner may read what holds addresses; SQLite gives its side files the same rights.
 *
 * @throws ThawlineError `record` for a folder or a device, whose rights stay as they are
 */
export function ownersOnly(path: string): void {
  const found = statSync(path, { throwIfNoEntry: false });
  if (found === undefined) {
    closeSync(openSync(path, 'wx', 0o600));
    return;
  }
  refuseNoFile(path, found);
  // Opening and closing a file drops this process's locks on it, so an existing one is only named.
  chmodSync(path, 0o600);
}

/** One open connection with its statements kept ready. */
export class Handle {
  readonly #database: InstanceType<typeof DatabaseSync>;
  readonly #statements = new Map<string, Ready>();

  constructor(path: string, readOnly = false) {
    this.#database = new DatabaseSync(path, { timeout: 0, enableForeignKeyConstraints: true, readOnly });
  }

  exec(sql: string): void {
    this.#database.exec(sql);
  }

  get inTransaction(): boolean {
    return this.#database.isTransaction;
  }

  close(): void {
    this.#statements.clear();
    this.#database.close();
  }

  query<R>({ sql, parameters }: Pick<CompiledQuery, 'sql' | 'parameters'>): QueryResult<R> {
    const { statement, givesRows } = this.#prepared(sql);
    // A write that returns rows must be read to its end, or it is not done.
    if (givesRows) return { rows: statement.all(...parameters) as R[] };
    const { changes, lastInsertRowid } = statement.run(...parameters);
    return { rows: [], numAffectedRows: BigInt(changes), insertId: BigInt(lastInsertRowid) };
  }

  #prepared(sql: string): Ready {
    const known = this.#statements.get(sql);
    if (known !== undefined) return known;
    const statement = this.#database.prepare(sql);
    const ready = { statement, givesRows: statement.columns().length > 0 };
    if (sql.length > LONGEST_KEPT) return ready;
    if (this.#statements.size >= STATEMENTS) {
      const [oldest] = this.#statements.keys();
      if (oldest !== undefined) this.#statements.delete(oldest);
    }
    this.#statements.set(sql, ready);
    return ready;
  }
}
