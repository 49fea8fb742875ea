/** Letters to the operator: kept in the record until they could be sent, at most one each six hours. */
import * as z from 'zod';
import { getState, putState } from '../record/schedule/index.ts';
import type { DeliveryRecord } from '../record/index.ts';
import { headerText, normalAddress, sender } from './headers.ts';
import type { MailTransport } from './transport.ts';

const letterSchema = z.object({
  subject: z.string(),
  text: z.string(),
  waiting: z.boolean(),
  sentMs: z.number(),
});
const KEY = 'operator-letter';
const QUIET_MS = 6 * 3_600_000;

/** Keeps a letter for the operator; a newer one replaces one that still waits. Never put an address or token in it. */
export async function tellOperator(
  record: DeliveryRecord,
  subject: string,
  text: string,
  nowMs: number,
): Promise<void> {
  const last = letterSchema.safeParse(await getState(record, KEY));
  const sentMs = last.success ? last.data.sentMs : 0;
  if (sentMs > nowMs - QUIET_MS && sentMs <= nowMs) return;
  await putState(record, KEY, { subject, text, waiting: true, sentMs }, nowMs);
}

/** Sends the letter that waits, if any. False when it could not go; it then waits on. */
export async function sendOperatorLetter(
  record: DeliveryRecord,
  mail: { from: string; operator?: string },
  transport: MailTransport,
  nowMs: number,
): Promise<boolean> {
  const letter = letterSchema.safeParse(await getState(record, KEY));
  if (mail.operator === undefined || !letter.success || !letter.data.waiting) return true;
  const from = sender(mail.from);
  const to = normalAddress(mail.operator);
  try {
    await transport.send({
      from,
      to: { name: '', address: to },
      envelope: { from: from.address, to: [to] },
      subject: headerText(letter.data.subject),
      text: letter.data.text,
      headers: { 'Auto-Submitted': 'auto-generated' },
    });
  } catch {
    return false;
  }
  await putState(record, KEY, { ...letter.data, waiting: false, sentMs: nowMs }, nowMs);
  return true;
}
