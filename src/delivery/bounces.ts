/** What undeliverable mail and complaints do to a reader. */
import {
  bounceDays,
  noteBounce,
  readerByAddress,
  readerById,
  updateReader,
} from '../record/delivery/readers.ts';
import type { DeliveryRecord } from '../record/delivery/readers.ts';
import { normalAddress } from './headers.ts';

/**
 * The rule, common practice without a source: an address that does not exist on two different days, or that could
 * not be reached on five days of fourteen, gets no more mail; a complaint ends it at once.
 */
export const BOUNCE_RULE = { hardDays: 2, softDays: 5, windowMs: 14 * 86_400_000 } as const;

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
    const change = { state: 'complained', left_ms: nowMs, token_epoch: row.token_epoch + 1 } as const;
    await updateReader(record, row.id, change);
    return 'complained';
  }
  const days = await bounceDays(record, row.id, kind, nowMs - BOUNCE_RULE.windowMs);
  if (days < (kind === 'hard' ? BOUNCE_RULE.hardDays : BOUNCE_RULE.softDays)) return 'kept';
  if (row.state === 'active') await updateReader(record, row.id, { state: 'bounced', left_ms: nowMs });
  return 'bounced';
}
