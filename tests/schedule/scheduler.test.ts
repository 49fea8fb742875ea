/** The running schedule: one process works while a second waits, a stop hands back, amendments, status, `send`. */
import { setTimeout as sleep } from 'node:timers/promises';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { freshRecord } from '../helpers/record.ts';
import { addReader, DEFAULT_WISHES, messageId } from '../../src/delivery/index.ts';
import { listBriefings } from '../../src/record/schedule/briefings.ts';
import type { RecordStore } from '../../src/record/index.ts';
import { countOutbox } from '../../src/record/delivery/outbox.ts';
import { getState, holdLock, lockHolder } from '../../src/record/schedule/runs.ts';
import {
  amends,
  deliverPass,
  ownerName,
  runOnce,
  runScheduler,
  schedulePass,
  sendNow,
  statusOf,
  statusText,
  type MadeBriefing,
} from '../../src/schedule/index.ts';
import { holdScheduler } from '../../src/schedule/lock.ts';
import { isDead } from '../../src/schedule/owner.ts';
import { config, LOCAL_DATE, MORNING_MS, type Clock } from '../delivery/kit.ts';
import { counting, deps, made, pipeline } from './kit.ts';

const HOUR_MS = 3_600_000;
let record: RecordStore;
let clock: Clock;

beforeEach(async () => {
  record = await freshRecord();
  clock = { ms: MORNING_MS };
  const wishes = { ...DEFAULT_WISHES, lakes: ['ossarly'] };
  await addReader(record, 'ana@post.example', wishes, { knownLakes: ['ossarly'], nowMs: clock.ms });
});
afterEach(() => record.close());

describe('a pass', () => {
  it('refreshes, issues, archives and queues in one go, and does nothing the second time', async () => {
    const work = deps(record, clock);
    await schedulePass(work);
    await schedulePass(work);
    expect(await countOutbox(record)).toMatchObject({ pending: 1 });
    expect((await listBriefings(record, 'ossarly', 5)).map((b) => b.localDate)).toEqual([LOCAL_DATE]);
  });

  it('tries a failed issue again and writes the failure down without the text of foreign errors', async () => {
    const broken = pipeline({
      makeBriefing: () => Promise.reject(new Error('could not write to ana@post.example')),
    });
    await schedulePass(deps(record, clock, { pipeline: broken }));
    const row = await record.db.selectFrom('runs').selectAll().executeTakeFirstOrThrow();
    expect(row).toMatchObject({ state: 'failed', problem: 'The program failed (Error).' });
    clock.ms += 60_000;
    await schedulePass(deps(record, clock));
    expect(await record.db.selectFrom('runs').select(['state', 'attempts']).execute()).toEqual([
      { state: 'issued', attempts: 2 },
    ]);
  });

  it('lets one broken lake not hold up the other', async () => {
    const settings = config();
    const [lake] = settings.lakes;
    if (lake === undefined) throw new Error('no lake');
    const two = { ...settings, lakes: [{ ...lake, id: 'bad', zone: 'America/Chicago' }, lake] };
    const stub = pipeline({
      makeBriefing: (id) => (id === 'bad' ? Promise.reject(new Error('x')) : Promise.resolve(made())),
    });
    await schedulePass(deps(record, clock, { pipeline: stub }, two));
    const rows = await record.db.selectFrom('runs').select(['lake_id', 'state']).orderBy('lake_id').execute();
    expect(rows).toEqual([
      { lake_id: 'bad', state: 'failed' },
      { lake_id: 'ossarly', state: 'issued' },
    ]);
  });

  it('tells the operator before the issue when mail cannot leave, and afterwards when a morning was missed', async () => {
    clock.ms = MORNING_MS - 86_400_000;
    const transport = counting(clock);
    const settings = config({}, { operator: 'keeper@briefing.example' });
    await schedulePass(deps(record, clock, { transport }, settings));
    clock.ms = MORNING_MS - 20 * 60_000;
    const dead = {
      ...transport,
      verify: () => Promise.reject(Object.assign(new Error('no'), { code: 'ECONNREFUSED' })),
    };
    await schedulePass(deps(record, clock, { transport: dead }, settings));
    expect(await getState(record, 'preflight:ossarly')).toMatchObject({
      localDate: LOCAL_DATE,
      problems: [
        'The way out for mail does not work. The connection to the mail server failed (ECONNREFUSED).',
      ],
    });
    await deliverPass(deps(record, clock, { transport }, settings));
    clock.ms = MORNING_MS + 20 * HOUR_MS;
    await schedulePass(deps(record, clock, { transport }, settings));
    await deliverPass(deps(record, clock, { transport }, settings));
    const letters = transport.sent.filter((m) => m.to === 'keeper@briefing.example').map((m) => m.subject);
    expect(letters).toEqual(['Morning briefing: something needs you', 'A briefing was missed']);
  });
});

describe('an amendment', () => {
  it('is made when a level rises or the first position changes, not when a level falls', () => {
    const morning = { safety_level: 2, first_place: 'bluff' };
    const now = (safetyLevel: MadeBriefing['safetyLevel'], firstPlace = 'bluff') =>
      amends(morning, { safetyLevel, firstPlace });
    expect([now(2), now(1), now(3), now(2, 'point')]).toEqual([false, false, true, true]);
  });

  it('follows its briefing in the thread, at most once a day, only to who wants it', async () => {
    const transport = counting(clock);
    const wishes = { ...DEFAULT_WISHES, lakes: ['ossarly'], amendments: false };
    await addReader(record, 'bo@post.example', wishes, { knownLakes: ['ossarly'], nowMs: clock.ms });
    let level: MadeBriefing['safetyLevel'] = 2;
    const stub = pipeline({ makeBriefing: () => Promise.resolve(made({ safetyLevel: level })) });
    const pass = async (): Promise<void> => {
      const work = deps(record, clock, { transport, pipeline: stub });
      await schedulePass(work);
      await deliverPass(work);
      clock.ms += 3 * HOUR_MS;
    };
    await pass();
    expect(transport.sent).toHaveLength(2);
    level = 3;
    await pass();
    level = 4;
    await pass();
    expect(transport.sent).toHaveLength(3);
    const [, , amendment] = transport.sent;
    const reader = await record.db
      .selectFrom('readers')
      .select('id')
      .where('address', '=', 'ana@post.example')
      .executeTakeFirstOrThrow();
    const key = {
      lakeId: 'ossarly',
      localDate: LOCAL_DATE,
      edition: 'morning',
      readerId: reader.id,
    } as const;
    expect(amendment?.to).toBe('ana@post.example');
    expect(amendment?.inReplyTo).toBe(messageId(key, config().mail.from));
  });
});

describe('two processes', () => {
  it('do not both work: the second waits until the first is gone', async () => {
    const first = deps(record, clock, { owner: 'other|1|1|a' });
    const second = deps(record, clock, { owner: 'host|1|2|b' });
    expect(await holdScheduler(first)).toBe(true);
    expect(await holdScheduler(second)).toBe(false);
    expect(await runOnce(second)).toBeNull();
    clock.ms += 89_000;
    expect(await holdScheduler(first)).toBe(true);
    clock.ms += 89_000;
    expect(await holdScheduler(second)).toBe(false);
    clock.ms += 2_000;
    expect(await holdScheduler(second)).toBe(true);
    expect(await holdScheduler(first)).toBe(false);
  });

  it('do not wait for a holder that died on this machine, nor for one from the future', async () => {
    const self = ownerName();
    const [host = '', space = ''] = self.split('|');
    // Above the largest pid Linux gives out (2^22).
    expect(isDead(`${host}|${space}|4999999|x`, self)).toBe(space !== 'none');
    expect(isDead(self, self)).toBe(false);
    expect(isDead(`elsewhere|${space}|4999999|x`, self)).toBe(false);
    await holdLock(record, 'scheduler', { owner: 'a', nowMs: clock.ms + 9 * HOUR_MS, ttlMs: 90_000 });
    expect(await holdScheduler(deps(record, clock, { owner: self }))).toBe(true);
  });
});

describe('the process', () => {
  it('works at start without waiting for a wake-up, and on a stop finishes the mail under way and hands the rest back', async () => {
    const stop = new AbortController();
    const wishes = { ...DEFAULT_WISHES, lakes: ['ossarly'] };
    for (let n = 0; n < 20; n += 1) {
      await addReader(record, `r${n}@post.example`, wishes, { knownLakes: ['ossarly'], nowMs: clock.ms });
    }
    const transport = counting(clock);
    const slow = {
      ...transport,
      send: async (message: Parameters<typeof transport.send>[0]) => {
        await sleep(20);
        const result = await transport.send(message);
        if (transport.sent.length === 4) stop.abort();
        return result;
      },
    };
    await runScheduler({ ...deps(record, clock, { transport: slow }), signal: stop.signal });
    const counts = await countOutbox(record);
    expect(counts.sending).toBe(0);
    expect(counts.sent).toBe(transport.sent.length);
    expect(counts.sent + counts.pending).toBe(21);
    expect(counts.pending).toBeGreaterThan(10);
    expect(await lockHolder(record, 'scheduler')).toBeUndefined();
  });
});

describe('send', () => {
  it('mails each reader once a local date however often it is called, and who came later too', async () => {
    const transport = counting(clock);
    clock.ms += 7 * HOUR_MS;
    expect(await sendNow(deps(record, clock, { transport }), 'ossarly')).toMatchObject({
      issued: true,
      sent: 1,
    });
    expect(await sendNow(deps(record, clock, { transport }), 'ossarly')).toMatchObject({
      issued: false,
      sent: 0,
    });
    const wishes = { ...DEFAULT_WISHES, lakes: ['ossarly'] };
    await addReader(record, 'bo@post.example', wishes, { knownLakes: ['ossarly'], nowMs: clock.ms });
    expect(await sendNow(deps(record, clock, { transport }), 'ossarly')).toMatchObject({
      issued: false,
      sent: 1,
    });
    await expect(sendNow(deps(record, clock), 'nowhere')).rejects.toThrow(/No lake/);
  });
});

describe('status', () => {
  it('says of each lake what was and what comes, and ends well only when all is well', async () => {
    const work = deps(record, clock);
    expect((await statusOf(record, work.config, clock.ms)).ok).toBe(false);
    await schedulePass(work);
    await deliverPass(work);
    const status = await statusOf(record, work.config, clock.ms);
    expect(status).toMatchObject({ ok: true, pausedUntilMs: null });
    expect(status.lakes[0]).toMatchObject({
      lake: 'ossarly',
      lastIssue: { localDate: LOCAL_DATE, edition: 'morning', atMs: MORNING_MS },
      nextIssueMs: MORNING_MS + 24 * HOUR_MS,
      readers: 1,
      delivered: 1,
      pending: 0,
      failed: 0,
      missed: [],
      problems: [],
    });
    expect(statusText(status, work.config)).toContain('next issue     Sat 7 Mar 05:15 CST');
    expect(JSON.stringify(status)).not.toContain('post.example');
  });

  it('says that an issue lies in the future after a clock that ran ahead was set right, and is well once it is forgotten', async () => {
    const ahead = { ms: clock.ms + 24 * HOUR_MS };
    await schedulePass(deps(record, ahead));
    const work = deps(record, clock);
    const status = await statusOf(record, work.config, clock.ms);
    expect(status.ok).toBe(false);
    expect(status.lakes[0]?.problems).toEqual(
      expect.arrayContaining([
        expect.stringMatching(/^The last issue lies in the future/),
        expect.stringMatching(/^The last refresh lies in the future/),
      ]),
    );
    expect(statusText(status, work.config)).toContain('needs you');
    await schedulePass(work);
    await deliverPass(work);
    expect((await statusOf(record, work.config, clock.ms)).lakes[0]?.problems).toEqual([]);
  });

  it('turns to needing the operator when a morning was missed or data is old', async () => {
    const work = deps(record, clock);
    await schedulePass(work);
    clock.ms += 28 * HOUR_MS;
    await schedulePass(work);
    const status = await statusOf(record, work.config, clock.ms);
    expect(status.ok).toBe(false);
    expect(status.lakes[0]?.missed).toEqual(['2026-03-07']);
    const later = await statusOf(record, work.config, clock.ms + 13 * HOUR_MS);
    expect(later.lakes[0]?.problems).toContain('No fresh data for twelve hours.');
  });
});
