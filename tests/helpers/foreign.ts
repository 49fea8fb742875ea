/** Keys whose values are ids or codes, not words for people. */
const CODES = new Set([
  'id',
  'place',
  'signal',
  'rule',
  'grade',
  'date',
  'kind',
  'freshness',
  'period',
  'bound',
  'word',
  'zone',
  'url',
  'leading',
  'schema',
  'basis',
  'waterBody',
  'species',
  'issueAt',
  'alerts',
  'weather',
  'firstPlace',
  'membership',
  'service',
]);

/** Foreign words of an input replaced by a third alphabet, so that only words of the program itself remain Latin. */
export function foreign<T>(value: T): T {
  const change = (item: unknown, key: string): unknown => {
    if (CODES.has(key)) return item;
    if (typeof item === 'string') {
      return item.replace(/\{\{.*?\}\}|[A-Za-z]/g, (part) => (part.length > 1 ? part : 'ж'));
    }
    if (Array.isArray(item)) return item.map((one) => change(one, key));
    if (item === null || typeof item !== 'object') return item;
    return Object.fromEntries(Object.entries(item).map(([name, one]) => [name, change(one, name)]));
  };
  return change(value, '') as T;
}
