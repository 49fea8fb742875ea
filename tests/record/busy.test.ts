/** Another process holds the write lock: nothing acknowledged is lost, nobody is held up, and the end is a clear sentence. */
import { execFileSync } from 'node:child_process';
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { setTimeout as sleep } from 'node:timers/promises';
import { sql } from 'kysely';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { openRecord, type RecordStore } from '../../src/record/index.ts';
import { insertReader, readerById, updateReader } from '../../src/record/delivery/readers.ts';
import { claimRun } from '../../src/record/schedule/runs.ts';
import { holdWriteLock } from '../helpers/lockHolder.ts';
import { hourly, START, DAY } from './rows.ts';

let folder: string;
let path: string;
let record: RecordStore;
beforeEach(async () => {
  folder = mkdtempSync(join(tmpdir(), 'record-busy-'));
  path = join(folder, 'record.sqlite');
  record = await openRecord(path);
});
afterEach(async () => {
  await record.close();
  rmSync(folder, { recursive: true, force: true });
});

const READER = {
  id: 'r1',
  address: 'ana@post.example',
  state: 'active',
  origin: 'page',
  units: 'us',
  form: 'full',
  days_mask: 127,
  earliest_hour: 0,
  amendments: 1,
  tackle_json: null,
  token_epoch: 1,
  created_ms: 0,
  confirmed_ms: 0,
  left_ms: null,
  language: null,
  fishing: null,
  asks_reading: null,
  gone_state: null,
} as const;

/** What another process finds in the file. */
function seenElsewhere(query: string): unknown {
  const script = `const { DatabaseSync } = require('@photostructure/sqlite');
    console.log(JSON.stringify(new DatabaseSync(${JSON.stringify(path)}).prepare(${JSON.stringify(query)}).all()))`;
  return JSON.parse(execFileSync(process.execPath, ['-e', script], { encoding: 'utf8' }));
}

describe('while another process holds the write lock', () => {
  it('a write waits for it, and is on the disk when it is acknowledged', async () => {
    await insertReader(record, READER, []);
    const holder = await holdWriteLock(path, [[0, 1500]]);
    await updateReader(record, 'r1', { state: 'left' });
    expect(seenElsewhere('select state from readers')).toEqual([{ state: 'left' }]);
    await holder.done;
  });

  it('a write that returns rows is on the disk too', async () => {
    const holder = await holdWriteLock(path, [[0, 800]]);
    const key = { lakeId: 'tarn', localDate: '2026-03-01', edition: 'morning' } as const;
    expect(await claimRun(record, key, { owner: 'a', nowMs: 1, leaseMs: 9, dueMs: 1 })).toBe(1);
    expect(seenElsewhere('select owner from runs')).toEqual([{ owner: 'a' }]);
    await holder.done;
  });

  it('this process goes on: timers keep time, and reading waits for nobody', async () => {
    await record.putObservations(hourly([1, 2, 3]));
    const holder = await holdWriteLock(path, [[0, 2000]]);
    const write = record.putObservations(hourly([4, 5, 6]));
    let latestMs = 0;
    for (let i = 0; i < 40; i += 1) {
      const before = performance.now();
      await sleep(20);
      const { observations } = await record.view('pine-hollow', START + DAY);
      expect(observations.map(({ value }) => value)).toEqual([1, 2, 3]);
      latestMs = Math.max(latestMs, performance.now() - before);
    }
    // The lock is held 2 s; a wait inside the driver would show as one late round of that length.
    expect(latestMs).toBeLessThan(1000);
    await write;
    expect((await record.view('pine-hollow', START + DAY)).observations.map(({ value }) => value)).toEqual([
      4, 5, 6,
    ]);
    await holder.done;
  });

  it('a write gives up after the stated time with one sentence, and the next one is on the disk', async () => {
    const impatient = await openRecord(path, 300);
    const holder = await holdWriteLock(path, [[0, 1200]]);
    await expect(impatient.putObservations(hourly([1]))).rejects.toMatchObject({
      code: 'record',
      exitCode: 4,
      retryable: true,
      message: expect.stringMatching(/is locked by another process.*nothing was written/),
    });
    await holder.done;
    await insertReader(impatient, READER, []);
    expect(seenElsewhere('select id from readers')).toEqual([{ id: 'r1' }]);
    await impatient.close();
  });
});

describe('the one way to write', () => {
  it('is a transaction: the database refuses a write outside of one', async () => {
    await expect(
      record.db.insertInto('locks').values({ name: 'x', owner: 'x', until_ms: 1 }).execute(),
    ).rejects.toMatchObject({ code: 'record' });
    await expect(sql`delete from runs`.execute(record.db)).rejects.toMatchObject({ code: 'record' });
    const memory = await openRecord(':memory:');
    await expect(sql`delete from runs`.execute(memory.db)).rejects.toMatchObject({ code: 'record' });
    await memory.close();
  });

  it('leaves nothing of a transaction that failed, and the next one is whole', async () => {
    await expect(
      record.db.transaction().execute(async (db) => {
        await insertReader({ db }, READER, ['tarn']);
        throw new Error('the caller changed its mind');
      }),
    ).rejects.toThrow('changed its mind');
    expect(await readerById(record, 'r1')).toBeUndefined();
    await insertReader(record, READER, ['tarn']);
    expect(seenElsewhere('select lake_id from reader_lakes')).toEqual([{ lake_id: 'tarn' }]);
  });
});
