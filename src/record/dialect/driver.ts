import { statSync } from 'node:fs';
import { pathToFileURL } from 'node:url';
import type { CompiledQuery, DatabaseConnection, Driver, QueryResult } from 'kysely';
import { Handle, ownersOnly } from './file.ts';
import { patiently } from './patience.ts';
import { Turn } from './turn.ts';

/** Nothing is freed without being overwritten: what a reader asked to be erased may not stay on the disk. */
const SECURE = 'pragma secure_delete = on';

export interface SqliteFile {
  /** File, or `:memory:`. */
  readonly path: string;
  /** How long a call waits for another process, ms. */
  readonly patienceMs: number;
  /** Looked at only: nothing is made, changed or left beside it. */
  readonly readOnly?: boolean;
}

/** What one caller holds: the reading connection, or the writing one while its transaction runs. */
class Session implements DatabaseConnection {
  readonly file: SqliteFile;
  handle: Handle;

  constructor(file: SqliteFile, handle: Handle) {
    this.file = file;
    this.handle = handle;
  }

  executeQuery<R>(query: CompiledQuery): Promise<QueryResult<R>> {
    return patiently(this.file.path, this.file.patienceMs, () => this.handle.query<R>(query));
  }

  // eslint-disable-next-line require-yield -- the builder asks for a generator
  async *streamQuery<R>(): AsyncIterableIterator<QueryResult<R>> {
    await Promise.reject(new Error('rows are read a page at a time, not as a stream'));
  }
}

/**
 * One connection that reads and may not write, one that writes and only in transactions that begin as writers, one at a
 * time. A write outside a transaction is refused by SQLite itself. Readers see the last committed state and wait for
 * nobody, however long another process holds the write lock.
 */
export class SqliteFileDriver implements Driver {
  readonly #file: SqliteFile;
  readonly #turn = new Turn();
  #reader: Handle | undefined;
  #writer: Handle | undefined;

  constructor(file: SqliteFile) {
    this.#file = file;
  }

  async init(): Promise<void> {
    try {
      await this.#open();
    } catch (error) {
      await this.destroy();
      throw error;
    }
  }

  async #open(): Promise<void> {
    if (this.#file.readOnly === true) {
      const handle = await this.#patiently(() => new Handle(asItLies(this.#file.path), true));
      this.#reader = this.#writer = handle;
      return;
    }
    const inMemory = this.#file.path === ':memory:';
    if (!inMemory) await this.#patiently(() => ownersOnly(this.#file.path));
    const writer = (this.#writer = await this.#patiently(() => new Handle(this.#file.path)));
    for (const pragma of ['journal_mode = wal', 'synchronous = normal'])
      await this.#patiently(() => writer.exec(`pragma ${pragma}`));
    writer.exec(SECURE);
    // A database in memory belongs to its connection.
    const reader = (this.#reader = inMemory
      ? writer
      : await this.#patiently(() => new Handle(this.#file.path)));
    reader.exec('pragma query_only = on');
  }

  async acquireConnection(): Promise<Session> {
    if (this.#isShared) await this.#turn.take();
    return new Session(this.#file, opened(this.#reader));
  }

  releaseConnection(): Promise<void> {
    if (this.#isShared) this.#turn.give();
    return Promise.resolve();
  }

  async beginTransaction(session: Session): Promise<void> {
    if (!this.#isShared) await this.#turn.take();
    const writer = opened(this.#writer);
    try {
      if (this.#isShared) writer.exec('pragma query_only = off');
      await this.#patiently(() => writer.exec('begin immediate'));
    } catch (error) {
      this.#endWriting();
      throw error;
    }
    session.handle = writer;
  }

  async commitTransaction(session: Session): Promise<void> {
    await this.#patiently(() => session.handle.exec('commit'));
    session.handle = opened(this.#reader);
    this.#endWriting();
  }

  rollbackTransaction(session: Session): Promise<void> {
    // A full disk or a failed commit has rolled back already.
    if (session.handle.inTransaction) session.handle.exec('rollback');
    session.handle = opened(this.#reader);
    this.#endWriting();
    return Promise.resolve();
  }

  /** What cannot run in a transaction (vacuum, checkpoint, copy), in its turn among the writes. */
  async alone<T>(work: (handle: Handle) => T): Promise<T> {
    await this.#turn.take();
    const writer = opened(this.#writer);
    try {
      if (this.#isShared) writer.exec('pragma query_only = off');
      return await this.#patiently(() => work(writer));
    } finally {
      if (this.#isShared) writer.exec('pragma query_only = on');
      this.#turn.give();
    }
  }

  /** A look at the file itself, beside the writes. */
  reading<T>(work: (handle: Handle) => T): Promise<T> {
    return this.#patiently(() => work(opened(this.#reader)));
  }

  destroy(): Promise<void> {
    // The driver lets a connection go only when its statements are collected: what is in the log goes into the file now.
    if (this.#writer !== undefined && !this.#isShared) settleLog(this.#writer);
    if (!this.#isShared) this.#reader?.close();
    this.#writer?.close();
    this.#reader = this.#writer = undefined;
    return Promise.resolve();
  }

  get #isShared(): boolean {
    return this.#reader === this.#writer;
  }

  #endWriting(): void {
    if (this.#isShared) opened(this.#writer).exec('pragma query_only = on');
    else this.#turn.give();
  }

  #patiently<T>(work: () => T): Promise<T> {
    return patiently(this.#file.path, this.#file.patienceMs, work);
  }
}

/** With no log beside it nobody is at work on the file, and SQLite is told so: else even reading makes files beside it. */
function asItLies(path: string): string {
  const log = statSync(`${path}-wal`, { throwIfNoEntry: false });
  if (log !== undefined && log.size > 0) return path;
  const { href } = pathToFileURL(path);
  return `${href}?immutable=1`;
}

function settleLog(writer: Handle): void {
  try {
    writer.exec('pragma wal_checkpoint(truncate)');
  } catch {
    // Somebody else is in the way; the log is read with the file by whoever opens it next.
  }
}

function opened(handle: Handle | undefined): Handle {
  if (handle === undefined) throw new Error('the record is used before it is open');
  return handle;
}
