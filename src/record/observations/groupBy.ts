/** Rows by key, in order of first appearance (`Map.groupBy` needs Node 21). */
export function groupBy<K, T>(rows: readonly T[], key: (row: T) => K): Map<K, T[]> {
  const groups = new Map<K, T[]>();
  for (const row of rows) {
    const k = key(row);
    const group = groups.get(k);
    if (group === undefined) groups.set(k, [row]);
    else group.push(row);
  }
  return groups;
}

/**
 * Rows by key, where they come group after group: most are of the group of the row before, and need no key of their own.
 *
 * @param isAlike whether two rows have one key
 */
export function groupRuns<K, T>(
  rows: readonly T[],
  key: (row: T) => K,
  isAlike: (one: T, other: T) => boolean,
): Map<K, T[]> {
  const groups = new Map<K, T[]>();
  let group: T[] = [];
  for (const row of rows) {
    const before = group.at(-1);
    if (before === undefined || !isAlike(before, row)) {
      const k = key(row);
      group = groups.get(k) ?? [];
      groups.set(k, group);
    }
    group.push(row);
  }
  return groups;
}
