/** What readers say of their days, as rows. What may be said is judged in `src/outings`; whose it is, here. */
import { createHash } from 'node:crypto';
import type { Kysely } from 'kysely';
import { z } from 'zod';
import { LURES, PLACES, type PlaceId } from '../../vocabulary/index.ts';
import { fromColumn } from '../json.ts';
import { ThawlineError } from '../../units/index.ts';
import type { DeliveryRecord } from '../delivery/readers.ts';
import { putReading } from './readings.ts';
import type { Database } from '../schema/index.ts';
import type { OutingTable } from '../schema/outings.ts';
import type { LureClass, Outing, OutingPlace, Reading } from '../types.ts';
import { writing } from '../writing.ts';

/** Kinds that this version has no more are left out: what a reader told of the rest stays. */
const placesSchema: z.ZodType<OutingPlace[]> = z
  .array(z.object({ kind: z.string(), name: z.string().optional() }))
  .transform((places) =>
    places.flatMap(({ kind, name }) => {
      const known: PlaceId | undefined = PLACES.find((id) => id === kind);
      return known === undefined ? [] : [{ kind: known, ...(name === undefined ? {} : { name }) }];
    }),
  );
const luresSchema: z.ZodType<LureClass[]> = z
  .array(z.string())
  .transform((lures) => lures.flatMap((name) => LURES.find((known) => known === name) ?? []));

function rowOf(outing: Outing, toldMs: number): OutingTable {
  return {
    id: outing.id,
    reader_id: outing.readerId,
    lake: outing.lake,
    local_date: outing.date,
    from_minute: outing.clock?.fromMinute ?? null,
    to_minute: outing.clock?.toMinute ?? null,
    hours: outing.hours,
    places_json: JSON.stringify(outing.places),
    lures_json: JSON.stringify(outing.lures),
    bites: outing.bites ?? null,
    fish: outing.fish,
    biggest_m: outing.biggestM ?? null,
    biggest_kg: outing.biggestKg ?? null,
    water_c: outing.waterC ?? null,
    water_depth_m: outing.waterDepthM ?? null,
    clarity_m: outing.clarityM ?? null,
    reading_id: outing.readingId ?? null,
    plan: outing.plan ?? null,
    note: outing.note,
    shared: outing.shared ? 1 : 0,
    told_ms: toldMs,
  };
}

/** A field that is there only where the row has it. */
const given = <K extends string, V>(name: K, value: V | null): Partial<Record<K, V>> =>
  value === null ? {} : ({ [name]: value } as Record<K, V>);

function outingOf(row: OutingTable): Outing {
  const { from_minute: fromMinute, to_minute: toMinute } = row;
  return {
    id: row.id,
    readerId: row.reader_id,
    lake: row.lake,
    date: row.local_date,
    ...(fromMinute === null || toMinute === null ? {} : { clock: { fromMinute, toMinute } }),
    hours: row.hours,
    places: fromColumn(row.places_json, placesSchema, 'places_json'),
    lures: fromColumn(row.lures_json, luresSchema, 'lures_json'),
    ...given('bites', row.bites),
    fish: row.fish,
    ...given('biggestM', row.biggest_m),
    ...given('biggestKg', row.biggest_kg),
    ...given('waterC', row.water_c),
    ...given('waterDepthM', row.water_depth_m),
    ...given('clarityM', row.clarity_m),
    ...given('readingId', row.reading_id),
    ...given('plan', row.plan),
    note: row.note,
    shared: row.shared === 1,
  };
}

/** Those of one reader, or of one lake, or both; oldest first. */
export async function outingsOf(
  { db }: DeliveryRecord,
  filter: {
    readonly readerId?: string;
    readonly lake?: string;
    readonly sharedOnly?: boolean;
    readonly toldByMs?: number;
  },
): Promise<Outing[]> {
  let query = db.selectFrom('outing').selectAll();
  if (filter.readerId !== undefined) query = query.where('reader_id', '=', filter.readerId);
  if (filter.lake !== undefined) query = query.where('lake', '=', filter.lake);
  if (filter.sharedOnly === true) query = query.where('shared', '=', 1);
  // What was told later was not known then, whatever day it is about.
  if (filter.toldByMs !== undefined) query = query.where('told_ms', '<=', filter.toldByMs);
  const rows = await query.orderBy('local_date').orderBy('id').execute();
  return rows.map(outingOf);
}

/** The same but for who may see it: told again, it is no second outing. */
function isSame(a: OutingTable, b: OutingTable): boolean {
  const said = ({ told_ms: _, ...rest }: OutingTable): string => JSON.stringify(Object.entries(rest).sort());
  return said(a) === said(b);
}

/** Whether two outings of one reader and day share hours; null where one of them does not say its hours. */
function overlap(a: OutingTable, b: OutingTable): boolean {
  if (a.from_minute === null || a.to_minute === null || b.from_minute === null || b.to_minute === null)
    return false;
  return a.from_minute < b.to_minute && b.from_minute < a.to_minute;
}

const DAY_HOURS = 24;

/** An outing with the reading of the lake that it brings. */
export interface OutingEntry {
  readonly outing: Outing;
  readonly reading?: Reading;
  /** What to call it in an error: `line 7` of a file; left out, "this outing". */
  readonly called?: string;
}

/** What keeps an outing from being stored beside those that are. */
export type OutingClash =
  | { readonly code: 'outing.toldBefore'; readonly date: string }
  | { readonly code: 'outing.overlaps'; readonly date: string }
  | { readonly code: 'outing.tooManyHours'; readonly date: string; readonly hours: number };

/**
 * Stores outings with their readings: all of them, or, where one cannot be, none.
 *
 * @param toldMs when they were told, epoch ms: from then on their readings are known
 * @returns how many were new; those told again word for word are not
 * @throws ThawlineError `usage` when one was told before in other words, or shares hours with another of its reader
 */
export async function putOutings(
  { db }: DeliveryRecord,
  entries: readonly OutingEntry[],
  toldMs: number,
): Promise<number> {
  return writing(db, async (tx) => {
    let added = 0;
    for (const { outing, reading, called = 'This outing' } of entries) {
      const row = rowOf(outing, toldMs);
      const sameDay = await tx
        .selectFrom('outing')
        .selectAll()
        .where('reader_id', '=', outing.readerId)
        .where('lake', '=', outing.lake)
        .where('local_date', '=', outing.date)
        .execute();
      const known = sameDay.find(({ id }) => id === row.id);
      if (known !== undefined) {
        if (isSame(known, row)) continue;
        throw new ThawlineError(
          'usage',
          `${called}: an outing of ${outing.date} with the same hours and places was told before, with other results (${known.id}). Take that one back first, or give each its own hours. Nothing was stored.`,
          { fact: { code: 'outing.toldBefore', date: outing.date } satisfies OutingClash },
        );
      }
      const other = sameDay.find((one) => overlap(one, row));
      if (other !== undefined)
        throw new ThawlineError(
          'usage',
          `${called}: its hours overlap those of another outing of ${outing.date} (${other.id}), and an hour can be fished once. Correct the hours, or take the other back. Nothing was stored.`,
          { fact: { code: 'outing.overlaps', date: outing.date } satisfies OutingClash },
        );
      const hours = sameDay.reduce((sum, one) => sum + one.hours, row.hours);
      if (hours > DAY_HOURS)
        throw new ThawlineError(
          'usage',
          `${called}: with it ${outing.date} would have ${hours.toFixed(1)} hours of fishing; correct the hours. Nothing was stored.`,
          { fact: { code: 'outing.tooManyHours', date: outing.date, hours } satisfies OutingClash },
        );
      await tx.insertInto('outing').values(row).execute();
      if (reading !== undefined) await putReading(tx, reading, toldMs);
      added += 1;
    }
    return added;
  });
}

/**
 * Takes an outing back, with the reading that it brought.
 *
 * @param readerId only when it is this reader's
 * @returns whether there was such an outing
 */
export async function removeOuting({ db }: DeliveryRecord, id: string, readerId?: string): Promise<boolean> {
  return writing(db, async (tx) => {
    const row = await tx.selectFrom('outing').selectAll().where('id', '=', id).executeTakeFirst();
    if (row === undefined || (readerId !== undefined && row.reader_id !== readerId)) return false;
    if (row.reading_id !== null) await tx.deleteFrom('reading').where('id', '=', row.reading_id).execute();
    await tx.deleteFrom('outing').where('id', '=', id).execute();
    return true;
  });
}

/** What the ids of the readings that a reader gave begin with: they go with the reader, and do not name one. */
export const readerPrefix = (readerId: string): string =>
  `r${createHash('sha256').update(`reading of ${readerId}`).digest('hex').slice(0, 16)}-`;

/** Everything that a reader told, with the readings; inside the transaction that erases the reader. */
export async function eraseOutingsOf(tx: Kysely<Database>, readerId: string): Promise<void> {
  const rows = await tx
    .selectFrom('outing')
    .select('reading_id')
    .where('reader_id', '=', readerId)
    .where('reading_id', 'is not', null)
    .execute();
  for (const { reading_id } of rows)
    if (reading_id !== null) await tx.deleteFrom('reading').where('id', '=', reading_id).execute();
  await tx.deleteFrom('outing').where('reader_id', '=', readerId).execute();
  await tx
    .deleteFrom('reading')
    .where('id', 'like', `${readerPrefix(readerId)}%`)
    .execute();
}
