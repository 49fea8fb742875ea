/** Coming, changing, leaving: nobody is mailed who did not ask, and everybody gets out. One click: RFC 8058. */
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { simpleParser } from 'mailparser';
import type { Config } from '../../src/config/types.ts';
import { freshRecord } from '../helpers/record.ts';
import {
  addReader,
  askToLeave,
  changeWishes,
  changeByLink,
  confirmSubscription,
  createTransport,
  DEFAULT_WISHES,
  drain,
  eraseAddress,
  eraseByLink,
  forgetUnconfirmed,
  leaveByLetter,
  leaveByOneClick,
  listReaders,
  peekLink,
  readToken,
  requestSubscription,
  revokeLinks,
  signToken,
  syncConfigReaders,
  type Reader,
} from '../../src/delivery/index.ts';
import type { RecordStore } from '../../src/record/index.ts';
import { readerByAddress } from '../../src/record/delivery/readers.ts';
import { config, drainDeps, issueMorning, MORNING_MS, SECRET, type Clock } from './kit.ts';

const ADDRESS = 'ana@post.example';
const wishes = { ...DEFAULT_WISHES, lakes: ['ossarly'] };
const DAY_MS = 86_400_000;
let record: RecordStore;
let clock: Clock;
let sent: string[];

beforeEach(async () => {
  record = await freshRecord();
  clock = { ms: MORNING_MS };
  sent = [];
});
afterEach(() => record.close());

const door = (): { nowMs: number; secret: string; knownLakes: string[] } => ({
  nowMs: clock.ms,
  secret: SECRET,
  knownLakes: ['ossarly'],
});
const ask = (address = ADDRESS): Promise<'taken' | 'full'> =>
  requestSubscription(record, address, wishes, door());
const stateOf = async (address = ADDRESS): Promise<string | undefined> =>
  (await readerByAddress(record, address))?.state;

/** Empties the outbox and returns what was sent, as text. */
async function deliver(): Promise<string[]> {
  const before = sent.length;
  const stdout = { write: (part: string | Uint8Array) => sent.push(Buffer.from(part).toString()) };
  const transport = createTransport({ ...config().mail, transport: 'stdout' }, {}, { stdout });
  await drain(record, drainDeps(transport, clock));
  return sent.slice(before).filter((part) => part.trim() !== '');
}

async function linkIn(mail: string, path: string): Promise<string> {
  const { text } = await simpleParser(mail);
  const token = new RegExp(`${path}\\?t=(\\S+)`).exec(text ?? '')?.[1];
  if (token === undefined) throw new Error(`no ${path} link`);
  return token;
}

async function subscribed(): Promise<{ mail: string; confirm: string }> {
  await ask();
  const [mail = ''] = await deliver();
  const confirm = await linkIn(mail, '/confirm');
  expect((await confirmSubscription(record, confirm, door())).ok).toBe(true);
  return { mail, confirm };
}

async function morningMail(): Promise<string> {
  await issueMorning(record);
  const [mail = ''] = await deliver();
  return mail;
}

const oneClickToken = (mail: string): string =>
  /^List-Unsubscribe: <[^>]*\?t=([^>]+)>/m.exec(mail)?.[1] ?? '';

describe('subscribing', () => {
  it('mails nothing but a confirmation before it was confirmed', async () => {
    await ask();
    expect(await stateOf()).toBe('pending');
    expect(await issueMorning(record)).toBe(0);
    const [mail = '', ...more] = await deliver();
    expect(more).toEqual([]);
    expect(mail).toContain('Confirm your morning briefing');
    await confirmSubscription(record, await linkIn(mail, '/confirm'), door());
    expect(await stateOf()).toBe('active');
    expect(await issueMorning(record)).toBe(1);
  });

  it('answers a known address like an unknown one and sends at most one confirmation a day', async () => {
    await ask();
    await ask();
    expect(await deliver()).toHaveLength(1);
    await ask();
    expect(await deliver()).toHaveLength(0);
    await addReader(record, 'known@post.example', wishes, door());
    await ask('known@post.example');
    await ask('unknown@post.example');
    expect(await deliver()).toHaveLength(1);
  });

  it('sends no more than 200 confirmations an hour, however many ask', async () => {
    for (let n = 0; n < 260; n += 1) await ask(`x${n}@post.example`);
    expect(await deliver()).toHaveLength(200);
  });

  it('refuses a confirmation that is forged, late, for something else or used', async () => {
    const { confirm } = await subscribed();
    expect(await confirmSubscription(record, confirm, door())).toEqual({ ok: false, problem: 'revoked' });
    const [body = '', tag = ''] = confirm.split('.');
    const forged = [
      `${body}.${'A'.repeat(22)}`,
      `${body.slice(0, -1)}x.${tag}`,
      '',
      'a.b',
      confirm + 'A',
      `${body}.${tag}.${tag}`,
    ];
    for (const token of forged) {
      expect(await confirmSubscription(record, token, door())).toEqual({ ok: false, problem: 'forged' });
    }
    const claim = { readerId: 'r', epoch: 1, expiresMs: clock.ms + 1000 };
    const other = signToken({ ...claim, purpose: 'settings' }, SECRET);
    expect(readToken(other, 'confirm', clock.ms, SECRET)).toEqual({ ok: false, problem: 'wrong-purpose' });
    const late = signToken({ ...claim, purpose: 'confirm' }, SECRET);
    expect(readToken(late, 'confirm', clock.ms + 2000, SECRET)).toEqual({ ok: false, problem: 'expired' });
    expect(readToken(late, 'confirm', clock.ms, SECRET.toUpperCase())).toEqual({
      ok: false,
      problem: 'forged',
    });
  });

  it('does not bring anybody back when the old confirmation is replayed after leaving', async () => {
    const { confirm } = await subscribed();
    await leaveByOneClick(record, oneClickToken(await morningMail()), door());
    expect((await confirmSubscription(record, confirm, door())).ok).toBe(false);
    expect(await stateOf()).toBe('left');
  });

  it('forgets who never confirmed', async () => {
    await ask();
    expect(await forgetUnconfirmed(record, clock.ms + 2 * DAY_MS)).toBe(0);
    expect(await forgetUnconfirmed(record, clock.ms + 4 * DAY_MS)).toBe(1);
    expect(await stateOf()).toBeUndefined();
  });
});

describe('leaving', () => {
  it('is one POST with the token of the header, and a second POST is no error', async () => {
    await subscribed();
    const token = oneClickToken(await morningMail());
    expect((await peekLink(record, token, 'leave-now', door())).ok).toBe(true);
    expect(await stateOf()).toBe('active');
    expect((await leaveByOneClick(record, token, door())).ok).toBe(true);
    expect(await stateOf()).toBe('left');
    expect((await leaveByOneClick(record, token, door())).ok).toBe(true);
  });

  it('by the link in the body only sends a letter to the reader: a friend cannot end it', async () => {
    await subscribed();
    const mail = await morningMail();
    const inBody = await linkIn(mail, '/leave');
    for (const act of [leaveByOneClick, leaveByLetter]) {
      expect(await act(record, inBody, door())).toEqual({ ok: false, problem: 'wrong-purpose' });
    }
    expect((await askToLeave(record, inBody, door())).ok).toBe(true);
    expect(await stateOf()).toBe('active');
    await askToLeave(record, inBody, door());
    const letters = await deliver();
    expect(letters).toHaveLength(1);
    expect(letters[0]).toMatch(/^To: ana@post\.example/m);
    expect((await leaveByLetter(record, await linkIn(letters[0] ?? '', '/leave/sure'), door())).ok).toBe(
      true,
    );
    expect(await stateOf()).toBe('left');
  });

  it('is not undone by the configuration file', async () => {
    const reader = {
      address: ADDRESS,
      lakes: ['ossarly'],
      units: 'us',
      form: 'full',
      amendments: true,
    } as const;
    await syncConfigReaders(record, config({ readers: [reader] }), clock.ms);
    expect(await stateOf()).toBe('active');
    await leaveByOneClick(record, oneClickToken(await morningMail()), door());
    await syncConfigReaders(record, config({ readers: [reader] }), clock.ms);
    expect(await stateOf()).toBe('left');
  });

  it('erases the address everywhere in the record', async () => {
    await subscribed();
    await issueMorning(record);
    expect(await eraseAddress(record, ' Ana@Post.Example ', clock.ms)).toBe(true);
    const tables = await record.db.introspection.getTables();
    for (const { name } of tables) {
      const rows = await record.db
        .selectFrom(name as 'readers')
        .selectAll()
        .execute();
      expect(JSON.stringify(rows), name).not.toContain('post.example');
    }
    expect(await deliver()).toEqual([]);
  });
});

describe('settings', () => {
  it('are changed by the link in the mail, without a password', async () => {
    await subscribed();
    const token = await linkIn(await morningMail(), '/settings');
    const changed = { ...wishes, units: 'metric', form: 'short', days: [6, 7], earliestHour: 7 } as const;
    const result = await changeByLink(record, token, changed, door());
    expect(result.ok && result.value).toMatchObject({
      units: 'metric',
      form: 'short',
      days: [6, 7],
      earliestHour: 7,
    });
    // 6 March 2026 is a Friday; this reader now wants weekends only.
    expect(await issueMorning(record)).toBe(0);
    await expect(changeByLink(record, token, { ...changed, lakes: ['elsewhere'] }, door())).rejects.toThrow(
      /lakes/,
    );
  });

  it('link expires after 45 days, can be revoked, and cannot erase: a friend may hold it', async () => {
    await subscribed();
    const token = await linkIn(await morningMail(), '/settings');
    const later = { ...door(), nowMs: clock.ms + 47 * DAY_MS };
    expect(await peekLink(record, token, 'settings', later)).toEqual({ ok: false, problem: 'expired' });
    const row = await readerByAddress(record, ADDRESS);
    await revokeLinks(record, row?.id ?? '');
    expect(await peekLink(record, token, 'settings', door())).toEqual({ ok: false, problem: 'revoked' });
    expect(await eraseByLink(record, token, door())).toEqual({ ok: false, problem: 'wrong-purpose' });
    expect(await stateOf()).toBe('active');
  });

  it('end in erasure by the link of a letter that went to the reader', async () => {
    await subscribed();
    await askToLeave(record, await linkIn(await morningMail(), '/leave'), door());
    const [letter = ''] = await deliver();
    expect((await eraseByLink(record, await linkIn(letter, '/leave/sure'), door())).ok).toBe(true);
    expect(await stateOf()).toBeUndefined();
  });

  it('hold a copy back until the earliest hour at the lake', async () => {
    await addReader(record, ADDRESS, { ...wishes, earliestHour: 7 }, door());
    await issueMorning(record);
    expect(await deliver()).toEqual([]);
    clock.ms = Date.parse('2026-03-06T13:00:00Z'); // 07:00 in Chicago before the spring change
    expect(await deliver()).toHaveLength(1);
  });
});

describe('the earliest hour of a reader in the configuration file', () => {
  const reader = {
    address: ADDRESS,
    lakes: ['ossarly'],
    units: 'us',
    form: 'full',
    amendments: true,
  } as const;
  const sync = (more: Partial<Config['readers'][number]>): Promise<void> =>
    syncConfigReaders(record, config({ readers: [{ ...reader, ...more }] }), clock.ms);
  const hour = async (): Promise<number | undefined> =>
    (await readerByAddress(record, ADDRESS))?.earliest_hour;

  it('is taken when the reader is new, and when the file changes', async () => {
    await sync({ earliestHour: 7 });
    expect(await hour()).toBe(7);
    await sync({ earliestHour: 9 });
    expect(await hour()).toBe(9);
    await sync({ earliestHour: 0 });
    expect(await hour()).toBe(0);
  });

  it('is the reader’s own choice while the file names none', async () => {
    await sync({});
    expect(await hour()).toBe(0);
    const known = await readerByAddress(record, ADDRESS);
    await changeWishes(record, known?.id ?? '', { ...wishes, earliestHour: 8 }, ['ossarly']);
    await sync({});
    expect(await hour()).toBe(8);
  });

  it('and so are the hours they fish and their language', async () => {
    const kept = async () => {
      const row = await readerByAddress(record, ADDRESS);
      return [row?.fishing, row?.language];
    };
    await sync({ fishing: { from: '05:30', to: '09:00' } });
    expect(await kept()).toEqual(['05:30-09:00', null]);
    const known = await readerByAddress(record, ADDRESS);
    const own = { ...wishes, fishing: { from: '15:00', to: '19:00' }, language: 'en' } as const;
    await changeWishes(record, known?.id ?? '', own, ['ossarly']);
    await sync({});
    expect(await kept()).toEqual(['15:00-19:00', 'en']);
    await sync({ fishing: { from: '05:30', to: '09:00' } });
    expect(await kept()).toEqual(['05:30-09:00', 'en']);
  });
});

describe('the list', () => {
  it('merges the configuration file with the record and drops who is taken out of the file', async () => {
    const reader = (name: string) =>
      ({
        address: `${name}@post.example`,
        lakes: ['ossarly'],
        units: 'us',
        form: 'full',
        amendments: true,
      }) as const;
    await addReader(record, 'page@post.example', wishes, door());
    await syncConfigReaders(record, config({ readers: [reader('a'), reader('b')] }), clock.ms);
    await syncConfigReaders(record, config({ readers: [reader('b')] }), clock.ms);
    const all: Reader[] = [];
    for await (const r of listReaders(record)) all.push(r);
    expect(all.map((r) => [r.address, r.origin]).sort()).toEqual([
      ['b@post.example', 'config'],
      ['page@post.example', 'operator'],
    ]);
  });
});
