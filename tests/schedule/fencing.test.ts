/** Who is held up past its lease comes too late: what it writes then is refused, by the number of its attempt. */
import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import type { RecordStore } from '../../src/record/index.ts';
import { claimOutbox, finishOutbox, postponeOutbox } from '../../src/record/delivery/outbox.ts';
import { claimRun, endRun } from '../../src/record/schedule/runs.ts';
import { sharedNowMs } from '../../src/record/schedule/workers.ts';
import { issueEdition, sharedClock } from '../../src/schedule/index.ts';
import { addReaders, issueMorning, lake, LOCAL_DATE, MORNING_MS } from '../delivery/kit.ts';
import { freshRecord } from '../helpers/record.ts';
import { deps, made, pipeline } from './kit.ts';

let record: RecordStore;
beforeEach(async () => {
  record = await freshRecord();
});
afterEach(() => record.close());

const key = { lakeId: 'ossarly', localDate: LOCAL_DATE, edition: 'morning' } as const;
const claim = (owner: string, nowMs: number) =>
  claimRun(record, key, { owner, nowMs, leaseMs: 1000, dueMs: MORNING_MS });

describe('a run', () => {
  it('is ended by the attempt that holds it and by no earlier one, not even of the same owner', async () => {
    const first = await claim('a', MORNING_MS);
    expect(first).toBe(1);
    expect(await claim('b', MORNING_MS + 500)).toBeNull();
    const second = await claim('b', MORNING_MS + 2000);
    const third = await claim('a', MORNING_MS + 4000);
    expect([second, third]).toEqual([2, 3]);
    const end = { state: 'issued', nowMs: MORNING_MS + 4500 } as const;
    expect(await endRun(record, key, { owner: 'a', attempt: 1 }, end)).toBe(false);
    expect(await endRun(record, key, { owner: 'b', attempt: 2 }, end)).toBe(false);
    expect(await endRun(record, key, { owner: 'a', attempt: 3 }, end)).toBe(true);
    expect(await claim('b', MORNING_MS + 9000)).toBeNull();
  });

  it('that passed to another while its briefing was made writes nothing: no document, no mail', async () => {
    await addReaders(record, 3);
    const clock = { ms: MORNING_MS };
    let go: () => void = () => undefined;
    const paused = new Promise<void>((resolve) => (go = resolve));
    const slow = deps(record, clock, {
      owner: 'slow',
      pipeline: pipeline({
        makeBriefing: () => paused.then(() => made({ document: { by: 'slow' } })),
      }),
    });
    const quick = deps(record, clock, {
      owner: 'quick',
      pipeline: pipeline({ makeBriefing: () => Promise.resolve(made({ document: { by: 'quick' } })) }),
    });
    const order = { lake: lake(), ...key, dueMs: MORNING_MS, deadlineMs: MORNING_MS + 3 * 3_600_000 };
    const late = issueEdition(slow, order);
    await vi.waitFor(async () => {
      expect(await record.db.selectFrom('runs').select('owner').execute()).toEqual([{ owner: 'slow' }]);
    });
    clock.ms += 11 * 60_000;
    expect(await issueEdition(quick, order)).toEqual({ outcome: 'issued', readers: 3 });
    go();
    expect(await late).toEqual({ outcome: 'taken' });
    const kept = await record.db.selectFrom('briefings').select('document_json').execute();
    expect(kept).toEqual([{ document_json: '{"by":"quick"}' }]);
    expect(await record.db.selectFrom('outbox').select('id').execute()).toHaveLength(3);
  });
});

it('a mail whose lease has passed on is neither ended nor put back by the earlier holder', async () => {
  await addReaders(record, 1);
  await issueMorning(record);
  const take = (owner: string, nowMs: number) =>
    claimOutbox(record, { owner, nowMs, leaseMs: 1000, limit: 5 });
  const [early] = await take('a', MORNING_MS);
  const [later] = await take('a', MORNING_MS + 2000);
  expect(early?.id).toBe(later?.id);
  await finishOutbox(record, early!, 'a', { state: 'failed', nowMs: MORNING_MS + 2500 });
  await postponeOutbox(record, early!, 'a', { atMs: MORNING_MS + 9e9, counted: true });
  const held = await record.db.selectFrom('outbox').select(['state', 'attempts']).execute();
  expect(held).toEqual([{ state: 'sending', attempts: 2 }]);
  await finishOutbox(record, later!, 'a', { state: 'sent', nowMs: MORNING_MS + 2600 });
  expect(await record.db.selectFrom('outbox').select('state').execute()).toEqual([{ state: 'sent' }]);
});

it('a machine whose clock is ten minutes off goes by the clock that all share', async () => {
  const real = Date.now;
  const wrong = vi.spyOn(Date, 'now').mockImplementation(() => real() + 600_000);
  try {
    const clock = sharedClock(record);
    await clock.set();
    const theirs = await sharedNowMs(record);
    expect(Math.abs(clock.now() - theirs)).toBeLessThan(2000);
  } finally {
    wrong.mockRestore();
  }
});
