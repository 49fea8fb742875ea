/** Keys whose values people wrote: names of their own, official text, and sentences handed on as they are. */
const GIVEN = new Set([
  'name',
  'named',
  'arm',
  'where',
  'station',
  'source',
  'text',
  'headline',
  'event',
  'instruction',
  'description',
  'sender',
  'sentence',
  'credit',
  'problem',
]);

/** A sentence, or a name of several words: what is handed on and not a code. */
const PROSE = /\p{L}{2} +[\p{L}{]/u;

/** What people wrote replaced by a third alphabet, so that only words of the program itself remain Latin. */
export function foreign<T>(value: T): T {
  const change = (item: unknown, key: string): unknown => {
    if (typeof item === 'string') {
      if (!GIVEN.has(key) && !PROSE.test(item)) return item;
      return item.replace(/\{\{.*?\}\}|[A-Za-z]/g, (part) => (part.length > 1 ? part : 'ж'));
    }
    if (Array.isArray(item)) return item.map((one) => change(one, key));
    if (item === null || typeof item !== 'object') return item;
    return Object.fromEntries(Object.entries(item).map(([name, one]) => [name, change(one, name)]));
  };
  return change(value, '') as T;
}
