/** Access that cannot miss: an index or key that is wrong is a fault of the program, never a zero that nobody asked for. */
import { ThawlineError } from './errors.ts';

/**
 * The entry of a list at an index that its caller knows to be there; from the end with a negative index.
 *
 * @throws ThawlineError `internal` when there is none
 */
export function itemAt<T>(list: readonly T[], index: number): T {
  const at = index < 0 ? list.length + index : index;
  if (!Number.isInteger(at) || at < 0 || at >= list.length) {
    throw new ThawlineError('internal', `Entry ${index} was asked of a list of ${list.length}.`);
  }
  // Within bounds, so the entry is there; that its type may itself allow undefined is the list's own matter.
  return list[at] as T;
}

/**
 * The value of a key that its caller knows to be there.
 *
 * @throws ThawlineError `internal` when there is none
 */
export function fieldOf<T>(table: Readonly<Record<string, T>>, key: string): T {
  if (!Object.hasOwn(table, key)) throw new ThawlineError('internal', `There is no "${key}" in the table.`);
  return table[key] as T;
}
