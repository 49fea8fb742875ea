/**
 * Numbers of the rules that go by another key now: the key, or the beginning of it, that a configuration may still use,
 * and what it is called today. Whoever renames an id of a rule adds a line; `tests/e2e/upgrade.test.ts` fails when a
 * number of the version before is neither here nor under its old key.
 */
export const RENAMED: Readonly<Record<string, string>> = {};

/** Today's name of a key; the key itself where nothing was renamed. */
export function todaysKey(key: string, renamed: Readonly<Record<string, string>>): string {
  // A longer name says more exactly what is meant; two renamings after another are followed.
  const [before, now] =
    Object.entries(renamed)
      .filter(([name]) => key === name || key.startsWith(`${name}.`))
      .sort(([a], [b]) => b.length - a.length)[0] ?? [];
  if (before === undefined || now === undefined) return key;
  const rest = Object.fromEntries(Object.entries(renamed).filter(([name]) => name !== before));
  return todaysKey(now + key.slice(before.length), rest);
}
