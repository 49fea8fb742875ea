/**
 * What many machines gain and cost, as ratios of one run: mails a second with 1, 2 and 3 workers on PostgreSQL against one
 * process on SQLite, to a sink that takes 50 ms for each mail; the cost of a morning against the number of lakes; memory
 * while a long list is queued. Needs a PostgreSQL server of Debian's packages.
 *
 * Run: npx tsx --expose-gc bench/scale.ts [mails] [most lakes] [long list]
 */
import { fork, type ChildProcess } from 'node:child_process';
import { once } from 'node:events';
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { sql } from 'kysely';
import { createSender, createTransport, drain, enqueue, linkMaker } from '../src/delivery/index.ts';
import { openRecord, type RecordStore } from '../src/record/index.ts';
import { undelivered } from '../src/record/delivery/outbox.ts';
import { openServerRecord } from '../src/record/openServer.ts';
import { issueEdition } from '../src/schedule/index.ts';
import { planPass } from '../src/schedule/work/plan.ts';
import {
  addReaders,
  config,
  issueMorning,
  LOCAL_DATE,
  MORNING_MS,
  SECRET,
  silent,
} from '../tests/delivery/kit.ts';
import { smtpServer } from '../tests/delivery/smtp.ts';
import { emptyDatabase, serverPrograms, startServer } from '../tests/helpers/postgresServer.ts';
import { lakesOf } from '../tests/postgres/scene.ts';
import { deps } from '../tests/schedule/kit.ts';

const [mails = 1500, mostLakes = 300, longList = 200_000] = process.argv.slice(2).map(Number);
const SINK_MS = 50;
const ME = fileURLToPath(import.meta.url);

/** A process that only sends: told to go, it empties the outbox and says what it took. */
async function send(place: string, url: string): Promise<void> {
  const record = place.startsWith('postgres:') ? await openServerRecord(place) : await openRecord(place);
  const { mail } = config();
  const transport = createTransport(mail, { SMTP_URL: url });
  const told = once(process, 'message');
  process.send?.('ready');
  await told;
  const startMs = Date.now();
  const cpu = process.cpuUsage();
  const work = {
    mail,
    transport,
    links: linkMaker('https://briefing.example', SECRET),
    owner: `sender|0|${process.pid}|x`,
    now: () => MORNING_MS + Date.now() - startMs,
    sleep: async (ms: number) => {
      await new Promise((resolve) => setTimeout(resolve, ms));
    },
    random: () => 0.5,
    log: silent,
    sender: createSender(mail, { count: 1e9, windowMs: 60_000 }),
  };
  const { sent } = await drain(record, work);
  const { user, system } = process.cpuUsage(cpu);
  process.send?.({ sent, cpuMs: (user + system) / 1000 });
  await transport.close();
  await record.close();
  process.disconnect();
}

interface Pace {
  readonly perSecond: number;
  readonly cpuMsAMail: number;
}

async function paceOf(place: string, record: RecordStore, processes: number): Promise<Pace> {
  await addReaders(record, mails);
  await issueMorning(record);
  const sink = await smtpServer(() => 'accept', { answerAfterMs: SINK_MS });
  const children: ChildProcess[] = Array.from({ length: processes }, () =>
    fork(ME, ['send', place, sink.url], { execArgv: ['--import', 'tsx'] }),
  );
  await Promise.all(children.map((child) => once(child, 'message')));
  const started = performance.now();
  const answers = children.map(
    (child) => once(child, 'message') as Promise<[{ sent: number; cpuMs: number }]>,
  );
  for (const child of children) child.send('go');
  const ended = (await Promise.all(answers)).map(([answer]) => answer);
  const seconds = (performance.now() - started) / 1000;
  await sink.close();
  const left = await undelivered(record, MORNING_MS + 1e6);
  const sent = ended.reduce((n, one) => n + one.sent, 0);
  if (sent !== mails || left.waiting + left.held > 0) throw new Error(`${sent} of ${mails} mails were sent`);
  return { perSecond: sent / seconds, cpuMsAMail: ended.reduce((n, one) => n + one.cpuMs, 0) / sent };
}

/** One look of the planner and one issue of every lake, ms a lake. */
async function morningOf(record: RecordStore, count: number): Promise<number> {
  const lakes = lakesOf(count).map((one) => ({ ...one, zone: 'America/Chicago' }));
  const clock = { ms: MORNING_MS };
  const orders: Parameters<typeof issueEdition>[1][] = [];
  const engine = {
    ask: (queue: string, _: string, data: object) => {
      if (queue === 'issue') {
        const slot = data as {
          lakeId: string;
          localDate: string;
          edition: 'morning';
          dueMs: number;
          deadlineMs: number;
        };
        orders.push({ ...slot, lake: lakes.find(({ id }) => id === slot.lakeId)! });
      }
      return Promise.resolve();
    },
    serve: () => undefined,
    stop: () => Promise.resolve(),
  };
  const work = deps(record, clock, {}, config({ lakes }));
  const started = performance.now();
  await planPass(work, engine);
  for (const order of orders) await issueEdition(work, order);
  if (orders.length !== count) throw new Error(`${orders.length} of ${count} lakes were due`);
  return (performance.now() - started) / count;
}

/** Largest growth of the memory in use while so many readers are queued, MiB. */
async function queued(record: RecordStore, count: number): Promise<number> {
  await record.db.transaction().execute(async (tx) => {
    await sql`insert into readers (id, address, state, origin, units, form, days_mask, earliest_hour, amendments, token_epoch, created_ms)
      select 'r' || lpad(n::text, 8, '0'), 'r' || n || '@post.example', 'active', 'operator', 'us', 'full', 127, 0, 1, 0, 0
      from generate_series(1, ${sql.lit(count)}) n`.execute(tx);
    await sql`insert into reader_lakes select id, 'ossarly' from readers`.execute(tx);
  });
  global.gc?.();
  const before = process.memoryUsage().heapUsed;
  let most = 0;
  const watch = setInterval(() => {
    global.gc?.();
    most = Math.max(most, process.memoryUsage().heapUsed - before);
  }, 100);
  const key = { lakeId: 'ossarly', localDate: LOCAL_DATE, edition: 'morning' } as const;
  const added = await enqueue(record, {
    ...key,
    zone: 'America/Chicago',
    issuedMs: MORNING_MS,
    graceMs: 3_600_000,
  });
  clearInterval(watch);
  if (added !== count) throw new Error(`${added} of ${count} were queued`);
  return most / 1024 / 1024;
}

async function measure(): Promise<void> {
  const programs = serverPrograms();
  if (programs === null)
    throw new Error('No PostgreSQL server is installed (Debian: apt-get install postgresql).');
  const folder = mkdtempSync(join(tmpdir(), 'bench-scale-'));
  const server = await startServer(programs);
  const fresh = async (): Promise<[string, RecordStore]> => {
    const address = await emptyDatabase(server.address);
    return [address, await openServerRecord(address)];
  };
  try {
    const file = join(folder, 'record.sqlite');
    const one = await openRecord(file);
    const alone = await paceOf(file, one, 1);
    await one.close();
    console.log(
      `SQLite, one process: ${alone.perSecond.toFixed(0)} mails/s, ${alone.cpuMsAMail.toFixed(2)} ms of processor a mail`,
    );
    for (const workers of [1, 2, 3]) {
      const [address, record] = await fresh();
      const pace = await paceOf(address, record, workers);
      await record.close();
      console.log(
        `PostgreSQL, ${workers} worker${workers === 1 ? '' : 's'}: ${pace.perSecond.toFixed(0)} mails/s (${(pace.perSecond / alone.perSecond).toFixed(2)} times), processor a mail ${(pace.cpuMsAMail / alone.cpuMsAMail).toFixed(2)} times, without the server's own`,
      );
    }
    let first = 0;
    for (let count = 10; count <= mostLakes; count *= count < 100 ? 10 : 3) {
      const [, record] = await fresh();
      await morningOf(record, 30);
      await sql`truncate runs, briefings, renderings, outbox, refreshes`.execute(record.db);
      const ms = await morningOf(record, count);
      first ||= ms;
      console.log(
        `a morning of ${count} lakes: ${ms.toFixed(1)} ms a lake (${(ms / first).toFixed(2)} times that of 10)`,
      );
      await record.close();
    }
    for (const count of [longList / 10, longList]) {
      const [, record] = await fresh();
      console.log(
        `${count} readers queued: memory in use grew by at most ${(await queued(record, count)).toFixed(0)} MiB`,
      );
      await record.close();
    }
  } finally {
    server.stop();
    rmSync(folder, { recursive: true });
  }
}

const [what, place = '', url = ''] = process.argv.slice(2);
await (what === 'send' ? send(place, url) : measure());
