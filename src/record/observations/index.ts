export { overColumns, picked, rowsOf, seriesColumns } from './columns.ts';
export { groupBy, groupRuns } from './groupBy.ts';
export { lastAsked } from './retrievals.ts';
