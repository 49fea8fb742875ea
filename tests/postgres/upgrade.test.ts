/**
 * Two real versions on one PostgreSQL: the program as it was before the newest step of the schema, built from its commit,
 * and today's. Part of `npm run test:long`; needs the history of the repository.
 */
import { execFileSync, spawn, spawnSync, type ChildProcess } from 'node:child_process';
import { once } from 'node:events';
import { mkdtempSync, readdirSync, rmSync, symlinkSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import { setTimeout as sleep } from 'node:timers/promises';
import pg from 'pg';
import { afterAll, beforeAll, describe, expect, inject, it } from 'vitest';
import { MIGRATIONS } from '../../src/record/migrations/index.ts';
import { WORKER_TTL_MS } from '../../src/record/schedule/workers.ts';
import { PROGRAM } from '../builtProgram.ts';
import { emptyDatabase } from '../helpers/postgresServer.ts';

const ROOT = resolve(import.meta.dirname, '../..');
const git = (...words: string[]): string => {
  const { status, stdout } = spawnSync('git', words, { cwd: ROOT, encoding: 'utf8' });
  return status === 0 ? stdout.trim() : '';
};
/** The commit before the newest step of the schema came; '' without a history. */
function commitBefore(): string {
  const steps = readdirSync(join(ROOT, 'src/record/migrations')).filter((name) => /^\d/.test(name));
  const newest = `src/record/migrations/${steps.sort().at(-1) ?? ''}`;
  const came = git('log', '--diff-filter=A', '--format=%H', '-1', '--', newest);
  return came === '' ? '' : git('rev-parse', '--verify', `${came}^`);
}
const OLD = process.env['THAWLINE_LONG'] === '1' ? commitBefore() : '';

const folder = mkdtempSync(join(tmpdir(), 'upgrade-'));
const tree = join(folder, 'old');
const children: ChildProcess[] = [];
let address: string;
let admin: pg.Client;
let env: NodeJS.ProcessEnv;

beforeAll(async () => {
  if (OLD === '') return;
  git('worktree', 'add', '--detach', tree, OLD);
  symlinkSync(join(ROOT, 'node_modules'), join(tree, 'node_modules'));
  execFileSync(process.execPath, ['scripts/build.mjs'], { cwd: tree, stdio: 'ignore' });
  address = await emptyDatabase(inject('postgresAddress'));
  admin = new pg.Client({ connectionString: address });
  await admin.connect();
  // Nothing listens there: every refresh fails, quickly, and the rest of the work goes on.
  const nowhere = 'http://127.0.0.1:9';
  writeFileSync(
    join(folder, 'thawline.yaml'),
    `record: postgres:ADDRESS
lakes:
  - { id: ossarly, name: Lake Ossarly, position: { lat: 36, lon: -92 }, zone: America/Chicago, waterBody: highland-reservoir, meanDepth: 18 m, area: 80 km2, weather: [open-meteo] }
mail: { from: desk@briefing.example, transport: directory, directory: ${join(folder, 'mails')} }
web: { listen: none }
services: { contact: desk@briefing.example, baseUrls: { open-meteo: '${nowhere}' } }
`,
  );
  env = {
    ...process.env,
    ADDRESS: address,
    THAWLINE_SECRET: '0123456789abcdef0123456789abcdef',
    THAWLINE_LOG: 'error',
  };
});
afterAll(async () => {
  for (const child of children) child.kill('SIGKILL');
  await admin?.end();
  if (OLD !== '') git('worktree', 'remove', '--force', tree);
  rmSync(folder, { recursive: true, force: true });
});

const programOf = (version: 'old' | 'new'): string =>
  version === 'old' ? join(tree, 'dist/cli/main.js') : PROGRAM[0];
const words = (...more: string[]): string[] => ['--config', join(folder, 'thawline.yaml'), ...more];

function thawline(version: 'old' | 'new', ...more: string[]): { code: number | null; said: string } {
  const { status, stdout, stderr } = spawnSync(process.execPath, [programOf(version), ...words(...more)], {
    env,
    encoding: 'utf8',
  });
  return { code: status, said: stdout + stderr };
}
interface Process {
  readonly child: ChildProcess;
  readonly ended: Promise<unknown>;
  said: string;
}
function begin(version: 'old' | 'new', ...more: string[]): Process {
  const child = spawn(process.execPath, [programOf(version), ...words(...more)], {
    env,
    stdio: ['ignore', 'pipe', 'pipe'],
  });
  children.push(child);
  const made: Process = { child, ended: once(child, 'exit'), said: '' };
  for (const stream of [child.stdout, child.stderr])
    stream?.on('data', (bytes) => {
      made.said += String(bytes);
    });
  return made;
}

const count = async (query: string): Promise<number> =>
  Number((await admin.query<{ n: string }>(query)).rows[0]?.n);
const version = (): Promise<number> => count('select max(version) as n from record_version');
const workers = (): Promise<number> =>
  count(
    `select count(*) as n from locks where name like 'worker:%' and until_ms > extract(epoch from clock_timestamp()) * 1000`,
  );
async function until(what: string, holds: () => Promise<boolean> | boolean, ms = 60_000): Promise<void> {
  for (const endMs = Date.now() + ms; !(await holds());) {
    if (Date.now() > endMs) throw new Error(`${what}: not within ${ms / 1000} s`);
    await sleep(200);
  }
}

describe.runIf(OLD !== '')('today’s version beside the one before the newest step of the schema', () => {
  const steps = MIGRATIONS.length;

  it(
    'is refused while workers of the old one are at work, and they go on',
    { timeout: 600_000 },
    async () => {
      const added = thawline('old', 'readers', 'add', 'reader0@post.example', '--lake', 'ossarly');
      expect(added, added.said).toMatchObject({ code: 0 });
      const [one, two] = [begin('old', 'work'), begin('old', 'work')];
      await until('two old workers', async () => (await workers()) === 2);
      const before = await version();
      expect(before).toBeLessThan(steps);
      for (const command of [['status'], ['work'], ['readers', 'list']]) {
        const { code, said } = thawline('new', ...command);
        expect(code).not.toBe(0);
        expect(said).toMatch(/2 workers of an older version are at work .* Nothing was changed/s);
      }
      expect(await version()).toBe(before);
      expect([one.child.exitCode, two.child.exitCode]).toEqual([null, null]);

      // One says goodbye; one is stopped (SIGSTOP) until its word has run out, and wakes when all has changed.
      one.child.kill('SIGTERM');
      await one.ended;
      expect(one.child.exitCode).toBe(0);
      two.child.kill('SIGSTOP');
      expect(thawline('new', 'status').said).toMatch(/A worker of an older version is at work/);
      await until('its word runs out', async () => (await workers()) === 0, WORKER_TTL_MS + 30_000);
      const web = begin('old', 'web', '--port', '0');
      await until('the old pages', () => /http:\/\/\S+/.test(web.said));
      const page = /http:\/\/[^\s]+/.exec(web.said)?.[0] ?? '';
      expect((await fetch(page)).status).toBe(200);

      const taken = thawline('new', 'readers', 'list');
      expect(taken, taken.said).toMatchObject({
        code: 0,
        said: expect.stringContaining('reader0@post.example'),
      });
      expect(await version()).toBe(steps);
      two.child.kill('SIGCONT');
      await two.ended;
      expect(two.said).toMatch(/a newer version has changed the record/);

      // The old program says what to do, and changes nothing; pages of it that were open still answer.
      const late = thawline('old', 'work');
      expect(late.code).not.toBe(0);
      expect(late.said).toMatch(/newer Thawline/);
      expect((await fetch(page)).status).toBeLessThan(504);

      const next = begin('new', 'work');
      await until('a new worker', async () => (await workers()) === 1);
      expect(await count('select count(*) as n from readers')).toBe(1);
      next.child.kill('SIGTERM');
      await next.ended;
      expect(next.child.exitCode).toBe(0);
    },
  );

  it(
    'changes the tables once when four of it are started at the same moment',
    { timeout: 300_000 },
    async () => {
      const other = await emptyDatabase(inject('postgresAddress'));
      env = { ...env, ADDRESS: other };
      expect(thawline('old', 'readers', 'add', 'reader0@post.example', '--lake', 'ossarly').code).toBe(0);
      const all = Array.from({ length: 4 }, () => begin('new', 'readers', 'list'));
      await Promise.all(all.map(({ ended }) => ended));
      for (const { child, said } of all) {
        expect(child.exitCode, said).toBe(0);
        expect(said).toContain('reader0@post.example');
      }
    },
  );
});

it.runIf(OLD === '')('two real versions were not tried', (context) =>
  context.skip(
    'NOT TESTED: an upgrade between two versions (npm run test:long, with the history of the repository)',
  ),
);
