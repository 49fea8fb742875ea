import {
  PostgresAdapter,
  PostgresDriver,
  PostgresIntrospector,
  PostgresQueryCompiler,
  type DatabaseConnection,
  type Dialect,
  type PostgresPool,
} from 'kysely';
import { serverFault } from './faults.ts';

/** Whole numbers of 64 bits, and sums of them, which the driver hands over as text so that none is rounded. */
const INT8 = 20;
const NUMERIC = 1700;

/** Instants and counts of the record are far below 2^53; what is not is refused, never rounded. */
function wholeNumber(text: string): number {
  const value = Number(text);
  if (Number.isInteger(value) && !Number.isSafeInteger(value))
    throw new RangeError(`${text} is larger than any number of the record.`);
  return value;
}

/** How values of these types are read; every other as the driver does it. */
export const PARSERS: Readonly<Record<number, (text: string) => number>> = {
  [INT8]: wholeNumber,
  [NUMERIC]: wholeNumber,
};

/** Kysely's own driver with our sentences for its faults. */
class ServerDriver extends PostgresDriver {
  readonly #told = new WeakSet<DatabaseConnection>();

  override async acquireConnection(): ReturnType<PostgresDriver['acquireConnection']> {
    try {
      const connection = await super.acquireConnection();
      if (!this.#told.has(connection)) {
        this.#told.add(connection);
        const ask = connection.executeQuery.bind(connection);
        connection.executeQuery = (query) =>
          ask(query).catch((error: unknown) => {
            throw serverFault(error);
          }) as ReturnType<typeof connection.executeQuery<never>>;
      }
      return connection;
    } catch (error) {
      throw serverFault(error);
    }
  }
}

/** Kysely's dialect over a pool of connections. */
export const serverDialect = (pool: () => Promise<PostgresPool>): Dialect => ({
  createDriver: () => new ServerDriver({ pool }),
  createQueryCompiler: () => new PostgresQueryCompiler(),
  createAdapter: () => new PostgresAdapter(),
  createIntrospector: (db) => new PostgresIntrospector(db),
});
