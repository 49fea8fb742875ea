/** Reports of bounces as they came from the mail provider: taken down first, handled then, each once. */
import type { Selectable } from 'kysely';
import { isPostgres } from '../dialect/index.ts';
import type { BounceReportsTable } from '../schema/work.ts';
import { writing } from '../writing.ts';
import type { DeliveryRecord } from './readers.ts';

export type BounceReport = Selectable<BounceReportsTable>;

/** @returns false when this report was taken down before */
export async function putBounceReport(
  { db }: DeliveryRecord,
  report: Pick<BounceReport, 'id' | 'reader_id' | 'kind' | 'at_ms'>,
): Promise<boolean> {
  const { numInsertedOrUpdatedRows } = await writing(db, (tx) =>
    tx
      .insertInto('bounce_reports')
      .values({ ...report, attempts: 0, next_ms: report.at_ms, problem: null, handled_ms: null })
      .onConflict((c) => c.column('id').doNothing())
      .executeTakeFirst(),
  );
  return (numInsertedOrUpdatedRows ?? 0n) > 0n;
}

/** The next that is to be handled, held against others until the step ends; undefined when there is none. */
export function nextBounceReport({ db }: DeliveryRecord, nowMs: number): Promise<BounceReport | undefined> {
  const query = db
    .selectFrom('bounce_reports')
    .selectAll()
    .where('handled_ms', 'is', null)
    .where('next_ms', '<=', nowMs)
    .orderBy('next_ms')
    .limit(1);
  return (isPostgres(db) ? query.forUpdate().skipLocked() : query).executeTakeFirst();
}

/** Whether any waits to be handled. */
export const bounceReportDue = async ({ db }: DeliveryRecord, nowMs: number): Promise<boolean> =>
  (await db
    .selectFrom('bounce_reports')
    .select('id')
    .where('handled_ms', 'is', null)
    .where('next_ms', '<=', nowMs)
    .limit(1)
    .executeTakeFirst()) !== undefined;

export async function changeBounceReport(
  { db }: DeliveryRecord,
  id: string,
  change: Partial<Pick<BounceReport, 'attempts' | 'next_ms' | 'problem' | 'handled_ms'>>,
): Promise<boolean> {
  const { numUpdatedRows } = await writing(db, (tx) =>
    tx.updateTable('bounce_reports').set(change).where('id', '=', id).executeTakeFirst(),
  );
  return numUpdatedRows > 0n;
}

/** Those that could not be handled so often or oftener, oldest first. */
export const failedBounceReports = ({ db }: DeliveryRecord, attempts: number): Promise<BounceReport[]> =>
  db
    .selectFrom('bounce_reports')
    .selectAll()
    .where('handled_ms', 'is', null)
    .where('attempts', '>=', attempts)
    .orderBy('at_ms')
    .execute();

/** Handled reports from before an instant: by then nobody sends them again. */
export async function forgetBounceReports({ db }: DeliveryRecord, beforeMs: number): Promise<void> {
  await writing(db, (tx) => tx.deleteFrom('bounce_reports').where('handled_ms', '<', beforeMs).execute());
}
