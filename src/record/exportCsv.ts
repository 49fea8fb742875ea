import type { Kysely } from 'kysely';
import { seriesOf, type Series } from './series.ts';
import type { Database } from './schema/index.ts';
import { siUnitOf } from './variables.ts';

const PAGE = 5000;

const COLUMNS =
  'lake,variable,unit,source,station,kind,at,period_s,issued,value,provisional,qualifiers,datum,service_doubt';

function cell(value: string | number | null): string {
  const text = value === null ? '' : String(value);
  return /[",\r\n]/.test(text) ? `"${text.replaceAll('"', '""')}"` : text;
}

const line = (cells: readonly (string | number | null)[]): string => cells.map(cell).join(',');
const iso = (ms: number): string => new Date(ms).toISOString();

async function* measuredLines(
  db: Kysely<Database>,
  s: Series,
  fromMs: number,
  toMs: number,
): AsyncGenerator<string> {
  const unit = siUnitOf(s.variable);
  for (let after = fromMs; ;) {
    const rows = await db
      .selectFrom('observation')
      .selectAll()
      .where('series_id', '=', s.id)
      .where('at_ms', '>', after)
      .where('at_ms', '<=', toMs)
      .orderBy('at_ms')
      .limit(PAGE)
      .execute();
    for (const row of rows) {
      const marks = row.qualifiers === null ? '' : (JSON.parse(row.qualifiers) as string[]).join(' ');
      yield line([
        s.lake,
        s.variable,
        unit,
        s.source,
        s.station,
        s.kind,
        iso(row.at_ms),
        s.periodS,
        '',
        row.value,
        row.provisional,
        marks,
        s.datum,
        row.doubt,
      ]);
      after = row.at_ms;
    }
    if (rows.length < PAGE) return;
  }
}

async function* forecastLines(
  db: Kysely<Database>,
  s: Series,
  fromMs: number,
  toMs: number,
): AsyncGenerator<string> {
  const unit = siUnitOf(s.variable);
  let issue = fromMs;
  for (;;) {
    const next = await db
      .selectFrom('forecast')
      .select('issued_ms')
      .where('series_id', '=', s.id)
      .where('issued_ms', '>', issue)
      .where('issued_ms', '<=', toMs)
      .orderBy('issued_ms')
      .limit(1)
      .executeTakeFirst();
    if (next === undefined) return;
    issue = next.issued_ms;
    const rows = await db
      .selectFrom('forecast')
      .selectAll()
      .where('series_id', '=', s.id)
      .where('issued_ms', '=', issue)
      .orderBy('at_ms')
      .execute();
    for (const row of rows)
      yield line([
        s.lake,
        s.variable,
        unit,
        s.source,
        s.station,
        s.kind,
        iso(row.at_ms),
        s.periodS,
        iso(issue),
        row.value,
        '',
        '',
        s.datum,
        '',
      ]);
  }
}

/**
 * Raw stored values as lines of CSV (RFC 4180, SI units, UTC), header first, a page at a time so that ten years fit
 * in little memory. Forecasts are chosen by their issue time.
 *
 * @param fromMs exclusive, epoch ms
 * @param toMs inclusive, epoch ms
 */
export async function* exportCsv(
  db: Kysely<Database>,
  lake: string,
  fromMs: number,
  toMs: number,
): AsyncGenerator<string> {
  yield COLUMNS;
  for (const series of await seriesOf(db, lake)) {
    yield* (series.kind === 'forecast' ? forecastLines : measuredLines)(db, series, fromMs, toMs);
  }
}
