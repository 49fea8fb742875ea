/** What undeliverable mail and complaints do to a reader. */
import {
  bounceDays,
  type BounceReport,
  changeBounceReport,
  inOneStep,
  nextBounceReport,
  noteBounce,
  putBounceReport,
  readerByAddress,
  readerById,
  updateReader,
} from '../record/delivery/index.ts';
import type { DeliveryRecord } from '../record/index.ts';
import { ThawlineError } from '../units/index.ts';
import { normalAddress } from './headers.ts';

/**
 * The rule, common practice without a source: an address that does not exist on two different days, or that could
 * not be reached on five days of fourteen, gets no more mail; a complaint ends it at once.
 */
const BOUNCE_RULE = { hardDays: 2, softDays: 5, windowMs: 14 * 86_400_000 } as const;

export type BounceKind = 'hard' | 'soft' | 'complaint';

/** Notes a bounce of a reader and applies the rule. Returns the state the reader is in afterwards. */
export async function reportBounce(
  record: DeliveryRecord,
  who: { readerId: string } | { address: string },
  kind: BounceKind,
  nowMs: number,
): Promise<'unknown' | 'kept' | 'bounced' | 'complained'> {
  const row =
    'readerId' in who
      ? await readerById(record, who.readerId)
      : await readerByAddress(record, normalAddress(who.address));
  if (row === undefined) return 'unknown';
  const utc_date = new Date(nowMs).toISOString().slice(0, 10);
  await noteBounce(record, { reader_id: row.id, kind, utc_date, at_ms: nowMs });
  if (kind === 'complaint') {
    const change = {
      state: 'complained',
      left_ms: nowMs,
      gone_state: null,
      token_epoch: row.token_epoch + 1,
    } as const;
    await updateReader(record, row.id, change);
    return 'complained';
  }
  const days = await bounceDays(record, row.id, kind, nowMs - BOUNCE_RULE.windowMs);
  if (days < (kind === 'hard' ? BOUNCE_RULE.hardDays : BOUNCE_RULE.softDays)) return 'kept';
  if (row.state === 'active') await updateReader(record, row.id, { state: 'bounced', left_ms: nowMs });
  return 'bounced';
}

/** What failed so often in a row needs the operator. */
export const FOR_GOOD = 5;
/** At once after the first failure, so that a chance costs nothing; hourly when it has failed for good. */
const WAITS_MS = [0, 1, 2, 4].map((minutes) => minutes * 60_000);

/** How long work that failed is left alone, ms. */
export const waitAfterMs = (attempts: number): number => WAITS_MS[attempts - 1] ?? 3_600_000;

/** How long the provider's own ids of reports are known: by then nobody sends one again. */
export const REPORTS_MS = 30 * 86_400_000;

/**
 * Takes a report down, for whoever handles it. One that was taken down before counts for nothing, on whichever day and to
 * whichever process it is sent again.
 *
 * @param id tells this report from others
 */
export async function takeBounce(
  record: DeliveryRecord,
  { id, address, kind }: { readonly id: string; readonly address: string; readonly kind: BounceKind },
  nowMs: number,
): Promise<void> {
  const row = await readerByAddress(record, normalAddress(address));
  if (row !== undefined) await putBounceReport(record, { id, reader_id: row.id, kind, at_ms: nowMs });
}

/** Handles every report that waits, each in a step of its own. One that cannot be handled holds up no other. */
export async function handleBounces(record: DeliveryRecord, nowMs: number): Promise<number> {
  for (let handled = 0; ;) {
    let report: BounceReport | undefined;
    try {
      await inOneStep(record, async (step) => {
        report = await nextBounceReport(step, nowMs);
        if (report === undefined) return;
        await reportBounce(step, { readerId: report.reader_id }, report.kind, report.at_ms);
        await changeBounceReport(step, report.id, { handled_ms: nowMs, problem: null });
      });
      if (report === undefined) return handled;
      handled += 1;
    } catch (error) {
      // The record itself is away: no fault of the report.
      if (report === undefined || (error instanceof ThawlineError && error.retryable)) throw error;
      const attempts = report.attempts + 1;
      const problem = error instanceof ThawlineError ? error.message : 'The program failed.';
      // Never due again within this look, or one that always fails would keep it going.
      const next_ms = nowMs + Math.max(60_000, waitAfterMs(attempts));
      await changeBounceReport(record, report.id, { attempts, next_ms, problem });
    }
  }
}
