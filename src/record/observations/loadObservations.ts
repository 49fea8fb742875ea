import { z } from 'zod';
import { sql, type Expression, type Kysely, type SqlBool } from 'kysely';
import { KNOWN_HOW, type Knowledge } from './known.ts';
import { fromColumn } from '../json.ts';
import { doubtSchema } from '../quality/doubt.ts';
import type { Series } from './series.ts';
import type { Database } from '../schema/index.ts';
import type { ObservationTable } from '../schema/observations.ts';
import type { Observation } from '../types.ts';

/** Marks that the service gave a value. */
export const qualifiersSchema = z.array(z.string());

type StoredValue = Omit<ObservationTable, 'series_id'>;

type Known = { -readonly [K in keyof Observation]: Observation[K] };

/** Written field by field: a view makes a hundred thousand of them. */
function toObservation(series: Series, row: Omit<StoredValue, 'known_s' | 'known_how'>): Observation {
  const { lake, variable, source, station, kind, periodS, datum } = series;
  const { at_ms: atMs, value, provisional, qualifiers, doubt } = row;
  const known: Known = { lake, variable, source, station, kind, periodS, atMs, value, issuedMs: null };
  if (datum !== '') known.datum = datum;
  if (provisional !== null) known.provisional = provisional === 1;
  if (qualifiers !== null) known.qualifiers = fromColumn(qualifiers, qualifiersSchema, 'qualifiers');
  if (doubt !== null) known.doubt = fromColumn(doubt, doubtSchema, 'doubt');
  return known;
}

/** Whether a measured row may be used: known by then, or an archive's where that is allowed. */
export function isKnown({ asOfMs, archive }: Knowledge, table = 'observation'): Expression<SqlBool> {
  const [at, known, how] = ['at_ms', 'known_s', 'known_how'].map((column) => sql.ref(`${table}.${column}`));
  const byThen = sql<SqlBool>`${at} + ${known} * 1000 <= ${sql.lit(asOfMs)}`;
  return archive ? sql<SqlBool>`(${byThen} or ${how} = ${sql.lit(KNOWN_HOW.archive)})` : byThen;
}

/**
 * Of the versions of each instant, ordered by when they were known, the one that counts: the newest. An archive's value
 * counts only where nothing was known by then.
 *
 * @param isByThen whether a version was known by then; without archives all of them were
 */
function newestVersions<T extends { readonly at_ms: number }>(
  rows: readonly T[],
  isByThen: (row: T) => boolean,
): T[] {
  const counting: T[] = [];
  for (const row of rows) {
    if (counting.at(-1)?.at_ms !== row.at_ms) counting.push(row);
    else if (isByThen(row)) counting[counting.length - 1] = row;
  }
  return counting;
}

/** Values of one series in (fromMs, toMs], in time order, as they were known. */
export async function measured(
  db: Kysely<Database>,
  series: Series,
  fromMs: number,
  toMs: number,
  knowledge: Knowledge,
): Promise<Observation[]> {
  const query = db
    .selectFrom('observation')
    .select(['at_ms', 'value', 'provisional', 'qualifiers', 'doubt'])
    .where('series_id', '=', series.id)
    .where('at_ms', '>', fromMs)
    .where('at_ms', '<=', toMs)
    .where(isKnown(knowledge))
    .orderBy('at_ms')
    .orderBy('known_s');
  const { asOfMs, archive } = knowledge;
  // One column less to read where every row was known by then: it is the mornings' own way.
  const rows = archive
    ? newestVersions(
        await query.select('known_s').execute(),
        (row) => row.at_ms + row.known_s * 1000 <= asOfMs,
      )
    : newestVersions(await query.execute(), () => true);
  return rows.map((row) => toObservation(series, row));
}

/** Rows of a forecast that were known by an instant. */
export const knownBy = (asOfMs: number) => sql<SqlBool>`issued_ms + known_s * 1000 <= ${sql.lit(asOfMs)}`;

/** When the newest issue after `fromMs` of one forecast series that was known by then was made; null for none. */
export async function newestIssueMs(
  db: Kysely<Database>,
  series: Series,
  fromMs: number,
  { asOfMs }: Knowledge,
): Promise<number | null> {
  const issue = await db
    .selectFrom('forecast')
    .select('issued_ms')
    .where('series_id', '=', series.id)
    .where('issued_ms', '>', fromMs)
    .where('issued_ms', '<=', asOfMs)
    .where(knownBy(asOfMs))
    .orderBy('issued_ms', 'desc')
    .limit(1)
    .executeTakeFirst();
  return issue?.issued_ms ?? null;
}

/** A measured row with when it was known, for views of many instants. */
export interface Version {
  readonly observation: Observation;
  readonly knownMs: number;
  readonly isArchive: boolean;
}

/** All versions of the rows of one series in (fromMs, toMs], by instant and by when they were known. */
export async function versionsOf(
  db: Kysely<Database>,
  series: Series,
  fromMs: number,
  toMs: number,
): Promise<Version[]> {
  const rows = await db
    .selectFrom('observation')
    .select(['at_ms', 'known_s', 'value', 'provisional', 'qualifiers', 'doubt', 'known_how'])
    .where('series_id', '=', series.id)
    .where('at_ms', '>', fromMs)
    .where('at_ms', '<=', toMs)
    .orderBy('at_ms')
    .orderBy('known_s')
    .execute();
  return rows.map((row) => ({
    observation: toObservation(series, row),
    knownMs: row.at_ms + row.known_s * 1000,
    isArchive: row.known_how === KNOWN_HOW.archive,
  }));
}
