/** TLS to the server as docs/many-machines.md writes it: an authority of one's own, its certificate, and nothing else. */
import { execFileSync } from 'node:child_process';
import { appendFileSync, chmodSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import pg from 'pg';
import { afterAll, beforeAll, describe, expect, it, vi } from 'vitest';
import type { RecordStore } from '../../src/record/index.ts';
import { openServerRecord } from '../../src/record/openServer.ts';
import { openEngine } from '../../src/schedule/index.ts';
import { silent } from '../delivery/kit.ts';
import { serverPrograms, startServer, type PostgresServer } from '../helpers/postgresServer.ts';
import { grantsOf } from './grants.ts';

const folder = mkdtempSync(join(tmpdir(), 'pg-tls-'));
const at = (name: string): string => join(folder, name);
const openssl = (...words: string[]): void => {
  execFileSync('openssl', words, { stdio: 'ignore', cwd: folder });
};
let server: PostgresServer;

/** An authority, and a certificate of it for one name. */
function authority(name: string): void {
  const key = ['-newkey', 'rsa:2048', '-nodes', '-days', '2'];
  openssl('req', '-x509', ...key, '-keyout', `${name}.key`, '-out', `${name}.pem`, '-subj', `/CN=${name}`);
}
function certificate(name: string, by: string, hosts: string): void {
  openssl(
    'req',
    '-newkey',
    'rsa:2048',
    '-nodes',
    '-keyout',
    `${name}.key`,
    '-out',
    `${name}.csr`,
    '-subj',
    '/CN=db',
  );
  writeFileSync(at(`${name}.ext`), `subjectAltName=${hosts}`);
  const signed = ['-CA', `${by}.pem`, '-CAkey', `${by}.key`, '-CAcreateserial', '-extfile', `${name}.ext`];
  openssl('x509', '-req', '-days', '2', '-in', `${name}.csr`, '-out', `${name}.pem`, ...signed);
}

/** Gives the server a file of its own. */
function install(name: string, as = name): void {
  const target = join(server.folder, 'data', as);
  execFileSync('install', ['-m', '600', at(name), target]);
  if (process.getuid?.() === 0) execFileSync('chown', ['postgres', target]);
}
/** Through the socket of the server's own folder. */
async function adminOf(database: string): Promise<pg.Client> {
  const { port } = new URL(server.address);
  const client = new pg.Client({ user: 'owner', host: server.folder, port: Number(port), database });
  await client.connect();
  return client;
}
const addressOf = (more: string, user = 'thawline_owner:of-the-owner', host = 'localhost'): string => {
  const { port } = new URL(server.address);
  return `postgres://${user}@${host}:${port}/thawline${more}`;
};
const verified = (ca = 'ours'): string => `?sslmode=verify-full&sslrootcert=${at(`${ca}.pem`)}`;

beforeAll(async () => {
  authority('ours');
  authority('foreign');
  certificate('server', 'ours', 'DNS:localhost');
  server = await startServer(serverPrograms() ?? '');
  const data = join(server.folder, 'data');
  for (const name of ['server.key', 'server.pem']) install(name);
  const settings = "ssl = on\nssl_cert_file = 'server.pem'\nssl_key_file = 'server.key'\n";
  appendFileSync(join(data, 'postgresql.conf'), settings);
  const admin = new pg.Client({ connectionString: server.address });
  await admin.connect();
  await admin.query("create role thawline_owner login password 'of-the-owner'");
  await admin.query("create role thawline_work login password 'of-the-workers'");
  await admin.query("create role thawline_web login password 'of-the-pages'");
  await admin.query(`create database thawline owner thawline_owner encoding 'UTF8' template template0`);
  // Whoever comes over the network: only with TLS, and only with a password.
  const rules = [
    'local all all trust',
    'hostssl thawline all all scram-sha-256',
    'hostnossl all all all reject',
  ];
  writeFileSync(join(data, 'pg_hba.conf'), `${rules.join('\n')}\n`);
  chmodSync(join(data, 'pg_hba.conf'), 0o644);
  await admin.query('select pg_reload_conf()');
  await admin.end();
});
afterAll(async () => {
  await server?.stop();
  rmSync(folder, { recursive: true });
});

const opened = async (address: string): Promise<RecordStore> => openServerRecord(address);
const refusal = async (address: string): Promise<string> => {
  try {
    await (await opened(address)).close();
    return '';
  } catch (error) {
    return error instanceof Error ? error.message : String(error);
  }
};

describe('a record behind TLS', () => {
  it('is opened, worked on and served by the three roles, each with TLS and its own password', async () => {
    const owner = await opened(addressOf(verified()));
    await (await openEngine(owner, addressOf(verified()), { log: silent })).stop();
    const admin = await adminOf('thawline');
    await admin.query(grantsOf().replaceAll(/create role .*;/g, ''));
    for (const role of ['thawline_work:of-the-workers', 'thawline_web:of-the-pages']) {
      const record = await opened(addressOf(verified(), role));
      const { rows } = await admin.query<{ ssl: boolean; version: string }>(
        'select bool_and(ssl) as ssl, min(version) as version from pg_stat_ssl s join pg_stat_activity a using (pid) where a.usename = $1',
        [role.split(':')[0]],
      );
      expect(rows).toEqual([{ ssl: true, version: 'TLSv1.3' }]);
      await record.close();
    }
    const worker = addressOf(verified(), 'thawline_work:of-the-workers');
    const engine = await openEngine(owner, worker, { log: silent });
    await engine.ask('retention', 'retention', {});
    await engine.stop();
    await admin.end();
    await owner.close();
  });

  it.each([
    [
      'by the certificate of another authority',
      /self-signed|unable to verify/,
      () => addressOf(verified('foreign')),
    ],
    [
      'by a number, which the driver does not compare',
      /write the name/,
      () => addressOf(verified(), undefined, '127.0.0.1'),
    ],
    ['without TLS', /refused the name or the password/, () => addressOf('')],
    [
      'with a wrong password',
      /refused the name or the password/,
      () => addressOf(verified(), 'thawline_owner:guessed'),
    ],
  ])('is not opened %s, and nothing of the address is said', async (_, why, address) => {
    const said = await refusal(address());
    expect(said).toMatch(why);
    expect(said).not.toMatch(/of-the-owner|guessed|postgres:\/\//);
  });

  it('is not opened when its certificate is for another name', async () => {
    certificate('other', 'ours', 'DNS:db.example');
    install('other.pem', 'server.pem');
    install('other.key', 'server.key');
    const admin = await adminOf('thawline');
    await admin.query('select pg_reload_conf()');
    // The server takes it up a moment later.
    await vi.waitFor(async () => expect(await refusal(addressOf(verified()))).toMatch(/altnames/), 10_000);
    await admin.end();
  });
});
