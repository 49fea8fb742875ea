import type { DeliveryRecord } from '../../src/record/delivery/readers.ts';

/** The instant at which something next falls due; null when nothing waits. */
export async function nextAttemptMs({ db }: DeliveryRecord): Promise<number | null> {
  const row = await db
    .selectFrom('outbox')
    .select((e) => e.fn.min('next_attempt_ms').as('at'))
    .where('state', '=', 'pending')
    .executeTakeFirst();
  return row?.at ?? null;
}
