/**
 * Three workers and two webs on one real PostgreSQL, killed, stopped and cut off: one issue per lake and date, nobody
 * lost, and copies only of mails that were on the wire. The long form is `npm run test:long`.
 */
import { spawn, type ChildProcess } from 'node:child_process';
import { once } from 'node:events';
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { setTimeout as sleep } from 'node:timers/promises';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { DEFAULT_WISHES, newRow } from '../../src/delivery/readers.ts';
import type { RecordStore } from '../../src/record/index.ts';
import { insertReader } from '../../src/record/delivery/readers.ts';
import { WORKER_TTL_MS, workersOf } from '../../src/record/schedule/workers.ts';
import { openServerRecord } from '../../src/record/openServer.ts';
import { instantOf, localDateAt } from '../../src/units/time/localTime.ts';
import { smtpServer, type TestServer } from '../delivery/smtp.ts';
import { builtChild } from '../helpers/builtChild.ts';
import {
  emptyDatabase,
  serverPrograms,
  startServer,
  type PostgresServer,
} from '../helpers/postgresServer.ts';
import { proxyOf, type Proxy } from './proxy.ts';
import { clockOf, lakesOf, type Role } from './scene.ts';

const LONG = process.env['THAWLINE_LONG'] === '1';
/** A day and six kills keep the suite short; the long form is three days and 50, a week by THAWLINE_DAYS=7. */
const DAYS = Number(process.env['THAWLINE_DAYS'] ?? (LONG ? 3 : 1));
const KILLS = Number(process.env['THAWLINE_KILLS'] ?? (LONG ? 50 : 6));
const TIMES = {
  kills: KILLS,
  crashes: Math.ceil(KILLS / 10),
  cuts: Math.ceil(KILLS / 5),
  pauses: Math.ceil(KILLS / 5),
};
const LAKES = lakesOf(20);
const READERS_A_LAKE = 25;
const CONNECTIONS = 2;
const STEP_MS = 20 * 60_000;
/** How far the beats of the living may lie behind the clock of the test. */
const MOST_BEHIND_MS = 15_000;
/** In real time; a busy machine needs it. */
const PATIENCE_MS = 300_000;
const FROM_MS = Date.parse('2026-03-02T00:00:00Z');
/** Machines whose clocks are right, ten minutes fast, and ten minutes slow. */
const CLOCKS_OFF_MS = [0, 600_000, -600_000];

const folder = mkdtempSync(join(tmpdir(), 'many-'));
const clock = clockOf(join(folder, 'clock'));
let postgres: PostgresServer;
let script: string;
let address: string;
let record: RecordStore;
let mail: TestServer;
beforeAll(async () => {
  script = await builtChild('tests/postgres/child.ts');
  postgres = await startServer(serverPrograms() ?? '');
  address = await emptyDatabase(postgres.address);
  clock.set(FROM_MS);
  record = await openServerRecord(address);
  mail = await smtpServer(() => 'accept', { answerAfterMs: 4 });
  for (const { id } of LAKES)
    for (let n = 0; n < READERS_A_LAKE; n += 1) {
      const wishes = { ...DEFAULT_WISHES, lakes: [id] };
      const row = newRow(`${id}-${n}@post.example`, wishes, {
        state: 'active',
        origin: 'operator',
        nowMs: FROM_MS - 1e6,
      });
      await insertReader(record, row, wishes.lakes);
    }
});
afterAll(async () => {
  for (const child of children) child.kill('SIGKILL');
  await record?.close();
  await mail?.close();
  await postgres?.stop();
  rmSync(folder, { recursive: true });
});

function lehmer(seed: number): () => number {
  let state = seed;
  return () => (state = (state * 48271) % 2147483647) / 2147483647;
}

interface Worker {
  readonly child: ChildProcess;
  readonly owner: string;
  readonly proxy: Proxy;
}

/** Whatever becomes of the test, none of its processes stays. */
const children: ChildProcess[] = [];
function start(role: Role): ChildProcess {
  const child = spawn(process.execPath, ['--expose-gc', script, JSON.stringify(role)], {
    stdio: ['ignore', 'ignore', 'inherit', 'ipc'],
  });
  children.push(child);
  return child;
}

let started = 0;
/** Named as if on another machine: nothing can see that it is dead, its leases have to run out. */
async function startWorker(): Promise<Worker> {
  const owner = `machine-${(started += 1)}|1|1|x`;
  const proxy = await proxyOf(address);
  const role: Role = {
    kind: 'worker',
    address: proxy.address,
    smtpUrl: mail.url,
    clockFile: join(folder, 'clock'),
    owner,
    lakes: LAKES.length,
    connections: CONNECTIONS,
    clockOffMs: CLOCKS_OFF_MS[started % CLOCKS_OFF_MS.length] ?? 0,
  };
  const child = start(role);
  // The database may be killed while it starts: it ends, and whoever looks after it starts it again.
  const isReady = await Promise.race([
    once(child, 'message').then(() => true),
    once(child, 'exit').then(() => false),
  ]);
  if (isReady) return { child, owner, proxy };
  proxy.close();
  return startWorker();
}

async function startWeb(): Promise<{ child: ChildProcess; port: number }> {
  const role: Role = {
    kind: 'web',
    address,
    smtpUrl: mail.url,
    clockFile: join(folder, 'clock'),
    owner: 'web',
    lakes: LAKES.length,
    connections: CONNECTIONS,
    clockOffMs: 0,
  };
  const child = start(role);
  const [{ port }] = (await once(child, 'message')) as [{ port: number }];
  return { child, port };
}

/** Where it is, for somebody who waits for the long form. */
const tell = (what: string): void => {
  if (process.env['THAWLINE_FIGURES'] !== undefined)
    process.stderr.write(`${new Date().toISOString()} ${what}\n`);
};

/** Memory in use of one process after everything that can go has gone, MiB. */
async function heapMiB({ child }: Worker): Promise<string> {
  const answer = once(child, 'message');
  child.send('memory');
  const [{ heapBytes }] = (await answer) as [{ heapBytes: number }];
  return (heapBytes / 1024 / 1024).toFixed(1);
}

/** The database may be away for a moment. */
async function patiently<T>(work: () => Promise<T>): Promise<T> {
  for (let n = 0; ; n += 1) {
    try {
      return await work();
    } catch (error) {
      if (n > 100) throw error;
      await sleep(100);
    }
  }
}

it(
  `${DAYS} days of 20 lakes and 500 readers: one issue a lake and date, 0 lost, copies only of what was on the wire`,
  { timeout: KILLS > 10 ? 2 * 3_600_000 : 1_800_000 },
  async () => {
    const random = lehmer(20260302);
    const workers = await Promise.all([startWorker(), startWorker(), startWorker()]);
    const webs = await Promise.all([startWeb(), startWeb()]);
    let spare = startWorker();
    /** Mails that may have a copy: those on the wire of a worker that was killed, stopped or cut off. */
    let mayRepeat = 0;
    const answers: number[] = [];
    const toMs = FROM_MS + DAYS * 86_400_000;
    /** Issue windows that end within the days, by lake. */
    const expected = LAKES.flatMap(({ id, zone, issueAt }) => {
      const dates = new Set<string>();
      for (let ms = FROM_MS; ms <= toMs; ms += 3_600_000) dates.add(localDateAt(ms, zone));
      return [...dates]
        .map((date) => ({ lake: id, date, dueMs: instantOf(date, issueAt, zone) }))
        .filter(({ dueMs }) => dueMs >= FROM_MS + STEP_MS && dueMs <= toMs - 6 * STEP_MS);
    });
    const steps = Math.ceil((toMs - FROM_MS) / STEP_MS);
    const plan = [
      ...Array<string>(TIMES.kills).fill('kill'),
      ...Array<string>(TIMES.crashes).fill('crash'),
      ...Array<string>(TIMES.cuts).fill('cut'),
      ...Array<string>(TIMES.pauses).fill('pause'),
    ]
      .map((what) => ({ what, by: random() }))
      .sort((a, b) => a.by - b.by)
      .map(({ what }, i, all) => ({ what, step: Math.floor(((i + 0.5) / all.length) * steps) }));

    const living = (): string[] => workers.map(({ owner }) => owner);
    const isIdle = async (): Promise<boolean> => {
      const nowMs = clock.now();
      const due = await record.db
        .selectFrom('outbox')
        .select('id')
        .where((e) =>
          e.or([
            e.and([e('state', '=', 'pending'), e('next_attempt_ms', '<=', nowMs)]),
            e.and([e('state', '=', 'sending'), e('lease_owner', 'in', living())]),
          ]),
        )
        .limit(1)
        .execute();
      if (due.length > 0) return false;
      const runs = await record.db.selectFrom('runs').selectAll().execute();
      return expected
        .filter(({ dueMs }) => dueMs <= nowMs)
        .every(({ lake, date }) => {
          const run = runs.find((one) => one.lake_id === lake && one.local_date === date);
          if (run?.state === 'issued') return true;
          return run?.state === 'claimed' && run.lease_until_ms > nowMs && !living().includes(run.owner);
        });
    };
    /**
     * While the test waits time goes on, thirty times as fast: locks and leases of the dead run out by it alone. It waits
     * for the living, who on a busy machine may not have had a turn: else theirs would run out too.
     */
    const flow = async (): Promise<void> => {
      await sleep(50);
      const words = await patiently(() => workersOf(record));
      const seenMs = words
        .filter(({ owner }) => living().includes(owner))
        .map(({ untilMs }) => untilMs - WORKER_TTL_MS);
      if (seenMs.every((ms) => ms > clock.now() - MOST_BEHIND_MS)) clock.set(clock.now() + 1500);
    };
    const disturb = async (what: string): Promise<void> => {
      if (what === 'crash') {
        await postgres.crash();
        // Any mail on any wire may have been accepted without being noted.
        mayRepeat += CONNECTIONS * workers.length;
        return;
      }
      const at = Math.floor(random() * workers.length);
      const worker = workers[at];
      if (worker === undefined) return;
      mayRepeat += CONNECTIONS;
      if (what === 'kill') {
        worker.child.kill('SIGKILL');
        await once(worker.child, 'exit');
        worker.proxy.close();
        workers[at] = await spare;
        spare = startWorker();
        return;
      }
      // Held up past its lease: others go on, and what it writes afterwards comes too late.
      workers.splice(at, 1);
      if (what === 'pause') worker.child.kill('SIGSTOP');
      else worker.proxy.cut();
      clock.set(clock.now() + STEP_MS);
      for (const untilMs = Date.now() + PATIENCE_MS; !(await patiently(isIdle));) {
        expect(Date.now(), 'the others do not go on').toBeLessThan(untilMs);
        await flow();
      }
      if (what === 'pause') worker.child.kill('SIGCONT');
      else worker.proxy.mend();
      workers.push(worker);
    };

    for (let step = 0; clock.now() < toMs; step += 1) {
      tell(`step ${step} of ${steps}`);
      clock.set(clock.now() + STEP_MS);
      const now = plan.filter((one) => one.step === step);
      for (const { what } of now) {
        tell(what);
        await sleep(random() * 600);
        await disturb(what);
      }
      const untilMs = Date.now() + PATIENCE_MS;
      // At least one look of the planner at every step.
      await sleep(350);
      while (!(await patiently(isIdle))) {
        expect(Date.now(), `step ${step} does not end`).toBeLessThan(untilMs);
        await flow();
      }
      if (process.env['THAWLINE_FIGURES'] !== undefined && step % 72 === 71)
        tell(`heap in use, MiB: ${(await Promise.all(workers.map(heapMiB))).join(', ')}`);
      if (step % 12 === 0)
        for (const { port } of webs)
          answers.push(
            (await fetch(`http://127.0.0.1:${port}/healthz`)).status,
            (await fetch(`http://127.0.0.1:${port}/subscribe`)).status,
          );
    }
    tell('goodbye');
    // A goodbye hands everything back.
    for (const { child } of [...workers, await spare, ...webs]) child.kill('SIGTERM');
    for (const { child } of [...workers, await spare]) if (child.exitCode === null) await once(child, 'exit');

    const runs = await record.db.selectFrom('runs').selectAll().where('state', '=', 'issued').execute();
    const issued = runs.map(({ lake_id, local_date, edition }) => `${lake_id} ${local_date} ${edition}`);
    expect(new Set(issued).size).toBe(issued.length);
    for (const { lake, date } of expected) expect(issued).toContain(`${lake} ${date} morning`);
    const missed = await record.db
      .selectFrom('runs')
      .select('lake_id')
      .where('state', '=', 'missed')
      .execute();
    expect(missed).toEqual([]);
    // Every reader has had every issue of their lake, each under one Message-ID.
    let repeated = 0;
    let lost = 0;
    for (const { id } of LAKES) {
      const issues = runs.filter(({ lake_id }) => lake_id === id).length;
      for (let n = 0; n < READERS_A_LAKE; n += 1) {
        const ids = mail.accepted.get(`${id}-${n}@post.example`) ?? [];
        lost += issues - new Set(ids).size;
        repeated += ids.length - new Set(ids).size;
      }
    }
    expect(lost, 'lost').toBe(0);
    expect(repeated).toBeLessThanOrEqual(mayRepeat);
    const states = await record.db.selectFrom('outbox').select('state').distinct().execute();
    expect(states).toEqual([{ state: 'sent' }]);
    expect(answers.filter((status) => status !== 200 && status !== 503)).toEqual([]);
    if (process.env['THAWLINE_FIGURES'] !== undefined)
      process.stderr.write(
        `${JSON.stringify({ days: DAYS, ...TIMES, issued: issued.length, mails: mail.log.length, lost, repeated, mayRepeat })}\n`,
      );
  },
);
