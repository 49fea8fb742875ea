/** Killed in the middle of sending, again and again: nobody is lost, and a second copy has the Message-ID of the first. */
import { spawn, type ChildProcess } from 'node:child_process';
import { once } from 'node:events';
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { setTimeout as sleep } from 'node:timers/promises';
import { afterAll, expect, it } from 'vitest';
import { openRecord } from '../../src/record/index.ts';
import { builtChild } from '../helpers/builtChild.ts';
import { addReaders, config, issueMorning } from './kit.ts';
import { smtpServer } from './smtp.ts';

/** 8 keep the suite short; `THAWLINE_KILLS=50` is the long form. */
const KILLS = Number(process.env['THAWLINE_KILLS'] ?? 8);
const READERS = KILLS * 40;
const CONNECTIONS = config().mail.connections;
const folder = mkdtempSync(join(tmpdir(), 'kill-'));
afterAll(() => rmSync(folder, { recursive: true }));

/** Same sequence in every run, so that a failure can be looked at again. */
function lehmer(seed: number): () => number {
  let state = seed;
  return () => (state = (state * 48271) % 2147483647) / 2147483647;
}

it(
  `loses nobody over ${KILLS} kills, and repeats at most the ${CONNECTIONS} mails that were on the wire`,
  { timeout: 1_800_000 },
  async () => {
    const path = join(folder, 'record.sqlite');
    const script = await builtChild('tests/delivery/killChild.ts');
    const record = await openRecord(path);
    await addReaders(record, READERS);
    await issueMorning(record);
    const server = await smtpServer(() => 'accept', { answerAfterMs: 6 });
    const startMs = Date.now();
    const random = lehmer(20260306);

    // The next one loads while the present one works; it does nothing before it is told to.
    const spawnOne = async (): Promise<ChildProcess> => {
      const child = spawn(process.execPath, [script, path, server.url, String(startMs)], {
        stdio: ['ignore', 'ignore', 'inherit', 'ipc'],
      });
      await once(child, 'message');
      return child;
    };
    let next = spawnOne();
    const onTheWire: number[] = [];
    for (let kill = 0; kill < KILLS; kill += 1) {
      const child = await next;
      next = spawnOne();
      const before = server.log.length;
      child.send('go');
      while (server.log.length === before) await sleep(2);
      await sleep(random() * 120);
      child.kill('SIGKILL');
      await once(child, 'exit');
      const sent = await record.db
        .selectFrom('outbox')
        .innerJoin('readers', 'readers.id', 'outbox.reader_id')
        .select('address')
        .where('outbox.state', '=', 'sent')
        .execute();
      const noted = new Set(sent.map((row) => row.address));
      onTheWire.push(new Set(server.log.slice(before).filter((to) => !noted.has(to))).size);
    }
    const last = await next;
    last.send('go');
    await once(last, 'exit');

    const copies = [...server.accepted.values()];
    const repeated = copies.reduce((n, ids) => n + ids.length - 1, 0);
    await record.close();
    await server.close();
    expect(READERS - server.accepted.size, 'lost').toBe(0);
    expect(Math.max(...onTheWire)).toBeLessThanOrEqual(CONNECTIONS);
    expect(repeated).toBeLessThanOrEqual(onTheWire.reduce((a, b) => a + b, 0));
    expect(copies.every((ids) => new Set(ids).size === 1)).toBe(true);
    if (process.env['THAWLINE_FIGURES'] !== undefined) {
      process.stderr.write(
        `${JSON.stringify({ kills: KILLS, readers: READERS, lost: 0, repeated, mostOnTheWire: Math.max(...onTheWire) })}\n`,
      );
    }
  },
);
