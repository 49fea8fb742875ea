/** What came, in place of a forecast that nobody kept. */
import type { RecordView } from '../types.ts';
import { at, overColumns, picked, seriesColumns, type SeriesColumns } from './columns.ts';
import { compareSeries } from './series.ts';

function columnsOf(view: RecordView): readonly SeriesColumns[] {
  const columns = seriesColumns(view);
  if (columns === undefined) throw new RangeError('Only a view of the record has columns.');
  return columns;
}

/** Whether a view holds a forecast of the air after its instant. */
export const looksAhead = (view: RecordView): boolean =>
  columnsOf(view).some(
    ({ kind, variable, atMs }) =>
      kind === 'forecast' && variable === 'air_temp' && atMs.some((instant) => instant > view.asOfMs),
  );

/**
 * A view whose forecasts are what models made of the hours after it: an issue of its instant, without error.
 *
 * @param later a view of the same lake, of days that reach beyond the first one's instant
 * @returns null where the later one has nothing of them
 */
export function foreseen(view: RecordView, later: RecordView): RecordView | null {
  const { asOfMs } = view;
  const came = columnsOf(later).flatMap((column): SeriesColumns[] => {
    if (column.kind !== 'model') return [];
    const ahead = picked(column, (i) => at(column.atMs, i) > asOfMs && !column.doubts.has(i));
    return ahead.atMs.length === 0 ? [] : [{ ...ahead, kind: 'forecast', issuedMs: asOfMs }];
  });
  if (came.length === 0) return null;
  const measured = columnsOf(view).filter(({ kind }) => kind !== 'forecast');
  return overColumns([...measured, ...came].sort(compareSeries), view);
}
