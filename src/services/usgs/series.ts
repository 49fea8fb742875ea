import { instantMs } from '../parse.ts';
import type { UsgsRow, UsgsSeries } from './items.ts';

/** A row, and another value that the service gave for the same instant without saying which is newer. */
export type RowOfInstant = UsgsRow & { readonly rival?: UsgsRow['value'] };

/**
 * Rows by series. The service returns them unordered; within a series the last modified row of an instant wins. Of two
 * that were modified at the same time neither does.
 */
export function bySeries(rows: readonly UsgsRow[]): Map<string, RowOfInstant[]> {
  const groups = new Map<string, Map<string, RowOfInstant>>();
  for (const row of rows) {
    const group = groups.get(row.time_series_id) ?? new Map<string, RowOfInstant>();
    groups.set(row.time_series_id, group);
    const other = group.get(row.time);
    const [own, before] = [row.last_modified ?? '', other?.last_modified ?? ''];
    if (other === undefined || own > before) group.set(row.time, row);
    else if (own === before && row.value !== other.value) group.set(row.time, { ...other, rival: row.value });
  }
  const sorted = new Map<string, RowOfInstant[]>();
  for (const [id, group] of groups) {
    const timed = [...group.values()].map((row) => ({ row, atMs: instantMs(row.time) ?? 0 }));
    sorted.set(
      id,
      timed.sort((a, b) => a.atMs - b.atMs).map(({ row }) => row),
    );
  }
  return sorted;
}

/** Two series whose last rows are this close are both alive; the choice between them must not flip with every refresh. */
const ALIVE_WITHIN_MS = 86_400_000;

/**
 * The one series to use of a site and parameter: the configured one, or nothing; else, of those with the newest data,
 * the one the service calls primary; then the one with more rows; then by id, so that the choice is stable.
 */
export function chooseSeries(
  groups: ReadonlyMap<string, readonly UsgsRow[]>,
  configured: string | undefined,
  metadata: readonly UsgsSeries[],
): string | null {
  if (configured !== undefined) return groups.has(configured) ? configured : null;
  const newest = (id: string): number => instantMs(groups.get(id)?.at(-1)?.time) ?? 0;
  const lastMs = Math.max(0, ...[...groups.keys()].map(newest));
  const primary = (id: string): number =>
    metadata.some((m) => m.id === id && m.primary === 'Primary') ? 1 : 0;
  const count = (id: string): number => groups.get(id)?.length ?? 0;
  const [best] = [...groups.keys()]
    .filter((id) => newest(id) >= lastMs - ALIVE_WITHIN_MS)
    .sort((a, b) => primary(b) - primary(a) || count(b) - count(a) || (a < b ? -1 : 1));
  return best ?? null;
}
