/** PostgreSQL in this process, one connection, for the record's own tests: each record in a schema of its own. */
import { PGlite } from '@electric-sql/pglite';
import {
  PostgresAdapter,
  PostgresIntrospector,
  PostgresQueryCompiler,
  type CompiledQuery,
  type DatabaseConnection,
  type Dialect,
  type Driver,
  type QueryResult,
} from 'kysely';
import { PARSERS } from '../../src/record/dialect/postgres/driver.ts';
import { serverFault } from '../../src/record/dialect/postgres/faults.ts';
import { Turn } from '../../src/record/dialect/turn.ts';

let started: Promise<PGlite> | undefined;
const turn = new Turn();
let schemas = 0;
/** Emptied, for the next record: making twenty tables takes longer than most tests. */
const emptied: string[] = [];

class Session implements DatabaseConnection {
  readonly #lite: PGlite;
  constructor(lite: PGlite) {
    this.#lite = lite;
  }
  async executeQuery<R>({
    sql,
    parameters,
  }: Pick<CompiledQuery, 'sql' | 'parameters'>): Promise<QueryResult<R>> {
    try {
      const { rows, affectedRows } = await this.#lite.query<R>(sql, [...parameters]);
      return { rows, numAffectedRows: BigInt(affectedRows ?? 0) };
    } catch (error) {
      throw serverFault(error);
    }
  }
  // eslint-disable-next-line require-yield
  async *streamQuery<R>(): AsyncIterableIterator<QueryResult<R>> {
    await Promise.reject(new Error('not asked for'));
  }
}

class LiteDriver implements Driver {
  readonly #reused = emptied.pop();
  readonly #schema = this.#reused ?? `record_${(schemas += 1)}`;
  async init(): Promise<void> {
    const lite = await (started ??= PGlite.create({ parsers: { ...PARSERS } }));
    if (this.#reused === undefined) await lite.exec(`create schema ${this.#schema}`);
  }
  async acquireConnection(): Promise<Session> {
    await turn.take();
    const lite = await started!;
    await lite.exec(`set search_path to ${this.#schema}`);
    return new Session(lite);
  }
  async beginTransaction(session: Session): Promise<void> {
    await session.executeQuery({ sql: 'begin', parameters: [] });
  }
  async commitTransaction(session: Session): Promise<void> {
    await session.executeQuery({ sql: 'commit', parameters: [] });
  }
  async rollbackTransaction(session: Session): Promise<void> {
    await session.executeQuery({ sql: 'rollback', parameters: [] });
  }
  releaseConnection(): Promise<void> {
    turn.give();
    return Promise.resolve();
  }
  async destroy(): Promise<void> {
    const lite = await started;
    await turn.take();
    try {
      const { TABLES } = await import('../../src/record/schema/description.ts');
      // What a step of the schema put there, which is a key, stays: the steps are not run again.
      const wholly = Object.keys(TABLES).filter((table) => table !== 'delivery_state');
      await lite?.exec(
        `set search_path to ${this.#schema}; truncate ${wholly.join(', ')} restart identity; delete from delivery_state where key <> 'away-key'`,
      );
      emptied.push(this.#schema);
    } finally {
      turn.give();
    }
  }
}

export const pgliteDialect = (): Dialect => ({
  createDriver: () => new LiteDriver(),
  createQueryCompiler: () => new PostgresQueryCompiler(),
  createAdapter: () => new PostgresAdapter(),
  createIntrospector: (db) => new PostgresIntrospector(db),
});
