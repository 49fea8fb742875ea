/** Numbers by day. */
export type Series = Float64Array | Uint8Array | readonly number[];

/**
 * Value of a series at an index.
 *
 * @throws RangeError outside the series
 */
export function at(series: Series, index: number): number {
  const value = series[index];
  if (value === undefined) throw new RangeError(`Index ${index} is outside a series of ${series.length}.`);
  return value;
}
