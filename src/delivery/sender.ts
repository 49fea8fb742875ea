/**
 * What a sender remembers from mail to mail: its pace, what each provider had of late, who asked for patience. It lives
 * as long as the process; what a restart or a second process must know is read from the record at each round.
 */
import * as z from 'zod';
import type { DeliveryRecord } from '../record/index.ts';
import { sentSince } from '../record/delivery/index.ts';
import { changeState, getState, putState } from '../record/schedule/index.ts';
import {
  domainWindows,
  evenRate,
  fuse,
  together,
  type Fuse,
  type Heard,
  type WindowLimit,
} from './limits.ts';

export interface Sender {
  /** Wait before the next mail may leave, ms. */
  readonly rate: (nowMs: number) => number;
  readonly domains: ReturnType<typeof domainWindows>;
  readonly fuse: Fuse;
  readonly limit: WindowLimit;
  /** Tells among how many processes the limits are shared; each keeps to its part of them. */
  readonly share: (processes: number) => void;
  /** How many they are; 1 unless told. */
  readonly shared: () => number;
}

/** To one receiving domain; common practice, no source. */
const PER_DOMAIN: WindowLimit = { count: 600, windowMs: 60_000 };

/**
 * The limits that all mail of a process goes through.
 *
 * @param mail  `ratePerSecond`: mails a second over all processes, above 0
 * @param limit to one receiving domain over all processes
 */
export function createSender(
  mail: { readonly ratePerSecond: number },
  limit: WindowLimit = PER_DOMAIN,
): Sender {
  let processes = 1;
  const shared = (): number => processes;
  return {
    rate: evenRate(mail.ratePerSecond, shared),
    domains: domainWindows(limit, shared),
    fuse: fuse(),
    limit,
    share: (n) => {
      processes = Math.max(1, n);
    },
    shared,
  };
}

/** How long a provider that says 421 is left alone. */
const HOLD_MS = 2 * 60_000;
const HOLDS_KEY = 'delivery-holds';
const holdsSchema = z.record(z.string(), z.number());

function holdsIn(value: unknown, nowMs: number): Record<string, number> {
  const read = holdsSchema.safeParse(value);
  if (!read.success) return {};
  // One further ahead than any can be was noted by a clock that ran ahead.
  return Object.fromEntries(
    Object.entries(read.data).filter(([, untilMs]) => untilMs > nowMs && untilMs <= nowMs + HOLD_MS),
  );
}

/** Brings the sender up to what other processes, and earlier ones, have sent and been told. */
export async function rememberSent(record: DeliveryRecord, sender: Sender, nowMs: number): Promise<void> {
  for (const [domain, untilMs] of Object.entries(holdsIn(await getState(record, HOLDS_KEY), nowMs)))
    sender.domains.hold(domain, untilMs);
  // With a part of the limit for each, what the others sent is theirs.
  if (sender.shared() > 1) return;
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
  const more = { [domain]: nowMs + HOLD_MS };
  await changeState(record, HOLDS_KEY, (kept) => ({ ...holdsIn(kept, nowMs), ...more }), nowMs);
}

const FUSE_KEY = 'delivery-fuse';
const heardSchema = z.array(z.object({ atMs: z.number(), outcome: z.enum(['good', 'bad', 'system']) }));
const isTrouble = ({ outcome }: Heard): boolean => outcome !== 'good';

/**
 * Tells the others what this process heard, and goes by what all have heard: three senders that fail once each have
 * failed three times. Where all is well nothing is written.
 *
 * @returns whether delivery must stop
 */
export async function shareOutcomes(
  record: DeliveryRecord,
  { fuse: mine }: Sender,
  nowMs: number,
): Promise<boolean> {
  const heardIn = (value: unknown): Heard[] => together(heardSchema.safeParse(value).data ?? [], [], nowMs);
  const untold = mine.untold();
  if (![...heardIn(await getState(record, FUSE_KEY)), ...untold].some(isTrouble)) return false;
  let all: Heard[] = [];
  const add = (kept: unknown): Heard[] => (all = together(heardIn(kept), untold, nowMs));
  await changeState(record, FUSE_KEY, add, nowMs);
  return mine.learn(all, nowMs);
}

/** After delivery was stopped: what led to it is not counted a second time, here or elsewhere. */
export async function forgetOutcomes(record: DeliveryRecord, sender: Sender, nowMs: number): Promise<void> {
  sender.fuse.clear();
  await putState(record, FUSE_KEY, [], nowMs);
}
