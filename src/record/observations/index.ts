export { overColumns, picked, rowsOf, seriesColumns } from './columns.ts';
export { groupBy } from './groupBy.ts';
export { lastAsked } from './retrievals.ts';
