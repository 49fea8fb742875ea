/** The versions of a whole span, read once, from which the view of any instant in it is taken. */
import type { Kysely } from 'kysely';
import { at, type SeriesColumns } from './columns.ts';
import type { Knowledge } from './known.ts';
import { judged, newestIssue } from './loadColumns.ts';
import { versionsOf, type Version } from './loadObservations.ts';
import { seriesOf, type Series } from './series.ts';
import type { Database } from '../schema/index.ts';
import type { Observation, RecordView } from '../types.ts';
import { viewOf, type SeriesLoader, type ViewOptions } from './view.ts';

export interface RecordWindow {
  /** The same view as the record itself gives, for an instant whose days lie in the window. */
  view(lake: string, asOfMs: number, options?: ViewOptions): Promise<RecordView>;
}

type Mark = Pick<Observation, 'provisional' | 'qualifiers' | 'doubt'>;

/** Versions of one series in columns, by instant and by when they were known. */
interface Held {
  readonly series: Series;
  readonly atMs: Float64Array;
  readonly values: Float64Array;
  readonly knownMs: Float64Array;
  /** 1 where an archive brought it. */
  readonly archive: Uint8Array;
  /** What the service marked a version with, by its place. */
  readonly marks: ReadonlyMap<number, Mark>;
}

function held(series: Series, versions: readonly Version[]): Held {
  const marks = new Map<number, Mark>();
  for (const [i, { observation }] of versions.entries()) {
    const { provisional, qualifiers, doubt } = observation;
    if (provisional === undefined && qualifiers === undefined && doubt === undefined) continue;
    marks.set(i, {
      ...(provisional === undefined ? {} : { provisional }),
      ...(qualifiers === undefined ? {} : { qualifiers }),
      ...(doubt === undefined ? {} : { doubt }),
    });
  }
  return {
    series,
    atMs: Float64Array.from(versions, ({ observation }) => observation.atMs),
    values: Float64Array.from(versions, ({ observation }) => observation.value),
    knownMs: Float64Array.from(versions, ({ knownMs }) => knownMs),
    archive: Uint8Array.from(versions, ({ isArchive }) => (isArchive ? 1 : 0)),
    marks,
  };
}

/** Place of the first instant after another. */
function firstAfter(instants: Float64Array, ms: number): number {
  let [low, high] = [0, instants.length];
  while (low < high) {
    const middle = (low + high) >>> 1;
    if (at(instants, middle) > ms) high = middle;
    else low = middle + 1;
  }
  return low;
}

/**
 * Places of what was known: of the versions of an instant the newest known by then, else an archive's where it is
 * allowed.
 */
function knownPlaces({ atMs, knownMs, archive }: Held, fromMs: number, knowledge: Knowledge): number[] {
  const places: number[] = [];
  const end = firstAfter(atMs, knowledge.asOfMs);
  let last = -1;
  for (let i = firstAfter(atMs, fromMs); i < end; i += 1) {
    const isByThen = at(knownMs, i) <= knowledge.asOfMs;
    if (!isByThen && !(knowledge.archive && archive[i] === 1)) continue;
    const isSameInstant = last >= 0 && at(atMs, last) === at(atMs, i);
    if (!isSameInstant) places.push(i);
    else if (isByThen) places[places.length - 1] = i;
    else continue;
    last = i;
  }
  return places;
}

function columnOf(versions: Held, fromMs: number, knowledge: Knowledge): SeriesColumns {
  const { lake, variable, source, station, kind, periodS, datum } = versions.series;
  const places = knownPlaces(versions, fromMs, knowledge);
  const first = places[0] ?? 0;
  const last = places.at(-1) ?? -1;
  // Most series were never revised: a part of them as it stands.
  const whole = last - first + 1 === places.length;
  const picked = (column: Float64Array): Float64Array =>
    whole ? column.subarray(first, last + 1) : Float64Array.from(places, (i) => at(column, i));
  const marked = versions.marks.size > 0;
  const doubts = marked
    ? places.flatMap((place, i) => {
        const doubt = versions.marks.get(place)?.doubt;
        return doubt === undefined ? [] : [[i, doubt] as const];
      })
    : [];
  return {
    lake,
    variable,
    source,
    station,
    kind,
    periodS,
    datum,
    issuedMs: null,
    atMs: picked(versions.atMs),
    values: picked(versions.values),
    doubts: new Map(doubts),
    ...(marked
      ? {
          marks: () =>
            places.map((place) => {
              const { doubt: _, ...mark } = versions.marks.get(place) ?? {};
              return mark;
            }),
        }
      : {}),
  };
}

export async function openWindow(
  db: Kysely<Database>,
  lake: string,
  fromMs: number,
  toMs: number,
): Promise<RecordWindow> {
  const all: Held[] = [];
  for (const series of await seriesOf(db, lake))
    all.push(held(series, series.kind === 'forecast' ? [] : await versionsOf(db, series, fromMs, toMs)));
  const load: SeriesLoader = async (beginMs, knowledge, fromOf) => {
    const columns: SeriesColumns[] = [];
    for (const versions of all) {
      const { series } = versions;
      const from = fromOf[series.variable] ?? beginMs;
      const column =
        series.kind === 'forecast'
          ? await newestIssue(db, series, from, knowledge)
          : columnOf(versions, from, knowledge);
      if (column.atMs.length > 0) columns.push(column);
    }
    return judged(columns);
  };
  return { view: (of, asOfMs, options) => viewOf(db, of, asOfMs, options, load) };
}
