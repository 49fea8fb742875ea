/**
 * The gate of the write path: another process takes the write lock again and again while mails go out, readers come and
 * leave, data arrive and the record is tidied. Nothing acknowledged is lost; at most the open connections repeat.
 */
import { execFileSync } from 'node:child_process';
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { setTimeout as sleep } from 'node:timers/promises';
import { afterAll, expect, it } from 'vitest';
import { createTransport } from '../../src/delivery/index.ts';
import { openRecord } from '../../src/record/index.ts';
import { nextAttemptMs } from './nextAttempt.ts';
import { insertReader, updateReader } from '../../src/record/delivery/readers.ts';
import { newRow, DEFAULT_WISHES } from '../../src/delivery/readers.ts';
import { deliverPass } from '../../src/schedule/index.ts';
import { holdWriteLock } from '../helpers/lockHolder.ts';
import { deps } from '../schedule/kit.ts';
import { addReaders, config, issueMorning, MORNING_MS } from './kit.ts';
import { smtpServer } from './smtp.ts';

/** Seconds that the lock is held, each once; `npm run test:long` takes longer ones. */
const HOLDS_S = (process.env['THAWLINE_HOLDS_S'] ?? '0.3,1,2').split(',').map(Number);
const READERS = 150;
const folder = mkdtempSync(join(tmpdir(), 'locked-'));
afterAll(() => rmSync(folder, { recursive: true }));

/** Rows as another process finds them. */
function seenElsewhere(path: string, query: string): Record<string, unknown>[] {
  const script = `const { DatabaseSync } = require('@photostructure/sqlite');
    console.log(JSON.stringify(new DatabaseSync(${JSON.stringify(path)}).prepare(${JSON.stringify(query)}).all()))`;
  const root = fileURLToPath(new URL('../..', import.meta.url));
  return JSON.parse(
    execFileSync(process.execPath, ['-e', script], { encoding: 'utf8', cwd: root, maxBuffer: 1e8 }),
  ) as Record<string, unknown>[];
}

it(
  `loses no acknowledged write while the lock is held elsewhere for ${HOLDS_S.join(', ')} s`,
  { timeout: 1_800_000 },
  async () => {
    const path = join(folder, 'record.sqlite');
    const record = await openRecord(path);
    const leavers = await addReaders(record, 60, 1000);
    await addReaders(record, READERS);
    await issueMorning(record);
    for (const id of leavers) await updateReader(record, id, { state: 'active' });
    const settings = config({ recordPath: path });
    const server = await smtpServer(() => 'accept', { answerAfterMs: 4 });
    const transport = createTransport(settings.mail, { SMTP_URL: server.url });
    const startMs = Date.now();
    const clock = {
      get ms() {
        return MORNING_MS + Date.now() - startMs;
      },
    };
    const work = deps(
      record,
      clock,
      {
        transport,
        sleep: async (ms) => {
          await sleep(ms);
        },
      },
      settings,
    );
    // In an order that differs from run to run.
    const plan = HOLDS_S.map((s) => [50 + Math.random() * 250, s * 1000] as const).sort(
      () => Math.random() - 0.5,
    );
    const holder = await holdWriteLock(path, plan);
    let isOver = false;
    const over = holder.done.then(() => (isOver = true));
    const acknowledged = { left: [] as string[], joined: [] as string[], stored: 0 };

    const leaving = (async () => {
      for (const id of leavers) {
        await updateReader(record, id, { state: 'left', left_ms: clock.ms });
        acknowledged.left.push(id);
        await sleep(10);
      }
    })();
    const joining = (async () => {
      for (let n = 0; n < 40 || !isOver; n += 1) {
        const row = newRow(
          `new${n}@post.example`,
          { ...DEFAULT_WISHES, lakes: ['ossarly'] },
          {
            state: 'pending',
            origin: 'page',
            nowMs: clock.ms,
          },
        );
        await insertReader(record, row, ['ossarly']);
        acknowledged.joined.push(row.id);
        await sleep(10);
      }
    })();
    const refreshing = (async () => {
      for (let n = 0; n < 20 || !isOver; n += 1) {
        const base = {
          lake: 'ossarly',
          variable: 'air_temp',
          source: 'test',
          station: '',
          kind: 'observed',
        } as const;
        await record.putObservations([
          { ...base, atMs: MORNING_MS + n * 1000, periodS: 0, value: n, issuedMs: null },
        ]);
        acknowledged.stored += 1;
        await sleep(20);
      }
    })();
    const tidying = (async () => {
      for (let n = 0; n < 3 || !isOver; n += 1) {
        await record.compact(MORNING_MS);
        await sleep(50);
      }
    })();
    while ((await nextAttemptMs(record)) !== null) await deliverPass(work);
    await Promise.all([leaving, joining, refreshing, tidying, over]);
    while ((await nextAttemptMs(record)) !== null) await deliverPass(work);

    const states = new Map(
      seenElsewhere(path, 'select id, state from readers').map(({ id, state }) => [id, state]),
    );
    expect(acknowledged.left.filter((id) => states.get(id) !== 'left')).toEqual([]);
    expect(acknowledged.joined.filter((id) => !states.has(id))).toEqual([]);
    expect(seenElsewhere(path, 'select count(*) as n from observation')).toEqual([
      { n: acknowledged.stored },
    ]);
    const open = seenElsewhere(path, "select id from outbox where state in ('pending', 'sending')");
    expect(open).toEqual([]);
    const sent = seenElsewhere(
      path,
      "select address from outbox join readers on readers.id = reader_id where outbox.state = 'sent'",
    );
    expect(sent.filter(({ address }) => !server.accepted.has(String(address)))).toEqual([]);
    const copies = [...server.accepted.values()];
    expect(server.accepted.size).toBeGreaterThanOrEqual(READERS);
    expect(copies.reduce((n, ids) => n + ids.length - 1, 0)).toBeLessThanOrEqual(settings.mail.connections);
    expect(copies.every((ids) => new Set(ids).size === 1)).toBe(true);
    await transport.close();
    await server.close();
    await record.close();
  },
);
