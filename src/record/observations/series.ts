import type { Kysely } from 'kysely';
import type { Database } from '../schema/index.ts';
import type { Observation, ObservationKind, Variable } from '../types.ts';

export interface Series {
  readonly id: number;
  readonly lake: string;
  readonly variable: Variable;
  readonly source: string;
  readonly station: string;
  readonly kind: ObservationKind;
  readonly periodS: number;
  readonly datum: string;
}

export type SeriesKey = Omit<Series, 'id'>;

export function seriesKeyOf(row: Observation): SeriesKey {
  const { lake, variable, source, station, kind, periodS } = row;
  return { lake, variable, source, station, kind, periodS, datum: row.datum ?? '' };
}

export function keyText(key: SeriesKey): string {
  return JSON.stringify([key.lake, key.variable, key.source, key.station, key.kind, key.periodS, key.datum]);
}

const order = (a: string, b: string): number => (a < b ? -1 : a > b ? 1 : 0);

/** The order that a view promises, by code point so that no locale can change it. */
export function compareSeries(a: Omit<SeriesKey, 'lake'>, b: Omit<SeriesKey, 'lake'>): number {
  return (
    order(a.variable, b.variable) ||
    order(a.source, b.source) ||
    order(a.station, b.station) ||
    order(a.kind, b.kind) ||
    a.periodS - b.periodS ||
    order(a.datum, b.datum)
  );
}

export async function seriesOf(db: Kysely<Database>, lake: string): Promise<Series[]> {
  const rows = await db.selectFrom('series').selectAll().where('lake', '=', lake).execute();
  return rows.map(({ period_s, ...rest }) => ({ ...rest, periodS: period_s })).sort(compareSeries);
}

/** Number of the series, made on first sight. */
export async function seriesId(db: Kysely<Database>, key: SeriesKey): Promise<number> {
  const { periodS, ...rest } = key;
  const row = { ...rest, period_s: periodS };
  await db
    .insertInto('series')
    .values(row)
    .onConflict((c) => c.doNothing())
    .execute();
  let query = db.selectFrom('series').select('id');
  for (const [column, value] of Object.entries(row)) {
    query = query.where(column as keyof typeof row, '=', value);
  }
  return (await query.executeTakeFirstOrThrow()).id;
}
