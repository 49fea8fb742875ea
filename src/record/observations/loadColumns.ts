/** Reads series as columns: the database writes each as one line of numbers, and quality control looks at rows only where it may find something. */
import { sql, type Kysely } from 'kysely';
import { z } from 'zod';
import { doubleLine, jsonLine, wholeLine } from '../dialect/index.ts';
import { fromColumn, numbersOf } from '../json.ts';
import { airAround } from '../quality/airAround.ts';
import { judgeRows } from '../quality/index.ts';
import { mayBeDoubted } from '../quality/screen.ts';
import { at, rowsOf, type SeriesColumns } from './columns.ts';
import type { Knowledge } from './known.ts';
import { isKnown, knownBy, measured, newestIssueMs, qualifiersSchema } from './loadObservations.ts';
import { doubtSchema } from '../quality/doubt.ts';
import type { Database } from '../schema/index.ts';
import { seriesOf, type Series } from './series.ts';
import type { Observation, Variable } from '../types.ts';

interface Line {
  /** Instants and values, as numbers with commas between; null of no rows. */
  readonly at: string | null;
  readonly value: string | null;
  /** How many values carry a mark or a doubt of the service. */
  readonly marked: number;
  readonly doubted: number;
}

const listOf = (line: string | null, column: string): number[] =>
  line === null ? [] : numbersOf(line, column);

/**
 * Every series of a lake up to the instant of `knowledge`, as it was known, after quality control: measured values after
 * `fromMs`, of forecasts the newest issue. Series without a value are left out.
 *
 * @param fromOf other beginnings for single variables, epoch ms
 */
export async function loadColumns(
  db: Kysely<Database>,
  lake: string,
  fromMs: number,
  knowledge: Knowledge,
  fromOf: Partial<Record<Variable, number>> = {},
): Promise<SeriesColumns[]> {
  const loaded: SeriesColumns[] = [];
  for (const series of await seriesOf(db, lake)) {
    const load = series.kind === 'forecast' ? newestIssue : measuredColumn;
    const column = await load(db, series, fromOf[series.variable] ?? fromMs, knowledge);
    if (column.atMs.length > 0) loaded.push(column);
  }
  return judged(loaded);
}

async function measuredColumn(
  db: Kysely<Database>,
  series: Series,
  fromMs: number,
  knowledge: Knowledge,
): Promise<SeriesColumns> {
  const inOrder = db
    .selectFrom('observation')
    .select(['at_ms', 'value', 'provisional', 'qualifiers', 'doubt'])
    .where('series_id', '=', series.id)
    .where('at_ms', '>', fromMs)
    .where('at_ms', '<=', knowledge.asOfMs)
    .where(isKnown(knowledge))
    .orderBy('at_ms');
  const line: Line = await db
    .selectFrom(inOrder.as('row'))
    .select(({ fn }) => [
      wholeLine(db, 'at_ms').as('at'),
      doubleLine(db, 'value').as('value'),
      sql<number>`count(case when provisional is not null or qualifiers is not null then 1 end)`.as('marked'),
      fn.count<number>('doubt').as('doubted'),
    ])
    .executeTakeFirstOrThrow();
  const column = { ...columnOf(series, line), issuedMs: null, doubts: NONE };
  if (isRevised(column))
    return revised(series, await measured(db, series, fromMs, knowledge.asOfMs, knowledge));
  if (line.marked + line.doubted === 0) return column;
  const marks = await db
    .selectFrom(inOrder.as('row'))
    .select([
      jsonLine(db, 'provisional').as('provisional'),
      jsonLine(db, 'qualifiers').as('qualifiers'),
      jsonLine(db, 'doubt').as('doubt'),
    ])
    .executeTakeFirstOrThrow();
  return { ...column, doubts: doubtsOf(marks.doubt), marks: () => marksOf(marks) };
}

const textsSchema = z.array(z.string().nullable());
const flagsSchema = z.array(z.number().nullable());

const NONE: SeriesColumns['doubts'] = new Map();

function doubtsOf(line: string): SeriesColumns['doubts'] {
  const doubts = fromColumn(line, textsSchema, 'doubt');
  return new Map(
    doubts.flatMap((doubt, i) =>
      doubt === null ? [] : [[i, fromColumn(doubt, doubtSchema, 'doubt')] as const],
    ),
  );
}

function marksOf(lines: {
  readonly provisional: string;
  readonly qualifiers: string;
}): Pick<Observation, 'provisional' | 'qualifiers'>[] {
  const provisional = fromColumn(lines.provisional, flagsSchema, 'provisional');
  const qualifiers = fromColumn(lines.qualifiers, textsSchema, 'qualifiers');
  return provisional.map((flag, i) => {
    const words = qualifiers[i] ?? null;
    return {
      ...(flag === null ? {} : { provisional: flag === 1 }),
      ...(words === null ? {} : { qualifiers: fromColumn(words, qualifiersSchema, 'qualifiers') }),
    };
  });
}

/** The newest issue after `fromMs` of one forecast series that was known by then. */
export async function newestIssue(
  db: Kysely<Database>,
  series: Series,
  fromMs: number,
  knowledge: Knowledge,
): Promise<SeriesColumns> {
  const issuedMs = await newestIssueMs(db, series, fromMs, knowledge);
  if (issuedMs === null) return { ...columnOf(series, { at: null, value: null }), issuedMs, doubts: NONE };
  const line = await db
    .selectFrom(
      db
        .selectFrom('forecast')
        .select(['at_ms', 'value'])
        .where('series_id', '=', series.id)
        .where('issued_ms', '=', issuedMs)
        .where(knownBy(knowledge.asOfMs))
        .orderBy('at_ms')
        .orderBy('known_s')
        .as('row'),
    )
    .select([wholeLine(db, 'at_ms').as('at'), doubleLine(db, 'value').as('value')])
    .executeTakeFirstOrThrow();
  return { ...newest(columnOf(series, line)), issuedMs, doubts: NONE };
}

/** Of the versions of an hour the newest. */
function newest(column: Bare): Bare {
  if (!isRevised(column)) return column;
  const last = new Map(Array.from(column.atMs, (atMs, i) => [atMs, at(column.values, i)]));
  return {
    ...column,
    atMs: Float64Array.from(last.keys()),
    values: Float64Array.from(last.values()),
  };
}

/** Whether an instant has more than one version. */
const isRevised = ({ atMs }: Bare): boolean => atMs.some((instant, i) => i > 0 && instant === atMs[i - 1]);

/** A series with revisions is rare and read row by row, which knows what counts. */
function revised(series: Series, rows: readonly Observation[]): SeriesColumns {
  const doubts = rows.flatMap(({ doubt }, i) => (doubt === undefined ? [] : [[i, doubt] as const]));
  return {
    ...columnOf(series, { at: null, value: null }),
    issuedMs: null,
    atMs: Float64Array.from(rows, ({ atMs }) => atMs),
    values: Float64Array.from(rows, ({ value }) => value),
    doubts: new Map(doubts),
    marks: () =>
      rows.map(({ provisional, qualifiers }) => ({
        ...(provisional === undefined ? {} : { provisional }),
        ...(qualifiers === undefined ? {} : { qualifiers }),
      })),
  };
}

type Bare = Omit<SeriesColumns, 'issuedMs' | 'doubts' | 'marks'>;

function columnOf(series: Series, line: Pick<Line, 'at' | 'value'>): Bare {
  const { lake, variable, source, station, kind, periodS, datum } = series;
  const atMs = Float64Array.from(listOf(line.at, 'at_ms'));
  return {
    lake,
    variable,
    source,
    station,
    kind,
    periodS,
    datum,
    atMs,
    values: Float64Array.from(listOf(line.value, 'value')),
  };
}

/** The columns with the doubts of quality control; the air first, since water thermometers are held against it. */
export function judged(columns: readonly SeriesColumns[]): SeriesColumns[] {
  const isAir = ({ variable }: SeriesColumns): boolean => variable === 'air_temp';
  const air = columns.map((column) => (isAir(column) ? judgedOne(column, () => undefined) : column));
  let around: ((atMs: number) => number | undefined) | undefined;
  const airC = (atMs: number): number | undefined =>
    (around ??= airAround(air.filter(isAir).map(rowsOf)))(atMs);
  return air.map((column) => (isAir(column) ? column : judgedOne(column, airC)));
}

function judgedOne(column: SeriesColumns, airC: (atMs: number) => number | undefined): SeriesColumns {
  if (!mayBeDoubted(column)) return column;
  const doubts = judgeRows(rowsOf(column), { airC }).map(({ doubt }, i) => [i, doubt] as const);
  return {
    ...column,
    doubts: new Map(doubts.flatMap(([i, doubt]) => (doubt === undefined ? [] : [[i, doubt] as const]))),
  };
}
