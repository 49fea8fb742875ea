/**
 * Rules files of the version before, made to mean what they meant then. In them a rule's id told what the rule was
 * about; now a field does.
 */
type Entry = Record<string, unknown>;
const isEntry = (value: unknown): value is Entry => typeof value === 'object' && value !== null;
const each = (list: unknown, change: (entry: Entry) => Entry): unknown =>
  Array.isArray(list)
    ? list.map((entry: unknown) => (isEntry(entry) && !Array.isArray(entry) ? change(entry) : entry))
    : list;

const bestOf = (id: string): string =>
  id.includes('pocket') ? 'warmPocket' : id.includes('wind') ? 'wind' : 'sun';

/** A file `thawline-positions/1` as one of today; any other file as it is. */
export function positionsOfToday(file: unknown): unknown {
  if (!isEntry(file) || file['schema'] !== 'thawline-positions/1') return file;
  return {
    ...file,
    periods: each(file['periods'], (rule) => ({ best: bestOf(String(rule['id'])), ...rule })),
    tendency: each(file['tendency'], (rule) =>
      rule['id'] === 'day.heat' ? { about: 'heat', ...rule } : rule,
    ),
  };
}
