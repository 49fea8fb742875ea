/**
 * Delivery against a real SMTP server that greylists, refuses, stalls, drops and accepts without saying so.
 * What a reply class means: RFC 5321 section 4.2.1 (4yz try again, 5yz do not).
 */
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { freshRecord } from '../helpers/record.ts';
import {
  createSender,
  createTransport,
  drain,
  reportBounce,
  type MailTransport,
} from '../../src/delivery/index.ts';
import type { RecordStore } from '../../src/record/index.ts';
import { countOutbox, recentFailures } from '../../src/record/delivery/outbox.ts';
import { nextAttemptMs } from './nextAttempt.ts';
import { getState } from '../../src/record/schedule/runs.ts';
import { readerByAddress, updateReader } from '../../src/record/delivery/readers.ts';
import { addReaders, address, config, drainDeps, issueMorning, MORNING_MS, type Clock } from './kit.ts';
import { smtpServer, type Mood, type TestServer } from './smtp.ts';

/** Enough that each way to fail has several, and a claim takes several rounds; the long form is `npm run test:long`. */
const READERS = process.env['THAWLINE_LONG'] === undefined ? 300 : 1000;

let record: RecordStore;
let clock: Clock;
const open: { close(): Promise<unknown> }[] = [];

beforeEach(async () => {
  record = await freshRecord();
  clock = { ms: MORNING_MS };
});
afterEach(async () => {
  for (const thing of open.splice(0)) await thing.close();
  await record.close();
});

async function start(
  moodOf?: (to: string, nth: number) => Mood,
  connections = 5,
): Promise<[TestServer, MailTransport]> {
  const server = await smtpServer(moodOf);
  const transport = createTransport(
    { ...config().mail, connections },
    { SMTP_URL: server.url },
    // Long enough that a busy machine is not taken for a stalled server, which would make a copy of its own.
    { timeoutsMs: { socketTimeout: 1500, connectionTimeout: 1500, greetingTimeout: 1500 } },
  );
  open.push(transport, server);
  return [server, transport];
}

/** Drains again and again, moving the clock to whatever is next, as the minute-by-minute wake-up would. */
async function drainToTheEnd(transport: MailTransport): Promise<void> {
  for (let round = 0; round < 400; round += 1) {
    const report = await drain(record, drainDeps(transport, clock));
    const next = await nextAttemptMs(record);
    if (next === null) return;
    clock.ms = Math.max(clock.ms + 1000, next, report.pausedUntilMs ?? 0);
  }
  throw new Error('the outbox never emptied');
}

describe('the outbox', () => {
  it(`delivers to ${READERS} readers through greylisting, refusals, stalls, drops and silent acceptance, and loses nobody`, async () => {
    const number = (to: string): number => Number(/\d+/.exec(to)?.[0]);
    const [server, transport] = await start((to, nth) => {
      if (number(to) % 100 === 7) return 'refuse';
      if (nth > 1) return 'accept';
      if (number(to) % 3 === 0) return 'greylist';
      if (number(to) % 50 === 1) return 'drop';
      if (number(to) % 100 === 2) return 'stall';
      if (number(to) % 50 === 4) return 'accept-and-die';
      return 'accept';
    });
    await addReaders(record, READERS);
    expect(await issueMorning(record)).toBe(READERS);
    await drainToTheEnd(transport);

    const dead = Array.from({ length: READERS }, (_, n) => n).filter((n) => n % 100 === 7);
    const alive = READERS - dead.length;
    const lost = Array.from({ length: READERS }, (_, n) => n).filter(
      (n) => !dead.includes(n) && !server.accepted.has(address(n)),
    );
    const copies = [...server.accepted.values()];
    const duplicated = copies.filter((ids) => ids.length > 1);
    const silent = Array.from({ length: READERS }, (_, n) => n).filter(
      (n) => n % 50 === 4 && n % 3 !== 0 && n % 100 !== 7,
    );
    expect(lost).toEqual([]);
    expect(server.accepted.size).toBe(alive);
    // Only where the server took a mail and died before saying so can there be a second copy; never a third.
    expect(duplicated.length).toBe(silent.length);
    expect(duplicated.every((ids) => ids.length === 2 && ids[0] === ids[1])).toBe(true);
    expect(await countOutbox(record)).toEqual({
      pending: 0,
      sending: 0,
      sent: alive,
      failed: dead.length,
      dropped: 0,
    });
    // A permanent refusal is offered exactly once.
    expect(server.offered.filter((to) => to === address(7))).toHaveLength(1);
  });

  it('retries 4xx with growing waits and gives up on 5xx at once, with a sentence and no address for the operator', async () => {
    const [server, transport] = await start((to, nth) =>
      to === address(0) ? (nth < 4 ? 'greylist' : 'accept') : 'refuse-data',
    );
    await addReaders(record, 2);
    await issueMorning(record);
    await drain(record, drainDeps(transport, clock));
    const first = (await nextAttemptMs(record)) ?? 0;
    expect(first - clock.ms).toBeGreaterThanOrEqual(60_000);
    await drainToTheEnd(transport);
    expect(server.accepted.get(address(0))).toHaveLength(1);
    expect(server.offered.filter((to) => to === address(1))).toHaveLength(1);
    const [failure] = await recentFailures(record, 5);
    expect(failure).toMatchObject({ state: 'failed', smtp_code: 554, attempts: 1 });
    expect(failure?.problem).toBe('The mail server answered 554 5.6.0 to DATA.');
  });

  it('drops a morning briefing after its grace window and says so', async () => {
    const [server, transport] = await start(() => 'greylist');
    await addReaders(record, 3);
    await issueMorning(record);
    await drainToTheEnd(transport);
    expect(server.accepted.size).toBe(0);
    expect(clock.ms).toBeLessThan(MORNING_MS + 5 * 3_600_000);
    expect(await countOutbox(record)).toMatchObject({ dropped: 3, pending: 0 });
    expect((await recentFailures(record, 1))[0]?.problem).toBe('Not sent within its grace window.');
  });

  it('queues a reader once however often the issue is repeated', async () => {
    await addReaders(record, 4);
    expect(await issueMorning(record)).toBe(4);
    expect(await issueMorning(record)).toBe(0);
  });

  it('pauses when everything fails, tells the operator once, and goes on after the pause', async () => {
    const [server, transport] = await start(
      (to, nth) => (to.startsWith('reader') && nth === 1 ? 'drop' : 'accept'),
      2,
    );
    await addReaders(record, 60);
    await issueMorning(record);
    const deps = drainDeps(transport, clock);
    const report = await drain(record, {
      ...deps,
      mail: { ...deps.mail, operator: 'keeper@briefing.example' },
    });
    expect(report.pausedUntilMs).toBe(clock.ms + 600_000);
    expect(server.offered.filter((to) => to.startsWith('reader')).length).toBeLessThan(30);
    expect(server.accepted.get('keeper@briefing.example')).toHaveLength(1);
    expect((await drain(record, deps)).sent).toBe(0);
    await drainToTheEnd(transport);
    expect((await countOutbox(record)).sent).toBe(60);
  });

  it('hands claimed rows back when told to stop in the middle', async () => {
    const stop = new AbortController();
    const [server, transport] = await start(() => {
      if (server.offered.length > 20) stop.abort();
      return 'accept';
    });
    await addReaders(record, 100);
    await issueMorning(record);
    await drain(record, drainDeps(transport, clock, { signal: stop.signal }));
    const counts = await countOutbox(record);
    expect(counts.sending).toBe(0);
    expect(counts.pending).toBeGreaterThan(50);
    expect(counts.sent + counts.pending).toBe(100);
    await drain(record, drainDeps(transport, clock));
    expect([...server.accepted.values()].every((ids) => ids.length === 1)).toBe(true);
    expect(server.accepted.size).toBe(100);
  });

  it('never lets two drains at once send the same row', async () => {
    const [server, transport] = await start();
    await addReaders(record, 150);
    await issueMorning(record);
    await Promise.all(['a', 'b', 'c'].map((owner) => drain(record, drainDeps(transport, clock, { owner }))));
    expect(server.accepted.size).toBe(150);
    expect([...server.accepted.values()].every((ids) => ids.length === 1)).toBe(true);
  });

  it('keeps to the rate of a provider and of the whole', async () => {
    const [server, transport] = await start();
    await addReaders(record, 30);
    await issueMorning(record);
    const limit = { count: 10, windowMs: 60_000 };
    const deps = drainDeps(transport, clock, { sender: createSender({ ratePerSecond: 0 }, limit) });
    expect((await drain(record, deps)).sent).toBe(10);
    const before = clock.ms;
    await drain(
      record,
      drainDeps(transport, { ms: clock.ms + 60_000 }, { sender: createSender({ ratePerSecond: 2 }, limit) }),
    );
    expect(server.accepted.size).toBe(20);
    expect(clock.ms).toBe(before);
  });

  it('stops writing to an address refused as unknown on two different days, and to who complains at once', async () => {
    const [, transport] = await start(() => 'refuse');
    const [id = ''] = await addReaders(record, 1);
    await issueMorning(record);
    await drain(record, drainDeps(transport, clock));
    expect((await readerByAddress(record, address(0)))?.state).toBe('active');
    expect(await reportBounce(record, { readerId: id }, 'hard', clock.ms + 1000)).toBe('kept');
    expect(await reportBounce(record, { readerId: id }, 'hard', clock.ms + 86_400_000)).toBe('bounced');
    await addReaders(record, 1, 1);
    expect(await reportBounce(record, { address: address(1) }, 'complaint', clock.ms)).toBe('complained');
    expect(await issueMorning(record)).toBe(0);
  });

  it('sends nothing to somebody who left after the briefing was queued', async () => {
    const [server, transport] = await start();
    const [id = ''] = await addReaders(record, 2);
    await issueMorning(record);
    await updateReader(record, id, { state: 'left' });
    await drain(record, drainDeps(transport, clock));
    expect([...server.accepted.keys()]).toEqual([address(1)]);
    expect(await getState(record, 'delivery-pause')).toBeUndefined();
  });
});
