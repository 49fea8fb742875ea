/** Coming and going by one's own hand: double opt-in, settings by signed link, one click out, the forwarded link. */
import {
  addToOutbox,
  awayOf,
  countPendingSince,
  erasePendingBefore,
  inOneStep,
  insertReader,
  letBack,
  readerByAddress,
  readerById,
  type ReaderWithLakes,
  updateReader,
} from '../record/delivery/index.ts';
import type { Edition, OutboxKind } from '../record/schema/index.ts';
import type { DeliveryRecord } from '../record/index.ts';
import { HOUR_MS } from '../units/time/index.ts';
import { normalAddress } from './headers.ts';
import { NOBODY } from './links.ts';
import {
  changeWishes,
  checkWishes,
  eraseForGood,
  newRow,
  toReader,
  wishColumns,
  type Reader,
  type ReaderWishes,
} from './readers.ts';
import { LIFE_MS, readToken, type Purpose, type TokenProblem } from './tokens.ts';

export interface DoorContext {
  readonly nowMs: number;
  readonly secret: string;
}

/** Confirmations asked for by strangers in one hour, in all: a flood of requests must not become a flood of mail. */
const MAX_CONFIRMATIONS_AN_HOUR = 200;
const utcDate = (ms: number): string => new Date(ms).toISOString().slice(0, 10);

/**
 * Asks for a subscription. The answer is the same whether the address is known or not; at most one confirmation
 * goes to an address each UTC day. `full`: so many have asked within the hour that nobody is written to.
 *
 * @throws ThawlineError `usage` when the address or a wish is none
 */
export async function requestSubscription(
  record: DeliveryRecord,
  address: string,
  wishes: ReaderWishes,
  context: { nowMs: number; knownLakes: readonly string[] },
): Promise<'taken' | 'full'> {
  checkWishes(wishes, context.knownLakes);
  const { nowMs } = context;
  // Before anybody is looked up, so that the answer says nothing about who is known.
  if ((await countPendingSince(record, nowMs - HOUR_MS)) >= MAX_CONFIRMATIONS_AN_HOUR) return 'full';
  const known = await readerByAddress(record, normalAddress(address));
  if (known?.state === 'active' || known?.state === 'complained') return 'taken';
  let id = known?.id;
  if (known === undefined) {
    if ((await awayOf(record, normalAddress(address)))?.said === 'complained') return 'taken';
    const row = newRow(address, wishes, { state: 'pending', origin: 'page', nowMs });
    await insertReader(record, row, wishes.lakes);
    id = row.id;
  } else {
    // Anybody may type an address: until its owner confirms, what they said before is only set aside.
    const gone_state = known.state === 'pending' ? known.gone_state : known.state;
    const change = {
      ...wishColumns(wishes),
      state: 'pending',
      origin: 'page',
      created_ms: nowMs,
      gone_state,
    } as const;
    await updateReader(record, known.id, change, wishes.lakes);
  }
  if (id !== undefined) await letter(record, id, 'confirm', nowMs, LIFE_MS.confirm);
  return 'taken';
}

async function letter(
  record: DeliveryRecord,
  readerId: string,
  edition: Exclude<OutboxKind, Edition>,
  nowMs: number,
  lifeMs: number,
): Promise<void> {
  const entry = { lakeId: '', localDate: utcDate(nowMs), edition, readerId, notBeforeMs: nowMs };
  await addToOutbox(record, [{ ...entry, expiresMs: nowMs + lifeMs }], nowMs);
}

export type LinkProblem = TokenProblem | 'revoked' | 'trial';
export type LinkResult<T> =
  { readonly ok: true; readonly value: T } | { readonly ok: false; readonly problem: LinkProblem };

/** The reader a link speaks for, when it is genuine, in time, for this purpose and not revoked. */
async function readerOf(
  record: DeliveryRecord,
  token: string,
  purpose: Purpose,
  context: DoorContext,
): Promise<LinkResult<ReaderWithLakes>> {
  const read = readToken(token, purpose, context.nowMs, context.secret);
  if (!read.ok) return read;
  if (read.claim.readerId === NOBODY.id) return { ok: false, problem: 'trial' };
  const row = await readerById(record, read.claim.readerId);
  if (row === undefined || row.token_epoch !== read.claim.epoch) return { ok: false, problem: 'revoked' };
  return { ok: true, value: row };
}

/** Looks at a link without acting on it: what a GET may do. */
export async function peekLink(
  record: DeliveryRecord,
  token: string,
  purpose: Purpose,
  context: DoorContext,
): Promise<LinkResult<Reader>> {
  const found = await readerOf(record, token, purpose, context);
  return found.ok ? { ok: true, value: toReader(found.value) } : found;
}

/** Makes a pending reader active. The link works once: a replay after leaving brings nobody back. */
export async function confirmSubscription(
  record: DeliveryRecord,
  token: string,
  context: DoorContext,
): Promise<LinkResult<Reader>> {
  const found = await readerOf(record, token, 'confirm', context);
  if (!found.ok) return found;
  if (found.value.state !== 'pending') return { ok: false, problem: 'revoked' };
  const change = {
    state: 'active',
    confirmed_ms: context.nowMs,
    left_ms: null,
    gone_state: null,
    token_epoch: found.value.token_epoch + 1,
  } as const;
  await inOneStep(record, async (step) => {
    await updateReader(step, found.value.id, change);
    await letBack(step, found.value.address);
  });
  return { ok: true, value: toReader({ ...found.value, ...change }) };
}

/** Changes a reader's wishes by their settings link. */
export async function changeByLink(
  record: DeliveryRecord,
  token: string,
  wishes: ReaderWishes,
  context: DoorContext & { knownLakes: readonly string[] },
): Promise<LinkResult<Reader>> {
  const found = await readerOf(record, token, 'settings', context);
  if (!found.ok) return found;
  await changeWishes(record, found.value.id, wishes, context.knownLakes);
  const row = await readerById(record, found.value.id);
  return row === undefined ? { ok: false, problem: 'revoked' } : { ok: true, value: toReader(row) };
}

/** Makes every link given out so far worthless. */
export async function revokeLinks(record: DeliveryRecord, readerId: string): Promise<void> {
  const row = await readerById(record, readerId);
  if (row !== undefined) await updateReader(record, readerId, { token_epoch: row.token_epoch + 1 });
}

/**
 * One click (RFC 8058): acts at once, is the same when done twice, and works as long as the mail that carries it is kept.
 * Links that were revoked since, a complaint, an erased reader: whoever asks to be left alone is left alone.
 */
export async function leaveByOneClick(
  record: DeliveryRecord,
  token: string,
  context: DoorContext,
): Promise<LinkResult<void>> {
  const read = readToken(token, 'leave-now', context.nowMs, context.secret);
  if (!read.ok) return read;
  const row = await readerById(record, read.claim.readerId);
  if (row !== undefined && row.state !== 'left' && row.state !== 'complained')
    await markLeft(record, row, context.nowMs);
  return { ok: true, value: undefined };
}

/** What the link in the confirmation letter does, after its page asked; the same when done twice. */
export async function leaveByLetter(
  record: DeliveryRecord,
  token: string,
  context: DoorContext,
): Promise<LinkResult<void>> {
  const found = await readerOf(record, token, 'leave-sure', context);
  if (!found.ok) {
    // Done already: leaving has revoked the link that did it.
    const again = readToken(token, 'leave-sure', context.nowMs, context.secret);
    if (!again.ok || found.problem !== 'revoked') return found;
    const row = await readerById(record, again.claim.readerId);
    return row === undefined || row.state === 'left' ? { ok: true, value: undefined } : found;
  }
  await markLeft(record, found.value, context.nowMs);
  return { ok: true, value: undefined };
}

async function markLeft(record: DeliveryRecord, row: ReaderWithLakes, nowMs: number): Promise<void> {
  const change = {
    state: 'left',
    left_ms: nowMs,
    gone_state: null,
    token_epoch: row.token_epoch + 1,
  } as const;
  await updateReader(record, row.id, change);
}

/**
 * What the link in the body does, after its page asked: it may be in the hands of a friend the mail was forwarded
 * to, so it only sends the reader a letter with the link that really ends it; at most one each UTC day.
 */
export async function askToLeave(
  record: DeliveryRecord,
  token: string,
  context: DoorContext,
): Promise<LinkResult<void>> {
  const found = await readerOf(record, token, 'leave-ask', context);
  if (!found.ok) return found;
  if (found.value.state === 'active') {
    await letter(record, found.value.id, 'leave-confirm', context.nowMs, LIFE_MS['leave-sure']);
  }
  return { ok: true, value: undefined };
}

/**
 * Asks for what they told of their days: the settings link may have been forwarded, so the one that shows it goes by a
 * letter to the reader; at most one each UTC day.
 */
export async function askForOutings(
  record: DeliveryRecord,
  token: string,
  context: DoorContext,
): Promise<LinkResult<Reader>> {
  const found = await readerOf(record, token, 'settings', context);
  if (!found.ok) return found;
  if (found.value.state === 'active')
    await letter(record, found.value.id, 'outings-link', context.nowMs, LIFE_MS['own-outings']);
  return { ok: true, value: toReader(found.value) };
}

/**
 * Erases the reader everywhere, on their own request. Only by the link of a letter that went to them: the settings
 * link may have been forwarded, and a friend must not be able to end it.
 *
 * @returns who was erased, so that the last page can still be said in their language
 */
export async function eraseByLink(
  record: DeliveryRecord,
  token: string,
  context: DoorContext,
): Promise<LinkResult<Reader>> {
  const found = await readerOf(record, token, 'leave-sure', context);
  if (!found.ok) return found;
  await eraseForGood(record, found.value, context.nowMs);
  return { ok: true, value: toReader(found.value) };
}

/** Erases who did not confirm in time, unless they had left before somebody asked; returns how many. */
export const forgetUnconfirmed = (record: DeliveryRecord, nowMs: number): Promise<number> =>
  erasePendingBefore(record, nowMs - LIFE_MS.confirm - 86_400_000);
