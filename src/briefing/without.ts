/** Copy of an object without some of its keys. */
export function without<T extends object, K extends keyof T & string>(
  value: T,
  ...keys: readonly K[]
): Omit<T, K> {
  const dropped: readonly string[] = keys;
  return Object.fromEntries(Object.entries(value).filter(([key]) => !dropped.includes(key))) as Omit<T, K>;
}
