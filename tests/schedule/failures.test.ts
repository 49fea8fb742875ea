/** Work that fails again and again is seen, left alone for a while, and tried at once or let go when somebody says so. */
import { sql } from 'kysely';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { handleBounces, takeBounce } from '../../src/delivery/index.ts';
import type { RecordStore } from '../../src/record/index.ts';
import { readerByAddress, readerById } from '../../src/record/delivery/readers.ts';
import { decideFailed, failedForGood, schedulePass, statusOf, statusText } from '../../src/schedule/index.ts';
import { watched } from '../../src/schedule/failures.ts';
import { planPass } from '../../src/schedule/work/plan.ts';
import { ThawlineError } from '../../src/units/index.ts';
import { address, addReaders, config, MORNING_MS, type Clock } from '../delivery/kit.ts';
import { freshRecord } from '../helpers/record.ts';
import { deps } from './kit.ts';

let record: RecordStore;
let clock: Clock;
beforeEach(async () => {
  record = await freshRecord();
  clock = { ms: MORNING_MS - 86_400_000 };
});
afterEach(() => record.close());

const MINUTE_MS = 60_000;
const names = async (): Promise<string[]> => (await failedForGood(record)).map(({ what }) => what);
const idOf = async (): Promise<string> => (await failedForGood(record))[0]?.id ?? '';

const rename = (from: string, to: string): Promise<unknown> =>
  record.db.transaction().execute((tx) => sql.raw(`alter table ${from} rename to ${to}`).execute(tx));

describe('a lake whose pass fails', () => {
  it('needs the operator after five failures in a row, and no longer once it succeeds', async () => {
    await rename('refreshes', 'refreshes_away');
    for (let n = 1; n <= 5; n += 1) {
      expect(await names()).toEqual([]);
      await schedulePass(deps(record, clock));
      clock.ms += MINUTE_MS;
    }
    expect(await names()).toEqual(['lake ossarly']);
    await rename('refreshes_away', 'refreshes');
    const status = await statusOf(record, config(), clock.ms);
    expect(status.ok).toBe(false);
    expect(status.queue.failed).toMatchObject([{ attempts: 5, sinceMs: MORNING_MS - 86_400_000 }]);
    expect(statusText(status, config())).toMatch(
      /! job-\d+: lake ossarly has failed 5 times since .*thawline jobs/,
    );
    await schedulePass(deps(record, clock));
    expect(await names()).toEqual([]);
  });
});

/** A job that fails as often as it is done. */
const fail = (key: { queue: string; key: string }, error: Error = new Error('no')): Promise<void> =>
  watched({ record, now: () => clock.ms }, key, () => Promise.reject(error)).catch(() => undefined);

describe('a job that failed', () => {
  const RETENTION = { queue: 'retention', key: 'retention' };
  const asked = async (): Promise<string[]> => {
    const queues: string[] = [];
    const engine = {
      ask: (queue: string) => Promise.resolve(void queues.push(queue)),
      serve: () => undefined,
      stop: () => Promise.resolve(),
    };
    await planPass(deps(record, clock), engine);
    return queues;
  };

  it('is asked for at once, then after growing whiles, and hourly when it failed for good', async () => {
    const waits: number[] = [];
    for (let n = 0; n < 6; n += 1) {
      await fail(RETENTION);
      const fromMs = clock.ms;
      while (!(await asked()).includes('retention')) clock.ms += MINUTE_MS;
      waits.push((clock.ms - fromMs) / MINUTE_MS);
    }
    expect(waits).toEqual([0, 1, 2, 4, 60, 60]);
    expect(await names()).toEqual(['retention retention']);
  });

  it('is told of without what another program said, which may be an address', async () => {
    for (let n = 0; n < 5; n += 1) await fail(RETENTION, new Error('reader0@post.example is full'));
    expect(JSON.stringify(await failedForGood(record))).not.toContain('post.example');
  });

  it('never keeps an issue from being asked for', async () => {
    clock.ms = MORNING_MS;
    for (let n = 0; n < 9; n += 1) await fail({ queue: 'issue', key: 'ossarly 2026-03-06 morning' });
    expect(await asked()).toContain('issue');
  });

  it('does not count while the database is away: nothing is wrong with the work', async () => {
    const away = new ThawlineError('record', 'PostgreSQL cannot be reached.', { retryable: true });
    for (let n = 0; n < 9; n += 1) await fail(RETENTION, away);
    expect(await names()).toEqual([]);
  });

  it('is tried again when the operator says so, and is let go when they say that', async () => {
    for (let n = 0; n < 5; n += 1) await fail(RETENTION);
    expect(await asked()).not.toContain('retention');
    expect(await decideFailed(record, await idOf(), 'retry', clock.ms)).toBe('retention retention');
    expect(await asked()).toContain('retention');
    for (let n = 0; n < 5; n += 1) await fail(RETENTION);
    await decideFailed(record, await idOf(), 'drop', clock.ms);
    expect(await names()).toEqual([]);
  });

  it.each(['job-77', 'bounce-none', 'job-', 'job-1e9', 'mail-1', ''])(
    'is not found under a name that nothing has: "%s"',
    async (name) => {
      for (const decision of ['retry', 'drop'] as const)
        await expect(decideFailed(record, name, decision, clock.ms)).rejects.toMatchObject({ code: 'usage' });
    },
  );
});

describe('a bounce report that cannot be handled', () => {
  beforeEach(async () => {
    await addReaders(record, 2);
    for (const n of [0, 1])
      await takeBounce(record, { id: `r${n}`, address: address(n), kind: 'complaint' }, clock.ms);
  });
  const stateOf = async (n: number): Promise<string | undefined> => {
    const row = await readerByAddress(record, address(n));
    return (await readerById(record, row?.id ?? ''))?.state;
  };

  it('is kept, seen after five attempts, and handled when it is tried again', async () => {
    await rename('bounces', 'bounces_away');
    for (let n = 0; n < 5; n += 1) {
      expect(await handleBounces(record, clock.ms)).toBe(0);
      clock.ms += 60 * MINUTE_MS;
    }
    expect(await names()).toEqual(['bounce report (complaint)', 'bounce report (complaint)']);
    expect((await statusOf(record, config(), clock.ms)).ok).toBe(false);
    await rename('bounces_away', 'bounces');
    await decideFailed(record, 'bounce-r0', 'retry', clock.ms);
    await decideFailed(record, 'bounce-r1', 'drop', clock.ms);
    expect(await handleBounces(record, clock.ms)).toBe(1);
    expect([await stateOf(0), await stateOf(1)]).toEqual(['complained', 'active']);
    expect(await names()).toEqual([]);
  });
});
