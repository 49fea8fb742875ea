import { isIP } from 'node:net';
import { Kysely, type Dialect } from 'kysely';
import type { Pool } from 'pg';
import { ThawlineError } from '../units/index.ts';
import { PARSERS, serverDialect } from './dialect/postgres/driver.ts';
import { serverUpkeep } from './dialect/postgres/upkeep.ts';
import { migrate, versionHere } from './migrate.ts';
import type { Database } from './schema/index.ts';
import { RecordStore } from './store.ts';

/** Connections of one process: a few for the work, and the pages beside it. */
const CONNECTIONS = 10;
const CONNECT_MS = 10_000;
const ANSWER_MS = 60_000;

export interface ServerTimes {
  /** A statement that is not answered by then is given up: the connection may lead nowhere; ms. */
  readonly answerMs?: number;
}

async function pool(address: string, { answerMs = ANSWER_MS }: ServerTimes): Promise<Pool> {
  // Only who uses PostgreSQL loads its driver.
  const { default: pg } = await import('pg');
  const otherParser = pg.types.getTypeParser as (oid: number) => (text: string) => unknown;
  const made = new pg.Pool({
    connectionString: address,
    max: CONNECTIONS,
    connectionTimeoutMillis: CONNECT_MS,
    query_timeout: answerMs,
    keepAlive: true,
    application_name: 'thawline',
    types: { getTypeParser: (oid) => PARSERS[oid] ?? otherParser(oid) },
  });
  // An idle connection that the server closes is made anew when it is needed.
  made.on('error', () => undefined);
  // One in hand that goes away between two statements is noticed by the next of them.
  made.on('connect', (client) => client.on('error', () => undefined));
  return made;
}

/** Opens a record over any dialect of PostgreSQL, making its tables as needed. */
export async function openOver(dialect: Dialect): Promise<RecordStore> {
  const db = new Kysely<Database>({ dialect });
  try {
    await migrate(db, 'in PostgreSQL', Date.now(), () => Promise.resolve());
    return new RecordStore(db, serverUpkeep);
  } catch (error) {
    await db.destroy();
    throw notOpened(error);
  }
}

function notOpened(error: unknown): ThawlineError {
  if (error instanceof ThawlineError) return error;
  return new ThawlineError(
    'record',
    `The record in PostgreSQL could not be opened (${error instanceof Error ? error.message : String(error)}).`,
    { cause: error },
  );
}

/**
 * The driver gives the number of a server to nobody who compares names: a certificate for `localhost` would do for it.
 *
 * @throws ThawlineError `config` where a full check is asked for and cannot be made
 */
function demandName(address: string): void {
  const { hostname, searchParams } = new URL(address);
  if (searchParams.get('sslmode') !== 'verify-full' || isIP(hostname.replace(/^\[|\]$/g, '')) === 0) return;
  throw new ThawlineError(
    'config',
    'The address of the record names its server by a number, and sslmode=verify-full compares names: write the name that stands in the certificate of the server.',
  );
}

/**
 * @param address `postgres://...`, as the driver takes it
 * @throws ThawlineError `config`, `record`
 */
export async function openServerRecord(address: string, times: ServerTimes = {}): Promise<RecordStore> {
  demandName(address);
  return openOver(serverDialect(() => pool(address, times)));
}

/** A look at what the server holds; nothing is made or changed. */
export async function onServer<T>(address: string, look: (db: Kysely<Database>) => Promise<T>): Promise<T> {
  demandName(address);
  const db = new Kysely<Database>({ dialect: serverDialect(() => pool(address, {})) });
  try {
    return await look(db);
  } catch (error) {
    throw notOpened(error);
  } finally {
    await db.destroy();
  }
}

/**
 * Whether the server answers.
 *
 * @returns version of the record, 0 where there is none yet
 * @throws ThawlineError `config`, `record`
 */
export const lookAtServer = (address: string): Promise<number> =>
  onServer(address, (db) => versionHere(db, 'in PostgreSQL'));
