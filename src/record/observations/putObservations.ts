import type { Kysely } from 'kysely';
import { groupBy } from './groupBy.ts';
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

/** Rows a statement: SQLite takes 32,766 parameters, PostgreSQL 65,535; eight columns each. */
const CHUNK = 500;

function* chunks<T>(rows: readonly T[]): Generator<readonly T[]> {
  for (let i = 0; i < rows.length; i += CHUNK) yield rows.slice(i, i + CHUNK);
}

function refuseUnusable(row: Observation): void {
  const name = `${row.source} ${row.variable} at ${row.atMs}`;
  if (!Number.isFinite(row.value)) throw new RangeError(`${name}: value is not a finite number`);
  if (!Number.isSafeInteger(row.atMs)) throw new RangeError(`${name}: instant is not whole milliseconds`);
  if (row.kind === 'forecast' && row.issuedMs === null)
    throw new RangeError(`${name}: a forecast needs its issue time`);
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
  for (const part of chunks(write)) {
    await db
      .insertInto('observation')
      .values(part)
      .onConflict((c) =>
        c.columns(['series_id', 'at_ms', 'known_s']).doUpdateSet((e) => ({
          value: e.ref('excluded.value'),
          provisional: e.ref('excluded.provisional'),
          qualifiers: e.ref('excluded.qualifiers'),
          doubt: e.ref('excluded.doubt'),
        })),
      )
      .execute();
  }
  return { inserted, changed: write.length - inserted };
}

async function putForecast(
  db: Kysely<Database>,
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
  for (const part of chunks(write)) {
    await db
      .insertInto('forecast')
      .values(part)
      .onConflict((c) =>
        c
          .columns(['series_id', 'issued_ms', 'at_ms', 'known_s'])
          .doUpdateSet((e) => ({ value: e.ref('excluded.value') })),
      )
      .execute();
  }
  return { inserted, changed: write.length - inserted };
}

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
  const groups = groupBy(rows, (row) => keyText(seriesKeyOf(row)));
  return writing(db, async (trx) => {
    let inserted = 0;
    let changed = 0;
    for (const group of groups.values()) {
      const first = group[0];
      if (first === undefined) continue;
      const id = await seriesId(trx, seriesKeyOf(first));
      const results =
        first.kind === 'forecast'
          ? await putIssues(trx, id, group, knownMs)
          : [await putMeasured(trx, id, group, knownMs)];
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
  id: number,
  rows: readonly Observation[],
  knownMs: number | undefined,
): Promise<PutResult[]> {
  const results: PutResult[] = [];
  for (const [issuedMs, issue] of groupBy(rows, (row) => row.issuedMs)) {
    if (issuedMs !== null) results.push(await putForecast(db, id, issuedMs, issue, knownMs));
  }
  return results;
}
