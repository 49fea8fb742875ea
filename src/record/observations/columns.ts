/** A view's series in columns: an object a row is most of what reading a year of hours costs. */
import type { Series } from './series.ts';
import type { Observation, RecordView } from '../types.ts';

/** One series of a view, oldest value first. */
export interface SeriesColumns extends Omit<Series, 'id'> {
  /** Issue of a forecast; null for anything measured. */
  readonly issuedMs: number | null;
  readonly atMs: Float64Array;
  readonly values: Float64Array;
  /** By place in the series: why a value is not believed. */
  readonly doubts: ReadonlyMap<number, NonNullable<Observation['doubt']>>;
  /** What the service marked its values with, by place; nothing where it marked none. */
  readonly marks?: () => readonly Pick<Observation, 'provisional' | 'qualifiers'>[];
}

type Rest = Omit<RecordView, 'observations'>;
/** What a view was put together from. */
const partsOfView = new WeakMap<
  RecordView,
  { readonly columns: readonly SeriesColumns[]; readonly rest: Rest }
>();

/** A view over columns; its rows are made when somebody asks for them. */
export function viewOver(columns: readonly SeriesColumns[], rest: Rest): RecordView {
  let rows: readonly Observation[] | undefined;
  const view: RecordView = {
    ...rest,
    get observations() {
      return (rows ??= columns.flatMap(rowsOf));
    },
  };
  partsOfView.set(view, { columns, rest });
  return view;
}

/**
 * The same view over other columns.
 *
 * @throws RangeError for one that was put together from rows
 */
export function overColumns(columns: readonly SeriesColumns[], view: RecordView): RecordView {
  const parts = partsOfView.get(view);
  if (parts === undefined) throw new RangeError('Only a view of the record has columns.');
  return viewOver(columns, parts.rest);
}

/** Columns of a view of the record; undefined of one that was put together from rows. */
export const seriesColumns = (view: RecordView): readonly SeriesColumns[] | undefined =>
  partsOfView.get(view)?.columns;

/** Rows of one series as a view has them. */
export function rowsOf(column: SeriesColumns): Observation[] {
  const { lake, variable, source, station, kind, periodS, datum, issuedMs, values, doubts } = column;
  const head = { lake, variable, source, station, kind, periodS, ...(datum === '' ? {} : { datum }) };
  const marks = column.marks?.();
  return Array.from(column.atMs, (atMs, i) => {
    const doubt = doubts.get(i);
    return {
      ...head,
      atMs,
      value: at(values, i),
      issuedMs,
      ...marks?.[i],
      ...(doubt === undefined ? {} : { doubt }),
    };
  });
}

/** The column with the places that are kept, its doubts moved with them. */
export function picked(column: SeriesColumns, keeps: (i: number) => boolean): SeriesColumns {
  const places = Array.from(column.atMs.keys()).filter(keeps);
  const doubts = places.flatMap((old, i) => {
    const doubt = column.doubts.get(old);
    return doubt === undefined ? [] : [[i, doubt] as const];
  });
  return {
    ...column,
    atMs: Float64Array.from(places, (i) => at(column.atMs, i)),
    values: Float64Array.from(places, (i) => at(column.values, i)),
    doubts: new Map(doubts),
    ...(column.marks === undefined ? {} : { marks: picking(column.marks, places) }),
  };
}

const picking =
  (
    marks: NonNullable<SeriesColumns['marks']>,
    places: readonly number[],
  ): NonNullable<SeriesColumns['marks']> =>
  () => {
    const all = marks();
    return places.map((place) => all[place] ?? {});
  };

/** @throws RangeError outside the column */
export function at(column: Float64Array, index: number): number {
  const value = column[index];
  if (value === undefined) throw new RangeError(`Place ${index} is outside a column of ${column.length}.`);
  return value;
}
