/**
 * What a sender remembers from mail to mail: its pace, what each provider had of late, who asked for patience. It lives
 * as long as the process; what a restart or a second process must know is read from the record at each round.
 */
import * as z from 'zod';
import type { DeliveryRecord } from '../record/delivery/readers.ts';
import { sentSince } from '../record/delivery/outbox.ts';
import { getState, putState } from '../record/schedule/runs.ts';
import { domainWindows, evenRate, fuse, type WindowLimit } from './limits.ts';

export interface Sender {
  /** Wait before the next mail may leave, ms. */
  readonly rate: (nowMs: number) => number;
  readonly domains: ReturnType<typeof domainWindows>;
  readonly fuse: ReturnType<typeof fuse>;
  readonly limit: WindowLimit;
}

/** To one receiving domain; common practice, no source. */
const PER_DOMAIN: WindowLimit = { count: 600, windowMs: 60_000 };

export function createSender(
  mail: { readonly ratePerSecond: number },
  limit: WindowLimit = PER_DOMAIN,
): Sender {
  return { rate: evenRate(mail.ratePerSecond), domains: domainWindows(limit), fuse: fuse(), limit };
}

/** How long a provider that says 421 is left alone. */
export const HOLD_MS = 2 * 60_000;
const HOLDS_KEY = 'delivery-holds';
const holdsSchema = z.record(z.string(), z.number());

async function holdsOf(record: DeliveryRecord, nowMs: number): Promise<Record<string, number>> {
  const read = holdsSchema.safeParse(await getState(record, HOLDS_KEY));
  if (!read.success) return {};
  // One further ahead than any can be was noted by a clock that ran ahead.
  return Object.fromEntries(
    Object.entries(read.data).filter(([, untilMs]) => untilMs > nowMs && untilMs <= nowMs + HOLD_MS),
  );
}

/** Brings the sender up to what other processes, and earlier ones, have sent and been told. */
export async function rememberSent(record: DeliveryRecord, sender: Sender, nowMs: number): Promise<void> {
  for (const [domain, untilMs] of Object.entries(await holdsOf(record, nowMs)))
    sender.domains.hold(domain, untilMs);
  sender.domains.remember(await sentSince(record, nowMs - sender.limit.windowMs, nowMs), nowMs);
}

/** Leaves a provider alone, here and in every other process. */
export async function holdDomain(
  record: DeliveryRecord,
  sender: Sender,
  domain: string,
  nowMs: number,
): Promise<void> {
  sender.domains.hold(domain, nowMs + HOLD_MS);
  await putState(record, HOLDS_KEY, { ...(await holdsOf(record, nowMs)), [domain]: nowMs + HOLD_MS }, nowMs);
}
