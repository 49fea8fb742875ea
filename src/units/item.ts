/**
 * Entry of a list at an index; lists beside one another that should be of one length then tell when they are not.
 *
 * @throws RangeError outside the list
 */
export function item<T>(list: ArrayLike<T>, index: number): T {
  const value = list[index];
  if (value === undefined) throw new RangeError(`Index ${index} is outside a list of ${list.length}.`);
  return value;
}
