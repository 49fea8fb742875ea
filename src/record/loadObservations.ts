import type { Kysely } from 'kysely';
import { seriesOf, type Series } from './series.ts';
import type { Database } from './schema/index.ts';
import type { ObservationTable } from './schema/observations.ts';
import type { Observation, Variable } from './types.ts';

type StoredValue = Omit<ObservationTable, 'series_id'>;

function head(series: Series): Omit<Observation, 'atMs' | 'value' | 'issuedMs'> {
  const { lake, variable, source, station, kind, periodS, datum } = series;
  return { lake, variable, source, station, kind, periodS, ...(datum === '' ? {} : { datum }) };
}

function toObservation(common: ReturnType<typeof head>, row: StoredValue): Observation {
  return {
    ...common,
    atMs: row.at_ms,
    value: row.value,
    issuedMs: null,
    ...(row.provisional === null ? {} : { provisional: row.provisional === 1 }),
    ...(row.qualifiers === null ? {} : { qualifiers: JSON.parse(row.qualifiers) as string[] }),
    ...(row.doubt === null ? {} : { doubt: row.doubt }),
  };
}

/** Values of one series in (fromMs, toMs], in time order. */
export async function measured(
  db: Kysely<Database>,
  series: Series,
  fromMs: number,
  toMs: number,
): Promise<Observation[]> {
  const rows = await db
    .selectFrom('observation')
    .select(['at_ms', 'value', 'provisional', 'qualifiers', 'doubt'])
    .where('series_id', '=', series.id)
    .where('at_ms', '>', fromMs)
    .where('at_ms', '<=', toMs)
    .orderBy('at_ms')
    .execute();
  const common = head(series);
  return rows.map((row) => toObservation(common, row));
}

/** The newest issue in (fromMs, toMs] of one forecast series. */
async function newestIssue(
  db: Kysely<Database>,
  series: Series,
  fromMs: number,
  toMs: number,
): Promise<Observation[]> {
  const issue = await db
    .selectFrom('forecast')
    .select('issued_ms')
    .where('series_id', '=', series.id)
    .where('issued_ms', '>', fromMs)
    .where('issued_ms', '<=', toMs)
    .orderBy('issued_ms', 'desc')
    .limit(1)
    .executeTakeFirst();
  if (issue === undefined) return [];
  const issuedMs = issue.issued_ms;
  const rows = await db
    .selectFrom('forecast')
    .select(['at_ms', 'value'])
    .where('series_id', '=', series.id)
    .where('issued_ms', '=', issuedMs)
    .orderBy('at_ms')
    .execute();
  const common = head(series);
  return rows.map((row) => ({ ...common, atMs: row.at_ms, value: row.value, issuedMs }));
}

/**
 * Every series of a lake with its rows known at `toMs`: measured ones after `fromMs`, of forecasts the newest issue.
 *
 * @param fromOf other beginnings for single variables, epoch ms
 */
export async function loadSeries(
  db: Kysely<Database>,
  lake: string,
  fromMs: number,
  toMs: number,
  fromOf: Partial<Record<Variable, number>> = {},
): Promise<Observation[][]> {
  const result: Observation[][] = [];
  for (const series of await seriesOf(db, lake)) {
    const load = series.kind === 'forecast' ? newestIssue : measured;
    result.push(await load(db, series, fromOf[series.variable] ?? fromMs, toMs));
  }
  return result;
}
