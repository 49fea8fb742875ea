import type { Kysely } from 'kysely';
import { fromColumn } from '../json.ts';
import { qualifiersSchema } from './loadObservations.ts';
import { seriesOf, type Series } from './series.ts';
import type { Database } from '../schema/index.ts';
import type { KnownHow } from '../schema/observations.ts';
import { siUnitOf } from './variables.ts';

/** Rows held in memory at once. */
const PAGE = 5000;

const COLUMNS =
  'lake,variable,unit,source,station,kind,at,period_s,issued,value,provisional,qualifiers,datum,service_doubt,known,known_how';

/** What a line says beyond its series; forecasts have an issue, measured values have marks. */
interface Value {
  readonly atMs: number;
  readonly value: number;
  readonly issuedMs?: number;
  readonly provisional?: number | null;
  readonly qualifiers?: string;
  readonly doubt?: string | null;
  readonly knownMs: number;
  readonly how?: KnownHow | null;
}

function cell(value: string | number): string {
  const text = String(value);
  return /[",\r\n]/.test(text) ? `"${text.replaceAll('"', '""')}"` : text;
}

/** `assumed`: nobody noted it; `archive`: came long after its instant. */
const HOW = ['', 'assumed', 'archive'] as const;

const iso = (ms: number): string => new Date(ms).toISOString();

function line(s: Series, v: Value): string {
  return [
    s.lake,
    s.variable,
    siUnitOf(s.variable),
    s.source,
    s.station,
    s.kind,
    iso(v.atMs),
    s.periodS,
    v.issuedMs === undefined ? '' : iso(v.issuedMs),
    v.value,
    v.provisional ?? '',
    v.qualifiers ?? '',
    s.datum,
    v.doubt ?? '',
    iso(v.knownMs),
    HOW[v.how ?? 0],
  ]
    .map(cell)
    .join(',');
}

async function* measuredLines(
  db: Kysely<Database>,
  s: Series,
  fromMs: number,
  toMs: number,
): AsyncGenerator<string> {
  for (let [after, afterKnown] = [fromMs, Infinity]; ;) {
    const rows = await db
      .selectFrom('observation')
      .selectAll()
      .where('series_id', '=', s.id)
      .where('at_ms', '>=', after)
      .where((e) => e.or([e('at_ms', '>', after), e('known_s', '>', Math.min(afterKnown, 2 ** 53))]))
      .where('at_ms', '<=', toMs)
      .orderBy('at_ms')
      .orderBy('known_s')
      .limit(PAGE)
      .execute();
    for (const row of rows) {
      const marks =
        row.qualifiers === null ? '' : fromColumn(row.qualifiers, qualifiersSchema, 'qualifiers').join(' ');
      const { at_ms: atMs, value, provisional, doubt, known_how: how } = row;
      const knownMs = atMs + row.known_s * 1000;
      yield line(s, { atMs, value, provisional, qualifiers: marks, doubt, knownMs, how });
      [after, afterKnown] = [row.at_ms, row.known_s];
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
    for (const { at_ms: atMs, known_s, value } of rows)
      yield line(s, { atMs, value, issuedMs: issue, knownMs: issue + known_s * 1000 });
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
