/**
 * What many machines gain and cost, as ratios of one run: mails a second with 1, 2 and 3 workers on PostgreSQL against one
 * process on SQLite, to a sink that takes 50 ms for each mail; the cost of a morning against the number of lakes; memory
 * while a long list is queued; one morning of 500 lakes and 50,000 readers. A part that is given as 0 is left out. Needs a PostgreSQL server of Debian's packages.
 *
 * Run: npx tsx --expose-gc bench/scale.ts [mails] [most lakes] [long list] [readers of a morning]
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
import { instantOf } from '../src/units/time/localTime.ts';
import { clockOf, lakesOf, type Role } from '../tests/postgres/scene.ts';
import { deps } from '../tests/schedule/kit.ts';

const [mails = 1500, mostLakes = 1000, longList = 200_000, morningReaders = 50_000] = process.argv
  .slice(2)
  .map(Number);
const CHILD = fileURLToPath(new URL('../tests/postgres/child.ts', import.meta.url));
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

/** One look of the planner and one issue of every lake, ms of this process's processor a lake and ms of all. */
async function morningOf(record: RecordStore, count: number): Promise<{ cpuMs: number; allMs: number }> {
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
  const cpu = process.cpuUsage();
  const started = performance.now();
  await planPass(work, engine);
  for (const order of orders) await issueEdition(work, order);
  if (orders.length !== count) throw new Error(`${orders.length} of ${count} lakes were due`);
  const allMs = (performance.now() - started) / count;
  const { user, system } = process.cpuUsage(cpu);
  await sql`truncate runs, briefings, renderings, outbox, refreshes`.execute(record.db);
  return { cpuMs: (user + system) / 1000 / count, allMs };
}

const median = (values: readonly number[]): number =>
  [...values].sort((a, b) => a - b)[Math.floor(values.length / 2)] ?? Number.NaN;

/** Mornings of more and more lakes, each as often as it takes to look at some hundreds of them, in turns. */
async function mornings(record: RecordStore): Promise<void> {
  const counts = [10, 100, 1000].filter((count) => count <= mostLakes);
  for (let n = 0; n < 3; n += 1) await morningOf(record, 100);
  const took = new Map(counts.map((count) => [count, [] as { cpuMs: number; allMs: number }[]]));
  for (let turn = 0; turn < 3; turn += 1)
    for (const count of counts)
      for (let n = 0; n < Math.max(1, 200 / count); n += 1)
        took.get(count)?.push(await morningOf(record, count));
  let first: { cpuMs: number; allMs: number } | undefined;
  for (const [count, all] of took) {
    const cpuMs = median(all.map((one) => one.cpuMs));
    const allMs = median(all.map((one) => one.allMs));
    first ??= { cpuMs, allMs };
    console.log(
      `a morning of ${count} lakes: ${cpuMs.toFixed(1)} ms of processor a lake (${(cpuMs / first.cpuMs).toFixed(2)} times that of 10), ${allMs.toFixed(1)} ms in all (${(allMs / first.allMs).toFixed(2)} times)`,
    );
  }
}

/** One real morning: three workers with their engine, from the first look to the last mail. */
async function oneMorning(
  address: string,
  record: RecordStore,
  lakes: number,
  readers: number,
): Promise<void> {
  const zone = 'America/Chicago';
  const folder = mkdtempSync(join(tmpdir(), 'bench-morning-'));
  const clockFile = join(folder, 'clock');
  await record.db.transaction().execute(async (tx) => {
    await sql`insert into readers (id, address, state, origin, units, form, days_mask, earliest_hour, amendments, token_epoch, created_ms)
      select 'r' || lpad(n::text, 8, '0'), 'r' || n || '@post.example', 'active', 'operator', 'us', 'full', 127, 0, 1, 0, 0
      from generate_series(1, ${sql.lit(readers)}) n`.execute(tx);
    await sql`insert into reader_lakes select id, 'lake-' || (row_number() over (order by id)) % ${sql.lit(lakes)} from readers`.execute(
      tx,
    );
  });
  const sink = await smtpServer(() => 'accept');
  const clock = clockOf(clockFile);
  const fromMs = instantOf(LOCAL_DATE, '05:15', zone);
  clock.set(fromMs);
  const children = Array.from({ length: 3 }, (_, n) => {
    const role: Role = {
      kind: 'worker',
      address,
      smtpUrl: sink.url,
      clockFile,
      owner: `machine-${n}|1|1|x`,
      lakes,
      zone,
      connections: 5,
      clockOffMs: 0,
      passMs: 60_000,
    };
    return fork(CHILD, [JSON.stringify(role)], { execArgv: ['--import', 'tsx', '--expose-gc'] });
  });
  await Promise.all(children.map((child) => once(child, 'message')));
  // They begin when the issue is due; from here on time goes as it does.
  const startedMs = Date.now();
  const ticking = setInterval(() => clock.set(fromMs + Date.now() - startedMs), 100);
  try {
    for (let issued = 0, left = 1; issued < lakes || left > 0;) {
      await new Promise((resolve) => setTimeout(resolve, 1000));
      const runs = await sql<{ n: number }>`select count(*) as n from runs where state = 'issued'`.execute(
        record.db,
      );
      const waiting = await undelivered(record, clock.now());
      issued = runs.rows[0]?.n ?? 0;
      left = waiting.waiting + waiting.later + waiting.held;
    }
    const { rows } = await sql<{ last_issue: number; last_mail: number; sent: number }>`
      select (select max(finished_ms) from runs) as last_issue, max(finished_ms) as last_mail,
        count(*) filter (where state = 'sent') as sent from outbox`.execute(record.db);
    const [end] = rows;
    const rss: string[] = [];
    for (const child of children) {
      const answer = once(child, 'message');
      child.send('memory');
      const [{ rssBytes }] = (await answer) as [{ rssBytes: number }];
      rss.push((rssBytes / 1024 / 1024).toFixed(0));
    }
    const copies = [...sink.accepted.values()].reduce((n, ids) => n + ids.length - new Set(ids).size, 0);
    console.log(
      `a morning of ${lakes} lakes and ${readers} readers, three workers: last issue ${(((end?.last_issue ?? 0) - fromMs) / 1000).toFixed(0)} s and last mail ${(((end?.last_mail ?? 0) - fromMs) / 1000).toFixed(0)} s after it was due; ${readers - sink.accepted.size} lost, ${copies} copies, ${end?.sent ?? 0} noted as sent; memory of the workers ${rss.join(', ')} MiB`,
    );
  } finally {
    clearInterval(ticking);
    for (const child of children) child.kill('SIGTERM');
    await Promise.all(children.map((child) => once(child, 'exit')));
    await sink.close();
    rmSync(folder, { recursive: true });
  }
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

/** Mails a second and processor a mail: one process on a file, then one to three on a server. */
async function paces(file: string, fresh: () => Promise<[string, RecordStore]>): Promise<void> {
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
    if (mails > 0) await paces(join(folder, 'record.sqlite'), fresh);
    if (mostLakes > 0) {
      const [, many] = await fresh();
      await mornings(many);
      await many.close();
    }
    for (const count of longList > 0 ? [longList / 10, longList] : []) {
      const [, record] = await fresh();
      console.log(
        `${count} readers queued: memory in use grew by at most ${(await queued(record, count)).toFixed(0)} MiB`,
      );
      await record.close();
    }
    if (morningReaders > 0) {
      const [address, record] = await fresh();
      await oneMorning(address, record, morningReaders / 100, morningReaders);
      await record.close();
    }
  } finally {
    await server.stop();
    rmSync(folder, { recursive: true });
  }
}

const [what, place = '', url = ''] = process.argv.slice(2);
await (what === 'send' ? send(place, url) : measure());
