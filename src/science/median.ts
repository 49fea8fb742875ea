/**
 * Median of a list.
 *
 * @param values any order, any unit
 * @returns middle value, mean of the two middle values when even; NaN for an empty list
 */
export function median(values: readonly number[]): number {
  const sorted = [...values].sort((a, b) => a - b);
  const mid = sorted.length >> 1;
  const upper = sorted[mid] ?? NaN;
  return sorted.length % 2 === 1 ? upper : ((sorted[mid - 1] ?? NaN) + upper) / 2;
}
