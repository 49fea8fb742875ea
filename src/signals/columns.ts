/** The rows of a view by series, without the values that are not believed. */
import { overColumns, picked, rowsOf, seriesColumns } from '../record/observations/index.ts';
import type { Observation, ObservationKind, RecordView, Variable } from '../record/index.ts';
import { at } from '../water/index.ts';

/** One series of the record: what is said once of it, and its believed values, oldest first. */
export interface Column {
  readonly variable: Variable;
  readonly source: string;
  readonly station: string;
  readonly kind: ObservationKind;
  readonly periodS: number;
  /** '' where the service names none. */
  readonly datum: string;
  /** Issue of a forecast; null for anything measured. */
  readonly issuedMs: number | null;
  readonly atMs: Float64Array;
  readonly values: Float64Array;
}

export interface Columns {
  of(variable: Variable): readonly Column[];
  readonly all: readonly Column[];
  /** Values that are not believed, as the view has them. */
  readonly doubted: readonly Observation[];
}

type Head = Omit<Column, 'atMs' | 'values'>;
interface Filling {
  readonly head: Head;
  readonly atMs: number[];
  readonly values: number[];
}

const kept = new WeakMap<RecordView, Columns>();

/** Columns of a view, made once a view. */
export function columnsOf(view: RecordView): Columns {
  let columns = kept.get(view);
  if (columns === undefined) {
    const stored = seriesColumns(view);
    columns = stored === undefined ? gather(view.observations) : believed(stored);
    kept.set(view, columns);
  }
  return columns;
}

/**
 * The view without what was measured up to `fromMs` and without the past of models, for those who need the last weeks
 * of instruments alone.
 */
export function measuredSince(view: RecordView, fromMs: number): RecordView {
  const stored = seriesColumns(view);
  if (stored === undefined)
    return {
      ...view,
      observations: view.observations.filter(({ atMs, kind }) => kind !== 'model' && atMs > fromMs),
    };
  const recent = stored
    .filter(({ kind }) => kind !== 'model')
    .map((column) => picked(column, (i) => at(column.atMs, i) > fromMs));
  return overColumns(
    recent.filter(({ atMs }) => atMs.length > 0),
    view,
  );
}

/** Columns of the record without what is not believed. */
function believed(stored: NonNullable<ReturnType<typeof seriesColumns>>): Columns {
  const all = stored
    .map((column) => (column.doubts.size === 0 ? column : picked(column, (i) => !column.doubts.has(i))))
    .filter(({ atMs }) => atMs.length > 0);
  const doubted = stored
    .filter(({ doubts }) => doubts.size > 0)
    .flatMap((column) => rowsOf(picked(column, (i) => column.doubts.has(i))));
  return indexed(all, doubted);
}

function indexed(all: readonly Column[], doubted: readonly Observation[]): Columns {
  const byVariable = new Map<Variable, Column[]>();
  for (const column of all) {
    const list = byVariable.get(column.variable);
    if (list === undefined) byVariable.set(column.variable, [column]);
    else list.push(column);
  }
  return { of: (variable) => byVariable.get(variable) ?? [], all, doubted };
}

function gather(rows: readonly Observation[]): Columns {
  const byKey = new Map<string, Filling>();
  const doubted: Observation[] = [];
  let last: Filling | undefined;
  for (const row of rows) {
    if (row.doubt !== undefined) {
      doubted.push(row);
      continue;
    }
    if (last === undefined || !isOf(last.head, row)) last = columnFor(byKey, row);
    last.atMs.push(row.atMs);
    last.values.push(row.value);
  }
  return indexed([...byKey.values()].map(columnOf), doubted);
}

const isOf = (head: Head, row: Observation): boolean =>
  head.variable === row.variable &&
  head.source === row.source &&
  head.station === row.station &&
  head.kind === row.kind &&
  head.periodS === row.periodS &&
  head.issuedMs === row.issuedMs &&
  head.datum === (row.datum ?? '');

function columnFor(byKey: Map<string, Filling>, row: Observation): Filling {
  const { variable, source, station, kind, periodS, issuedMs, datum = '' } = row;
  const key = JSON.stringify([variable, source, station, kind, periodS, issuedMs, datum]);
  let filling = byKey.get(key);
  if (filling === undefined) {
    const head = { variable, source, station, kind, periodS, datum, issuedMs };
    byKey.set(key, (filling = { head, atMs: [], values: [] }));
  }
  return filling;
}

/** A view promises time order within a series; one put together by hand may not keep it. */
function columnOf({ head, atMs, values }: Filling): Column {
  const column = { ...head, atMs: Float64Array.from(atMs), values: Float64Array.from(values) };
  if (column.atMs.every((instant, i) => i === 0 || instant >= at(column.atMs, i - 1))) return column;
  const order = atMs.map((_, i) => i).sort((a, b) => at(column.atMs, a) - at(column.atMs, b));
  const sorted = (list: Float64Array): Float64Array => Float64Array.from(order, (i) => at(list, i));
  return { ...column, atMs: sorted(column.atMs), values: sorted(column.values) };
}
