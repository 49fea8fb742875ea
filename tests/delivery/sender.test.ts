/** What a sender remembers: longer than a round, and across processes where it must. */
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { freshRecord } from '../helpers/record.ts';
import { createSender, drain, type MailTransport } from '../../src/delivery/index.ts';
import type { RecordStore } from '../../src/record/index.ts';
import { undelivered } from '../../src/record/delivery/outbox.ts';
import { getState } from '../../src/record/schedule/runs.ts';
import { writing } from '../../src/record/writing.ts';
import { addReaders, drainDeps, issueMorning, MORNING_MS, type Clock } from './kit.ts';

let record: RecordStore;
let clock: Clock;
beforeEach(async () => {
  record = await freshRecord();
  clock = { ms: MORNING_MS };
});
afterEach(() => record.close());

/** Accepts, or answers every message as told. */
function transport(refuse?: {
  responseCode: number;
  response: string;
  command: string;
}): MailTransport & { tried: number } {
  const self = {
    kind: 'stdout' as const,
    connections: 1,
    tried: 0,
    send: () => {
      self.tried += 1;
      return refuse === undefined
        ? Promise.resolve({ response: 'ok' })
        : Promise.reject(Object.assign(new Error('no'), refuse));
    },
    verify: () => Promise.resolve(),
    close: () => Promise.resolve(),
  };
  return self;
}
const BUSY = { responseCode: 421, response: '421 4.7.0 Try later', command: 'MAIL FROM' };

describe('a provider that asks for patience', () => {
  it('is left alone for two minutes by this process, by one that starts anew, and then no longer', async () => {
    await addReaders(record, 5);
    await issueMorning(record);
    const busy = transport(BUSY);
    await drain(record, drainDeps(busy, clock, { sender: createSender({ ratePerSecond: 0 }) }));
    expect(busy.tried).toBe(1);
    clock.ms += 60_000;
    for (const sender of [createSender({ ratePerSecond: 0 }), createSender({ ratePerSecond: 0 })]) {
      const other = transport();
      await drain(record, drainDeps(other, clock, { sender, owner: 'test|0|1|b' }));
      expect(other.tried).toBe(0);
    }
    clock.ms += 10 * 60_000;
    const free = transport();
    await drain(record, drainDeps(free, clock));
    expect(free.tried).toBe(5);
  });
});

describe('the limit of a receiving domain', () => {
  it('counts what other processes have sent', async () => {
    await addReaders(record, 30);
    await issueMorning(record);
    const limit = { count: 10, windowMs: 60_000 };
    const sender = () => createSender({ ratePerSecond: 0 }, limit);
    expect((await drain(record, drainDeps(transport(), clock, { sender: sender() }))).sent).toBe(10);
    clock.ms += 30_000;
    await writing(record.db, (tx) =>
      tx.updateTable('outbox').set({ next_attempt_ms: clock.ms }).where('state', '=', 'pending').execute(),
    );
    expect((await drain(record, drainDeps(transport(), clock, { sender: sender() }))).sent).toBe(0);
    clock.ms += 31_000;
    expect((await drain(record, drainDeps(transport(), clock, { sender: sender() }))).sent).toBe(10);
  });
});

describe('the pace', () => {
  it('goes on from one round to the next', async () => {
    const sender = createSender({ ratePerSecond: 1 });
    await addReaders(record, 1);
    await issueMorning(record);
    await drain(record, drainDeps(transport(), clock, { sender }));
    expect(sender.rate(clock.ms)).toBeGreaterThan(0);
  });
});

describe('limits that several processes share', () => {
  it('are kept to in parts: so many a minute to one provider, and so many a second in all', async () => {
    await addReaders(record, 12);
    await issueMorning(record);
    const sender = createSender({ ratePerSecond: 10 }, { count: 6, windowMs: 60_000 });
    sender.share(3);
    const startMs = clock.ms;
    const third = transport();
    await drain(record, drainDeps(third, clock, { sender }));
    // A third of six to the one domain of all readers.
    expect(third.tried).toBe(2);
    // A third of ten a second: the second mail leaves 0.3 s after the first.
    expect(clock.ms - startMs).toBe(300);
    sender.share(1);
    const alone = transport();
    clock.ms += 61_000;
    await drain(record, drainDeps(alone, clock, { sender }));
    expect(alone.tried).toBe(6);
  });
});

describe('senders beside each other', () => {
  const REFUSED = { responseCode: 550, response: '550 5.7.1 No', command: 'MAIL FROM' };
  const each = (n: number) => ({ sender: createSender({ ratePerSecond: 0 }), owner: `test|0|${n}|x` });
  /** One mail is due for each that looks. */
  const oneDue = async (n: number): Promise<void> => {
    await writing(record.db, (tx) =>
      tx.updateTable('outbox').set({ next_attempt_ms: 1e15 }).where('state', '=', 'pending').execute(),
    );
    await addReaders(record, 1, n);
    await issueMorning(record);
  };

  it('rest together when each of three has failed once: three system failures in a row', async () => {
    for (let n = 0; n < 3; n += 1) {
      await oneDue(n);
      const report = await drain(record, drainDeps(transport(REFUSED), clock, each(n)));
      expect(report.pausedUntilMs === null).toBe(n < 2);
      clock.ms += 1000;
    }
    const fourth = transport();
    await oneDue(3);
    await drain(record, drainDeps(fourth, clock, each(3)));
    expect(fourth.tried).toBe(0);
    // After the pause one failure is one failure again.
    clock.ms += 10 * 60_000;
    await oneDue(4);
    expect((await drain(record, drainDeps(transport(REFUSED), clock, each(4)))).pausedUntilMs).toBeNull();
  });

  it('forget after ten minutes what the others met, and at once when mails go again', async () => {
    for (const between of [() => (clock.ms += 10 * 60_000), undefined]) {
      for (let n = 0; n < 4; n += 1) {
        await oneDue(n + 10 + (between === undefined ? 10 : 0));
        const isThird = between === undefined && n === 2;
        const way = isThird ? transport() : transport(REFUSED);
        expect((await drain(record, drainDeps(way, clock, each(n)))).pausedUntilMs).toBeNull();
        if (n === 1) between?.();
        clock.ms += 1000;
      }
      clock.ms += 10 * 60_000;
    }
  });

  it('hear of a pause in the middle of a round, before the next batch', async () => {
    await addReaders(record, 20);
    await issueMorning(record);
    const way = transport();
    const other = each(1);
    const paused = {
      ...way,
      send: async () => {
        way.tried += 1;
        // Meanwhile another process stops delivery for all.
        if (way.tried === 4)
          for (let n = 0; n < 3; n += 1) {
            other.sender.fuse.note('system', clock.ms);
            if (n === 2) await drain(record, drainDeps(transport(), clock, other));
          }
        return { response: 'ok' };
      },
    };
    const report = await drain(record, drainDeps(paused, clock, each(0)));
    expect(report.pausedUntilMs).toBe(clock.ms + 600_000);
    // The batch in hand, eight of one connection, is finished.
    expect(way.tried).toBe(8);
    expect((await undelivered(record, clock.ms)).held).toBe(0);
  });

  it('write nothing down while all is well', async () => {
    await addReaders(record, 20);
    await issueMorning(record);
    await drain(record, drainDeps(transport(), clock, each(0)));
    expect(await getState(record, 'delivery-fuse')).toBeUndefined();
  });
});

describe('a mail whose lease ran out while it waited for its turn', () => {
  it('is left to whoever holds it by then, and goes once', async () => {
    await addReaders(record, 4);
    await issueMorning(record);
    const sent: string[] = [];
    const noting = (): MailTransport => ({
      ...transport(),
      send: (message) => {
        sent.push(JSON.stringify(message.to));
        return Promise.resolve({ response: 'ok' });
      },
    });
    // The machine is put to sleep while a mail waits ten seconds; another process finds that the claim has ended.
    const slow = drainDeps(noting(), clock, {
      sender: createSender({ ratePerSecond: 1 / 10 }),
      sleep: async (ms) => {
        clock.ms += ms + 10 * 60_000;
        await drain(record, drainDeps(noting(), clock, { owner: 'test|0|1|b' }));
      },
    });
    await drain(record, slow);
    expect(sent).toHaveLength(4);
    expect(new Set(sent).size).toBe(4);
  });
});
