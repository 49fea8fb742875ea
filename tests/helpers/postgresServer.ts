/** A real PostgreSQL server of this machine's packages, started for the tests as another user than root. */
import { execFileSync, spawnSync } from 'node:child_process';
import { randomBytes } from 'node:crypto';
import { chmodSync, existsSync, mkdtempSync, readdirSync, readFileSync } from 'node:fs';
import { rm } from 'node:fs/promises';
import { createServer } from 'node:net';
import { join } from 'node:path';
import { setTimeout as sleep } from 'node:timers/promises';
import pg from 'pg';
import { openServerRecord } from '../../src/record/openServer.ts';

const PACKAGES = '/usr/lib/postgresql';
/** Versions that are tried, newest first. */
const VERSIONS = ['17', '16', '15'];

/** Folder of the server's programs; null where none is installed. */
export function serverPrograms(): string | null {
  const installed = existsSync(PACKAGES) ? readdirSync(PACKAGES) : [];
  const version = VERSIONS.find((wanted) => installed.includes(wanted));
  return version === undefined ? null : join(PACKAGES, version, 'bin');
}

export interface PostgresServer {
  readonly address: string;
  readonly folder: string;
  /** Kills it (SIGKILL) and starts it again. */
  crash(): Promise<void>;
  /** Also removes its files, hundreds of databases, while the rest of this process goes on. */
  stop(): Promise<void>;
}

const freePort = (): Promise<number> =>
  new Promise((resolve, reject) => {
    const probe = createServer();
    probe.on('error', reject);
    probe.listen(0, '127.0.0.1', () => {
      const { port } = probe.address() as { port: number };
      probe.close(() => resolve(port));
    });
  });

/** The server refuses to run as root; Debian's package brings a user for it. */
function asOther(command: string, args: readonly string[]): void {
  const isRoot = process.getuid?.() === 0;
  const [file, all] = isRoot ? ['runuser', ['-u', 'postgres', '--', command, ...args]] : [command, [...args]];
  // Its own server would keep a pipe open for ever.
  const done = spawnSync(file, all, { stdio: ['ignore', 'ignore', 'ignore'], cwd: '/tmp' });
  if (done.status !== 0) throw new Error(`${command} ${args.join(' ')} ended with ${String(done.status)}`);
}

export async function startServer(programs: string): Promise<PostgresServer> {
  const folder = mkdtempSync('/tmp/thawline-pg-');
  if (process.getuid?.() === 0) execFileSync('chown', ['postgres', folder]);
  chmodSync(folder, 0o700);
  const data = join(folder, 'data');
  const port = await freePort();
  asOther(join(programs, 'initdb'), [
    '-D',
    data,
    '-U',
    'owner',
    '-A',
    'trust',
    '-E',
    'UTF8',
    '--locale=C.UTF-8',
    '-N',
  ]);
  const control = (...args: string[]): void => asOther(join(programs, 'pg_ctl'), ['-D', data, '-w', ...args]);
  const options = `-p ${port} -c listen_addresses=127.0.0.1 -c unix_socket_directories=${folder} -c max_connections=150 -c synchronous_commit=on -c fsync=off`;
  const start = (): void => control('-l', join(folder, 'log'), '-o', options, 'start');
  start();
  return {
    address: `postgres://owner@127.0.0.1:${port}/postgres`,
    folder,
    crash: async () => {
      const pid = Number(readFileSync(join(data, 'postmaster.pid'), 'utf8').split('\n')[0]);
      process.kill(pid, 'SIGKILL');
      // Its children end by themselves once they notice; until then the data are theirs.
      for (let n = 0; ; n += 1) {
        try {
          start();
          return;
        } catch (error) {
          if (n >= 100) throw error;
          await sleep(100);
        }
      }
    },
    stop: async () => {
      control('-m', 'immediate', 'stop');
      await rm(folder, { recursive: true, force: true });
    },
  };
}

/** Name of the database that holds a record's tables and no row, if the run made one. */
const TABLES_ONLY = 'tables_only';

async function newDatabase(address: string, name: string, template: string): Promise<string> {
  const client = new pg.Client({ connectionString: address });
  await client.connect();
  await client.query(`create database ${name} template ${template}`);
  await client.end();
  return address.replace(/\/[^/]*$/, `/${name}`);
}

const unique = (): string => `t_${randomBytes(6).toString('hex')}`;

/** A new, empty database on the server; its address. */
export const emptyDatabase = (address: string): Promise<string> =>
  newDatabase(address, unique(), 'template0');

/** Makes the database that `databaseWithTables` copies: twenty tables and their indexes take longer to make than to copy. */
export async function makeTablesOnly(address: string): Promise<void> {
  const record = await openServerRecord(await newDatabase(address, TABLES_ONLY, 'template0'));
  await record.close();
}

/** A new database with a record's tables as the program made them, and no row; its address. */
export const databaseWithTables = (address: string): Promise<string> =>
  newDatabase(address, unique(), TABLES_ONLY);
