/**
 * Value of a series at an index. One array type only: mixed types make the engine's fast path slow.
 *
 * @throws RangeError outside the series
 */
export function at(series: Float64Array, index: number): number {
  const value = series[index];
  if (value === undefined) throw new RangeError(`Index ${index} is outside a series of ${series.length}.`);
  return value;
}
