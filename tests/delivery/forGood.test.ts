/** Leaving, complaining and erasing are for good, whoever still has the address in a list. */
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { importReaders } from '../../src/cli/readersFile.ts';
import {
  addReader,
  confirmSubscription,
  DEFAULT_WISHES,
  eraseAddress,
  eraseByLink,
  forgetUnconfirmed,
  leaveByOneClick,
  reportBounce,
  requestSubscription,
  signToken,
  syncConfigReaders,
  type Purpose,
} from '../../src/delivery/index.ts';
import { eraseLeftBefore, readerByAddress } from '../../src/record/delivery/readers.ts';
import type { RecordStore } from '../../src/record/index.ts';
import { statusOf, statusText } from '../../src/schedule/index.ts';
import { freshRecord } from '../helpers/record.ts';
import { config, issueMorning, MORNING_MS, SECRET } from './kit.ts';

const ADDRESS = 'ana@post.example';
const DAY_MS = 86_400_000;
const wishes = { ...DEFAULT_WISHES, lakes: ['ossarly'] };
const file = config({
  readers: [{ address: ADDRESS, lakes: ['ossarly'], units: 'us', form: 'full', amendments: true }],
});
const empty = mkdtempSync(join(tmpdir(), 'thawline-for-good-'));
let record: RecordStore;
let nowMs: number;

beforeEach(async () => {
  record = await freshRecord();
  nowMs = MORNING_MS;
  await syncConfigReaders(record, file, nowMs);
  expect(await stateOf()).toBe('active');
});
afterEach(() => record.close());

const door = () => ({ nowMs, secret: SECRET, knownLakes: ['ossarly'] });
const rowOf = () => readerByAddress(record, ADDRESS);
const stateOf = async (): Promise<string | undefined> => (await rowOf())?.state;
async function link(purpose: Purpose): Promise<string> {
  const row = await rowOf();
  const claim = { readerId: row?.id ?? '', epoch: row?.token_epoch ?? 0, expiresMs: nowMs + DAY_MS };
  return signToken({ ...claim, purpose }, SECRET);
}
const leave = async () => leaveByOneClick(record, await link('leave-now'), door());
const erase = async () => eraseByLink(record, await link('leave-sure'), door());
/** The next pass of the schedule, with the file as it is; how many copies a morning would have. */
async function nextMorning(): Promise<number> {
  await syncConfigReaders(record, file, nowMs);
  return issueMorning(record);
}
async function imported(): Promise<{ taken: number; away: number }> {
  const path = join(empty, 'club.csv');
  writeFileSync(path, `address,lakes\n${ADDRESS},ossarly\n`);
  return importReaders(record, path, ['ossarly'], nowMs);
}
const afterRetention = async (): Promise<void> => {
  nowMs += 800 * DAY_MS;
  expect(await eraseLeftBefore(record, nowMs - 400 * DAY_MS)).toBe(1);
  expect(await stateOf()).toBeUndefined();
};

describe('a reader of the file who had their address erased', () => {
  it('is not mailed again, by the file, a table or the operator', async () => {
    expect((await erase()).ok).toBe(true);
    expect(await nextMorning()).toBe(0);
    expect(await imported()).toMatchObject({ taken: 0, away: 1 });
    await expect(addReader(record, ADDRESS, { lakes: ['ossarly'] }, door())).rejects.toThrow(
      /had their address erased on 2026-03-06 .*--again/,
    );
    expect(await stateOf()).toBeUndefined();
  });

  it('stands nowhere in the record, only a hash that says nothing without its key', async () => {
    await erase();
    for (const { name } of await record.db.introspection.getTables()) {
      const rows = await record.db
        .selectFrom(name as 'stays_away')
        .selectAll()
        .execute();
      expect(JSON.stringify(rows), name).not.toMatch(/post\.example|ana@/);
      if (name === 'stays_away')
        expect(rows).toMatchObject([{ hash: expect.stringMatching(/^[0-9a-f]{64}$/) }]);
    }
  });

  it('is pointed out to the operator by their place in the file', async () => {
    await erase();
    const status = await statusOf(record, file, nowMs);
    expect(status.unheard).toEqual([{ place: 1, said: 'erased' }]);
    expect(statusText(status, file)).toMatch(/Entry 1 of "readers" in test\.yaml had their address erased/);
    expect(statusText(status, file)).not.toContain(ADDRESS);
  });

  it('comes back by their own confirmed request, and by nobody else’s', async () => {
    await erase();
    await requestSubscription(record, ADDRESS, wishes, door());
    nowMs += 4 * DAY_MS;
    expect(await forgetUnconfirmed(record, nowMs)).toBe(1);
    expect(await nextMorning()).toBe(0);
    await requestSubscription(record, ADDRESS, wishes, door());
    expect((await confirmSubscription(record, await link('confirm'), door())).ok).toBe(true);
    expect(await nextMorning()).toBe(1);
    expect((await statusOf(record, file, nowMs)).unheard).toEqual([]);
  });

  it('comes back when the operator says that they asked again', async () => {
    await eraseAddress(record, ADDRESS, nowMs);
    await addReader(record, ADDRESS, wishes, { ...door(), again: true });
    expect(await nextMorning()).toBe(1);
  });
});

describe('a request that a stranger makes in the name of who left', () => {
  it('leaves them as they were when nobody confirms it', async () => {
    await leave();
    const before = await rowOf();
    nowMs += DAY_MS;
    expect(await requestSubscription(record, ADDRESS, wishes, door())).toBe('taken');
    // A second one, and the lists, while it waits.
    await requestSubscription(record, ADDRESS, wishes, door());
    expect(await imported()).toMatchObject({ taken: 0, away: 1 });
    expect(await nextMorning()).toBe(0);
    nowMs += 4 * DAY_MS;
    expect(await forgetUnconfirmed(record, nowMs)).toBe(0);
    expect(await rowOf()).toMatchObject({ id: before?.id, state: 'left', left_ms: before?.left_ms });
    expect(await nextMorning()).toBe(0);
    expect(await imported()).toMatchObject({ taken: 0, away: 1 });
  });

  it('leaves an address that failed as it was', async () => {
    const { id = '' } = (await rowOf()) ?? {};
    await reportBounce(record, { readerId: id }, 'hard', nowMs);
    await reportBounce(record, { readerId: id }, 'hard', nowMs + DAY_MS);
    expect(await stateOf()).toBe('bounced');
    await requestSubscription(record, ADDRESS, wishes, door());
    await forgetUnconfirmed(record, nowMs + 4 * DAY_MS);
    expect(await stateOf()).toBe('bounced');
  });

  it('brings them back when they confirm it themselves', async () => {
    await leave();
    await requestSubscription(record, ADDRESS, wishes, door());
    await confirmSubscription(record, await link('confirm'), door());
    await forgetUnconfirmed(record, nowMs + 4 * DAY_MS);
    expect(await rowOf()).toMatchObject({ state: 'active', left_ms: null, gone_state: null });
  });
});

describe('when the time is over for which who left is kept', () => {
  it('they are not mailed again', async () => {
    await leave();
    await afterRetention();
    expect(await nextMorning()).toBe(0);
    expect(await imported()).toMatchObject({ taken: 0, away: 1 });
  });

  it('who complained gets not even a letter that a stranger asks for', async () => {
    await reportBounce(record, { address: ADDRESS }, 'complaint', nowMs);
    await afterRetention();
    expect(await requestSubscription(record, ADDRESS, wishes, door())).toBe('taken');
    expect(await stateOf()).toBeUndefined();
    expect(await nextMorning()).toBe(0);
    await expect(addReader(record, ADDRESS, wishes, door())).rejects.toThrow(
      /reported the mails as unwanted/,
    );
  });

  it('an address that failed may be tried by who vouches for it, not by the file', async () => {
    for (const day of [0, 1]) await reportBounce(record, { address: ADDRESS }, 'hard', nowMs + day * DAY_MS);
    await afterRetention();
    expect(await nextMorning()).toBe(0);
    await addReader(record, ADDRESS, wishes, door());
    expect(await nextMorning()).toBe(1);
  });
});

it('a complaint stays one when the reader is erased after it', async () => {
  await reportBounce(record, { address: ADDRESS }, 'complaint', nowMs);
  await eraseAddress(record, ADDRESS, nowMs);
  await expect(addReader(record, ADDRESS, wishes, door())).rejects.toThrow(/reported the mails as unwanted/);
  rmSync(empty, { recursive: true });
});
