import type { Kysely } from 'kysely';
import { readyMonths } from '../dialect/index.ts';
import { groupBy, groupRuns } from './groupBy.ts';
import { insertMany } from './insertMany.ts';
import { howKnown, knownS } from './known.ts';
import { keyText, seriesId, seriesKeyOf } from './series.ts';
import type { Database } from '../schema/index.ts';
import type { ForecastTable, ObservationTable } from '../schema/observations.ts';
import type { Observation } from '../types.ts';
import { writing } from '../writing.ts';

export interface PutResult {
  readonly inserted: number;
  /** Revisions: the value known before stays beside the new one. */
  readonly changed: number;
}

type Insert<Row> = (rows: readonly Row[]) => Promise<void>;

/** A row of the same instant and knowledge is written over. */
const measuredInto = (db: Kysely<Database>): Insert<ObservationTable> =>
  insertMany(db, (rows) =>
    db
      .insertInto('observation')
      .values(rows)
      .onConflict((c) =>
        c.columns(['series_id', 'at_ms', 'known_s']).doUpdateSet((e) => ({
          value: e.ref('excluded.value'),
          provisional: e.ref('excluded.provisional'),
          qualifiers: e.ref('excluded.qualifiers'),
          doubt: e.ref('excluded.doubt'),
        })),
      ),
  );

const forecastsInto = (db: Kysely<Database>): Insert<ForecastTable> =>
  insertMany(db, (rows) =>
    db
      .insertInto('forecast')
      .values(rows)
      .onConflict((c) =>
        c
          .columns(['series_id', 'issued_ms', 'at_ms', 'known_s'])
          .doUpdateSet((e) => ({ value: e.ref('excluded.value') })),
      ),
  );

function refuseUnusable(row: Observation): void {
  const refuse = (why: string): never => {
    throw new RangeError(`${row.source} ${row.variable} at ${row.atMs}: ${why}`);
  };
  if (!Number.isFinite(row.value)) refuse('value is not a finite number');
  if (!Number.isSafeInteger(row.atMs)) refuse('instant is not whole milliseconds');
  if (row.kind === 'forecast' && row.issuedMs === null) refuse('a forecast needs its issue time');
}

function toObservationRow(
  series_id: number,
  row: Observation,
  knownMs: number | undefined,
): ObservationTable {
  const known_s = knownMs === undefined ? 0 : knownS(row.atMs, knownMs);
  return {
    series_id,
    at_ms: row.atMs,
    known_s,
    value: row.value,
    provisional: row.provisional === undefined ? null : Number(row.provisional),
    qualifiers: row.qualifiers === undefined ? null : JSON.stringify(row.qualifiers),
    doubt: row.doubt === undefined ? null : JSON.stringify(row.doubt),
    known_how: howKnown(known_s),
  };
}

const sameObservation = (a: ObservationTable, b: ObservationTable): boolean =>
  a.value === b.value &&
  a.provisional === b.provisional &&
  a.qualifiers === b.qualifiers &&
  a.doubt === b.doubt;

/** What was known of an instant when the new row came: the newest version not later than it. */
function versionBefore<T extends { readonly known_s: number }>(
  versions: readonly T[],
  knownS: number,
): T | undefined {
  return versions.findLast((version) => version.known_s <= knownS);
}

/** Only what is new or different is written, so that fetching the same hours again costs no write. */
async function putMeasured(
  db: Kysely<Database>,
  insert: Insert<ObservationTable>,
  id: number,
  rows: readonly Observation[],
  knownMs: number | undefined,
): Promise<PutResult> {
  const wanted = new Map(rows.map((row) => [row.atMs, toObservationRow(id, row, knownMs)]));
  const instants = [...wanted.keys()].sort((a, b) => a - b);
  const stored = await db
    .selectFrom('observation')
    .selectAll()
    .where('series_id', '=', id)
    .where('at_ms', '>=', instants.at(0) ?? 0)
    .where('at_ms', '<=', instants.at(-1) ?? 0)
    .orderBy('at_ms')
    .orderBy('known_s')
    .execute();
  const old = groupBy(stored, (row) => row.at_ms);
  let inserted = 0;
  const write = [...wanted.values()].flatMap((row) => {
    const versions = old.get(row.at_ms) ?? [];
    const before = versionBefore(versions, row.known_s);
    if (before !== undefined && sameObservation(before, row)) return [];
    if (versions.length === 0) inserted += 1;
    return [versions.length === 0 ? row : { ...row, known_how: null }];
  });
  await insert(write);
  return { inserted, changed: write.length - inserted };
}

async function putForecast(
  db: Kysely<Database>,
  insert: Insert<ForecastTable>,
  id: number,
  issuedMs: number,
  rows: readonly Observation[],
  knownMs: number | undefined,
): Promise<PutResult> {
  const known_s = knownMs === undefined ? 0 : knownS(issuedMs, knownMs);
  const wanted = new Map<number, ForecastTable>(
    rows.map((row) => [
      row.atMs,
      { series_id: id, issued_ms: issuedMs, at_ms: row.atMs, known_s, value: row.value },
    ]),
  );
  const stored = await db
    .selectFrom('forecast')
    .select(['at_ms', 'known_s', 'value'])
    .where('series_id', '=', id)
    .where('issued_ms', '=', issuedMs)
    .orderBy('at_ms')
    .orderBy('known_s')
    .execute();
  const old = groupBy(stored, (row) => row.at_ms);
  const write = [...wanted.values()].filter(
    (row) => versionBefore(old.get(row.at_ms) ?? [], known_s)?.value !== row.value,
  );
  const inserted = write.filter((row) => !old.has(row.at_ms)).length;
  await insert(write);
  return { inserted, changed: write.length - inserted };
}

const isOfSeries = (a: Observation, b: Observation): boolean =>
  a.lake === b.lake &&
  a.variable === b.variable &&
  a.source === b.source &&
  a.station === b.station &&
  a.kind === b.kind &&
  a.periodS === b.periodS &&
  a.datum === b.datum;

/**
 * Stores rows of any mix of series in one transaction; the same rows again change nothing, a different value is a
 * revision: what was known before it stays known for then. Of two rows for the same instant of one series the later in
 * the list counts.
 *
 * @param knownMs when the rows were asked for, epoch ms; left out, each counts as known at its own instant (a forecast at its issue)
 * @throws RangeError for a value that is not finite, an instant that is not whole milliseconds, a forecast without issue time
 */
export async function putObservations(
  db: Kysely<Database>,
  rows: readonly Observation[],
  knownMs?: number,
): Promise<PutResult> {
  rows.forEach(refuseUnusable);
  if (rows.length === 0) return { inserted: 0, changed: 0 };
  const groups = groupRuns(rows, (row) => keyText(seriesKeyOf(row)), isOfSeries);
  return writing(db, async (trx) => {
    await readyMonths(
      trx,
      rows.filter((row) => row.kind !== 'forecast').map((row) => row.atMs),
    );
    const intoMeasured = measuredInto(trx);
    const intoForecasts = forecastsInto(trx);
    let inserted = 0;
    let changed = 0;
    for (const group of groups.values()) {
      const first = group[0];
      if (first === undefined) continue;
      const id = await seriesId(trx, seriesKeyOf(first));
      const results =
        first.kind === 'forecast'
          ? await putIssues(trx, intoForecasts, id, group, knownMs)
          : [await putMeasured(trx, intoMeasured, id, group, knownMs)];
      for (const result of results) {
        inserted += result.inserted;
        changed += result.changed;
      }
    }
    return { inserted, changed };
  });
}

async function putIssues(
  db: Kysely<Database>,
  insert: Insert<ForecastTable>,
  id: number,
  rows: readonly Observation[],
  knownMs: number | undefined,
): Promise<PutResult[]> {
  const results: PutResult[] = [];
  for (const [issuedMs, issue] of groupBy(rows, (row) => row.issuedMs)) {
    if (issuedMs !== null) results.push(await putForecast(db, insert, id, issuedMs, issue, knownMs));
  }
  return results;
}
