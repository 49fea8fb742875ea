/** What `send` and `run --once` say of mails that did not arrive: the count and the exit code 6, never "done". */
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { freshRecord } from '../helpers/record.ts';
import { demandDelivered } from '../../src/cli/mailOutcome.ts';
import { addReader, createSender, DEFAULT_WISHES, type MailTransport } from '../../src/delivery/index.ts';
import type { RecordStore } from '../../src/record/index.ts';
import { claimOutbox, countOutbox } from '../../src/record/delivery/outbox.ts';
import { refreshOf } from '../../src/record/schedule/runs.ts';
import { writing } from '../../src/record/writing.ts';
import { runOnce, sendNow, statusOf, statusText } from '../../src/schedule/index.ts';
import { ThawlineError } from '../../src/units/index.ts';
import { addReaders, config, MORNING_MS, type Clock } from '../delivery/kit.ts';
import { counting, deps } from './kit.ts';

let record: RecordStore;
let clock: Clock;
beforeEach(async () => {
  record = await freshRecord();
  clock = { ms: MORNING_MS };
});
afterEach(() => record.close());

const exitOf = (report: Awaited<ReturnType<typeof sendNow>>): { code: number; said: string } => {
  try {
    demandDelivered(report, report.left);
    return { code: 0, said: '' };
  } catch (error) {
    if (!(error instanceof ThawlineError)) throw error;
    return { code: error.exitCode, said: error.message };
  }
};

const failing = (clock: Clock, error: object): MailTransport => ({
  ...counting(clock),
  send: () => Promise.reject(Object.assign(new Error('no'), error)),
});

describe('thawline send', () => {
  it('ends well when everybody has it', async () => {
    await addReaders(record, 3);
    const report = await sendNow(deps(record, clock), 'ossarly');
    expect(report.left).toEqual({ waiting: 0, later: 0, held: 0 });
    expect(exitOf(report).code).toBe(0);
  });

  it('counts who waits for the limit of a provider, now and when it is called again', async () => {
    await addReaders(record, 30);
    const sender = createSender({ ratePerSecond: 0 }, { count: 10, windowMs: 60_000 });
    const report = await sendNow(deps(record, clock, { sender }), 'ossarly');
    expect(report).toMatchObject({ sent: 10, left: { waiting: 20, held: 0 } });
    expect(exitOf(report)).toEqual({
      code: 6,
      said: expect.stringContaining('10 delivered, 20 wait for another attempt'),
    });
    const again = await sendNow(deps(record, clock, { sender }), 'ossarly');
    expect(again).toMatchObject({ sent: 0, left: { waiting: 20 } });
    expect(exitOf(again).code).toBe(6);
  });

  it('counts who is refused for now', async () => {
    await addReaders(record, 2);
    const transport = failing(clock, { responseCode: 451, response: '451 4.7.1 Later', command: 'RCPT TO' });
    const report = await sendNow(deps(record, clock, { transport }), 'ossarly');
    expect(exitOf(report)).toEqual({
      code: 6,
      said: expect.stringContaining('0 delivered, 2 wait for another attempt'),
    });
    // As the error promises.
    const status = await statusOf(record, config(), clock.ms);
    expect(status.lakes[0]?.waitsBecause).toMatch(/451|later/i);
    expect(statusText(status, config())).toMatch(/they wait {6}\S/);
    // Mails that are due are told on the lake's clock, as all else of it is.
    const due = {
      ...status,
      queue: { ...status.queue, dueMails: 2, oldestDueMs: Date.UTC(2026, 2, 6, 11, 15) },
    };
    const [lake] = config().lakes;
    expect(statusText(due, { ...config(), lakes: [{ ...lake!, zone: 'America/Chicago' }] })).toContain(
      'mails due: 2, the oldest since Fri 6 Mar 05:15 CST',
    );
    const apart = ['America/Chicago', 'America/New_York'].map((zone) => ({ ...lake!, zone }));
    expect(statusText(due, { ...config(), lakes: apart })).toContain('the oldest since Fri 6 Mar 11:15 UTC');
  });

  it('counts who waits for a login that is refused, and says until when delivery rests', async () => {
    await addReaders(record, 5);
    const transport = failing(clock, { code: 'EAUTH', responseCode: 535, response: '535 no' });
    const report = await sendNow(deps(record, clock, { transport }), 'ossarly');
    expect(exitOf(report)).toEqual({
      code: 6,
      said: expect.stringMatching(/5 wait.*Delivery rests until 2026-/),
    });
  });

  it('counts what another sender holds, and takes over from one that died here', async () => {
    await addReaders(record, 4);
    const work = deps(record, clock, {
      transport: failing(clock, { responseCode: 451, response: '451 x', command: 'DATA' }),
    });
    await sendNow(work, 'ossarly');
    await writing(record.db, (tx) => tx.updateTable('outbox').set({ next_attempt_ms: clock.ms }).execute());
    const claim = { nowMs: clock.ms, leaseMs: 600_000, limit: 2 };
    await claimOutbox(record, { ...claim, owner: 'elsewhere|1|2|x' });
    const report = await sendNow(deps(record, clock), 'ossarly');
    expect(report).toMatchObject({ sent: 2, left: { held: 2 } });
    expect(exitOf(report)).toEqual({ code: 6, said: expect.stringContaining('2 held by another sender') });
    expect(await countOutbox(record)).toMatchObject({ sent: 2, sending: 2 });
  });

  it('that is called again after every mail was refused for good does not end well', async () => {
    await addReaders(record, 3);
    const transport = failing(clock, { responseCode: 552, response: '552 too large', command: 'DATA' });
    for (const issued of [true, false]) {
      const report = await sendNow(deps(record, clock, { transport }), 'ossarly');
      expect(report).toMatchObject({ issued, sent: 0, failed: 3 });
      expect(exitOf(report)).toEqual({
        code: 6,
        said: expect.stringContaining('0 delivered, 3 failed for good') as string,
      });
    }
  });

  it('does not complain of readers whose hour has not come', async () => {
    const wishes = { ...DEFAULT_WISHES, lakes: ['ossarly'], earliestHour: 9 };
    await addReader(record, 'late@post.example', wishes, { knownLakes: ['ossarly'], nowMs: clock.ms });
    const report = await sendNow(deps(record, clock), 'ossarly');
    expect(report.left).toEqual({ waiting: 0, later: 1, held: 0 });
    expect(exitOf(report).code).toBe(0);
  });

  it('notes its refresh, so that status knows of the data', async () => {
    await addReaders(record, 1);
    await sendNow(deps(record, clock), 'ossarly');
    expect((await refreshOf(record, 'ossarly'))?.ok_ms).toBe(MORNING_MS);
    const [lake] = (await statusOf(record, config(), clock.ms)).lakes;
    expect(lake?.problems).not.toContain('No fresh data for twelve hours.');
  });
});

describe('thawline run --once', () => {
  it('counts what it could not deliver', async () => {
    await addReaders(record, 2);
    const transport = failing(clock, { responseCode: 451, response: '451 x', command: 'DATA' });
    const report = await runOnce(deps(record, clock, { transport }));
    expect(report).toMatchObject({ sent: 0, left: { waiting: 2 } });
  });
});
