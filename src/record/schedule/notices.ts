/** What the operator has to say of a lake: a line with its date and the day until which it stands. */
import * as z from 'zod';
import type { DeliveryRecord } from '../delivery/readers.ts';
import { putState } from './runs.ts';
import { writing } from '../writing.ts';

const noticeSchema = z.object({
  id: z.string(),
  text: z.string(),
  /** Local date at the lake on which it was given, and the last one on which it stands; null: until it is taken away. */
  from: z.string(),
  until: z.string().nullable(),
});
export type Notice = z.output<typeof noticeSchema>;

const PREFIX = 'notice:';
const keyOf = (lakeId: string, id: string): string => `${PREFIX}${lakeId}:${id}`;

/** Keeps a notice; one of the same id is replaced. */
export const putNotice = (
  record: DeliveryRecord,
  lakeId: string,
  notice: Notice,
  nowMs: number,
): Promise<void> => putState(record, keyOf(lakeId, notice.id), notice, nowMs);

/** Notices of a lake that stand on a local date, in the order of their dates; all of them without a date. */
export async function noticesOf(
  { db }: DeliveryRecord,
  lakeId: string,
  localDate?: string,
): Promise<Notice[]> {
  const rows = await db
    .selectFrom('delivery_state')
    .select('value_json')
    .where('key', '>=', keyOf(lakeId, ''))
    .where('key', '<', keyOf(lakeId, '\uffff'))
    .execute();
  return rows
    .flatMap(({ value_json }) => {
      const read = noticeSchema.safeParse(JSON.parse(value_json));
      return read.success ? [read.data] : [];
    })
    .filter(
      ({ from, until }) =>
        localDate === undefined || (from <= localDate && (until === null || until >= localDate)),
    )
    .sort((a, b) => (a.from + a.id < b.from + b.id ? -1 : 1));
}

/** False when there is no such notice. */
export async function removeNotice({ db }: DeliveryRecord, lakeId: string, id: string): Promise<boolean> {
  const { numDeletedRows } = await writing(db, (tx) =>
    tx.deleteFrom('delivery_state').where('key', '=', keyOf(lakeId, id)).executeTakeFirst(),
  );
  return numDeletedRows > 0n;
}
