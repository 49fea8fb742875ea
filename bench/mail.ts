/**
 * Messages a second through outbox, personal links and DKIM, against the bare mailer sending the same bytes over the
 * same number of connections to the same server, in one run. And memory while a long list is queued.
 *
 * Run: npx tsx --expose-gc bench/mail.ts [readers] [long list]
 */
import { generateKeyPairSync } from 'node:crypto';
import { fork } from 'node:child_process';
import { once } from 'node:events';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { createServer } from 'node:net';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { sql } from 'kysely';
import nodemailer from 'nodemailer';
import {
  buildMessage,
  createTransport,
  drain,
  linkMaker,
  packRendering,
  personalise,
} from '../src/delivery/index.ts';
import { openRecord, type RecordStore } from '../src/record/index.ts';
import { ownKey, storeOwnRenderings } from '../src/record/delivery/own.ts';
import {
  addReaders,
  address,
  config,
  drainDeps,
  issueMorning,
  LOCAL_DATE,
  MORNING_MS,
  rendered,
  SECRET,
} from '../tests/delivery/kit.ts';

/** Smallest server that takes mail: the bench measures the sender, so the other side must not be the brake. */
function sink(): void {
  const server = createServer((socket) => {
    let data = false;
    let held = '';
    socket.on('error', () => undefined);
    socket.write('220 sink\r\n');
    socket.on('data', (chunk) => {
      held += chunk.toString('latin1');
      for (;;) {
        const mark = data ? '\r\n.\r\n' : '\r\n';
        const end = held.indexOf(mark);
        if (end < 0) {
          if (data) held = held.slice(-4);
          return;
        }
        const line = held.slice(0, end).toUpperCase();
        held = held.slice(end + mark.length);
        if (data) data = false;
        else if (line.startsWith('DATA')) data = true;
        socket.write(data ? '354 go\r\n' : line.startsWith('QUIT') ? '221 bye\r\n' : '250 ok\r\n');
      }
    });
  });
  server.listen(0, '127.0.0.1', () => {
    const at = server.address();
    process.send?.(at !== null && typeof at === 'object' ? at.port : 0);
  });
}

interface Pace {
  readonly perSecond: number;
  /** Processor time of this process for one mail, ms: says the same also when the machine is busy with other work. */
  readonly cpuMs: number;
}

function stopwatch(): (mails: number) => Pace {
  const started = performance.now();
  const cpu = process.cpuUsage();
  return (mails) => {
    const { user, system } = process.cpuUsage(cpu);
    return {
      perSecond: mails / ((performance.now() - started) / 1000),
      cpuMs: (user + system) / 1000 / mails,
    };
  };
}

const mib = (bytes: number): string => `${(bytes / 1024 / 1024).toFixed(0)} MiB`;

async function main(): Promise<void> {
  const readers = Number(process.argv[2] ?? 1500);
  const long = Number(process.argv[3] ?? 100_000);
  const folder = mkdtempSync(join(tmpdir(), 'bench-'));
  const child = fork(fileURLToPath(import.meta.url), ['sink'], { execArgv: process.execArgv });
  const [port] = (await once(child, 'message')) as [number];
  const { privateKey } = generateKeyPairSync('rsa', { modulusLength: 2048 });
  const keyFile = join(folder, 'key.pem');
  const pem = privateKey.export({ type: 'pkcs8', format: 'pem' }).toString();
  writeFileSync(keyFile, pem);
  const dkim = { domain: 'briefing.example', selector: 's1', keyFile };
  const mail = { ...config().mail, dkim };
  const env = { SMTP_URL: `smtp://127.0.0.1:${port}` };
  // About what a briefing weighs: 40 kB of HTML, 5 kB of text, 30 kB of pictures.
  const big = rendered({
    html: `<html><body>${'<p>Water 8.1 at the ramp, rising.</p>\n'.repeat(1150)}<!--personal-links--></body></html>`,
    text: 'Water 8.1 at the ramp, rising.\n'.repeat(160),
    attachments: [
      { filename: 'a.png', contentType: 'image/png', cid: 'a', content: new Uint8Array(30_000).fill(7) },
    ],
  });

  const bare = async (): Promise<Pace> => {
    const pool = nodemailer.createTransport({
      pool: true,
      host: '127.0.0.1',
      port,
      maxConnections: mail.connections,
      dkim: { domainName: dkim.domain, keySelector: dkim.selector, privateKey: pem },
    });
    const links = linkMaker('https://briefing.example', SECRET);
    const messages = Array.from({ length: readers }, (_, n) => {
      const reader = { id: `00000000-0000-0000-0000-${String(n).padStart(12, '0')}`, token_epoch: 1 };
      return buildMessage(personalise(big, links.body(reader, 'ossarly', MORNING_MS)), {
        from: mail.from,
        to: address(n),
        lakeId: 'ossarly',
        localDate: LOCAL_DATE,
        edition: 'morning',
        readerId: reader.id,
        listId: mail.listId,
        unsubscribeUrl: links.oneClick(reader, MORNING_MS),
      });
    });
    const stop = stopwatch();
    await Promise.all(messages.map((message) => pool.sendMail(message)));
    const pace = stop(readers);
    pool.close();
    return pace;
  };

  /** @param views how many hours of their own the readers fish, each with its renderings; 0: those of the lake */
  const ours = async (round: number, views = 0): Promise<Pace> => {
    const record = await openRecord(join(folder, `r${round}-${views}.sqlite`));
    await addReaders(record, readers);
    await issueMorning(record, big);
    if (views > 0) await wishHours(record, views, packRendering(big));
    const transport = createTransport(mail, env);
    const stop = stopwatch();
    const { sent } = await drain(record, drainDeps(transport, { ms: MORNING_MS }));
    const pace = stop(sent);
    if (sent !== readers) throw new Error(`only ${sent} of ${readers} were sent`);
    await transport.close();
    await record.close();
    return pace;
  };

  await bare();
  const bares: Pace[] = [];
  const oursAll: Pace[] = [];
  const ownAll: Pace[] = [];
  for (let round = 0; round < 3; round += 1) {
    bares.push(await bare());
    oursAll.push(await ours(round));
    ownAll.push(await ours(round, VIEWS));
  }
  const median = (xs: number[]): number => [...xs].sort((a, b) => a - b)[Math.floor(xs.length / 2)] ?? 0;
  const show = (paces: Pace[]): string =>
    paces.map((p) => `${p.perSecond.toFixed(0)} (${p.cpuMs.toFixed(2)} ms)`).join(', ');
  const share = (of: (p: Pace) => number): number => median(oursAll.map(of)) / median(bares.map(of));
  const ownShare = (of: (p: Pace) => number): number => median(ownAll.map(of)) / median(oursAll.map(of));
  console.log(
    `${readers} mails, ${mail.connections} connections, DKIM 2048 bits; mails a second (processor time each)`,
  );
  console.log(`bare mailer      ${show(bares)}`);
  console.log(`through outbox   ${show(oursAll)}`);
  console.log(`with ${VIEWS} views    ${show(ownAll)}`);
  console.log(
    `views of one     ${ownShare((p) => p.perSecond).toFixed(2)} in rate, ${ownShare((p) => p.cpuMs).toFixed(2)} in processor time (medians)`,
  );
  console.log(
    `share of bare    ${share((p) => p.perSecond).toFixed(2)} in rate, ${(1 / share((p) => p.cpuMs)).toFixed(2)} in processor time (medians)`,
  );

  const record = await openRecord(join(folder, 'long.sqlite'));
  await fill(record, long);
  globalThis.gc?.();
  const before = process.memoryUsage().rss;
  let peak = before;
  const watch = setInterval(() => (peak = Math.max(peak, process.memoryUsage().rss)), 5);
  const started = performance.now();
  const queued = await issueMorning(record);
  peak = Math.max(peak, process.memoryUsage().rss);
  clearInterval(watch);
  console.log(
    `${queued} readers queued in ${((performance.now() - started) / 1000).toFixed(1)} s, memory ${mib(before)} before, ${mib(peak)} at most`,
  );
  await record.close();
  child.kill();
  rmSync(folder, { recursive: true });
}

/** As many views as an issue makes. */
const VIEWS = 24;

/** Spreads the readers over hours of their own, each with a rendering. */
async function wishHours(record: RecordStore, views: number, json: string): Promise<void> {
  const hours = Array.from(
    { length: views },
    (_, n) => `${String(n % 12).padStart(2, '0')}:${n < 12 ? '00' : '30'}-18:00`,
  );
  await record.db.transaction().execute(async (db) => {
    for (const [n, fishing] of hours.entries())
      await sql`update readers set fishing = ${fishing} where rowid % ${views} = ${n}`.execute(db);
  });
  await storeOwnRenderings(
    record,
    { lakeId: 'ossarly', localDate: LOCAL_DATE, edition: 'morning' },
    hours.map((fishing) => ({
      units: 'us',
      form: 'full',
      own: ownKey({ language: null, fishing }),
      json,
    })),
  );
}

/** A long list, made inside the database so that making it does not count. */
async function fill(record: Awaited<ReturnType<typeof openRecord>>, count: number): Promise<void> {
  await record.db.transaction().execute(async (db) => {
    await sql`insert into readers (id, address, state, origin, units, form, days_mask, earliest_hour, amendments, token_epoch, created_ms)
    with recursive n(i) as (select 0 union all select i + 1 from n where i + 1 < ${count})
    select printf('%036d', i), 'reader' || i || '@post.example', 'active', 'operator', 'us', 'full', 127, 0, 1, 1, 0 from n`.execute(
      db,
    );
    await sql`insert into reader_lakes select id, 'ossarly' from readers`.execute(db);
  });
}

if (process.argv[2] === 'sink') sink();
else await main();
