import type { z } from 'zod';
import { ThawlineError } from '../units/index.ts';
import { RENAMED, todaysKey } from './renamed.ts';
import type { RuleBook } from './rules.ts';
import type { RuleFile } from './ruleText.ts';
import { hourRulesSchema } from './rulesHours.ts';
import { lureBookSchema } from './rulesLures.ts';
import { phaseRulesSchema, positionRulesSchema } from './rulesPlaces.ts';
import { safetyRulesSchema } from './rulesSafety.ts';

const SCHEMAS: Readonly<Record<RuleFile | 'hours', z.ZodType>> = {
  hours: hourRulesSchema,
  positions: positionRulesSchema,
  phases: phaseRulesSchema,
  lures: lureBookSchema,
  safety: safetyRulesSchema,
};

type Branch = Record<string, unknown> | unknown[];

/**
 * The rules with a reader's own numbers in place of shipped ones.
 *
 * A key walks from the file's name down to a number, entries of a list by their `id`, `name` or place:
 * `safety.hazards.cold-water.classes.danger.at`, `lures.settings.diameterExponent`.
 *
 * @param rules      shipped rules; not changed
 * @param thresholds new numbers by key, SI as in the files
 * @throws ThawlineError `config` when a key leads to no number, or the changed rules no longer hold together
 */
export function tuneRules(rules: RuleBook, thresholds: Readonly<Record<string, number>>): RuleBook {
  const entries = Object.entries(thresholds);
  if (entries.length === 0) return rules;
  const tuned = structuredClone(rules);
  for (const [key, value] of entries) setNumber(tuned as unknown as Branch, key.split('.'), value, key);
  for (const [name, schema] of Object.entries(SCHEMAS)) {
    const result = schema.safeParse(tuned[name as RuleFile | 'hours']);
    if (result.success) continue;
    const said = result.error.issues.map((issue) => `${issue.path.join('.')}: ${issue.message}`).join('; ');
    throw new ThawlineError(
      'config',
      `thresholds: with these numbers the ${name} rules no longer hold together (${said}). Change or remove them.`,
    );
  }
  return tuned;
}

/** A configuration's own numbers, as these rules take them. */
export interface SortedThresholds {
  readonly kept: Readonly<Record<string, number>>;
  /** Keys that lead to no number. */
  readonly gone: readonly string[];
  /** Keys that go by another name now, with that name. */
  readonly moved: readonly { readonly from: string; readonly to: string }[];
}

/**
 * A configuration's own numbers apart into those that these rules have, under the key they have them by now, and keys
 * that lead to none: rules come and go with an upgrade, and a club that once tuned one must go on getting its mornings.
 *
 * @param renamed old keys and their new ones; a number given under both counts as given under the new
 */
export function sortedThresholds(
  rules: RuleBook,
  thresholds: Readonly<Record<string, number>>,
  renamed: Readonly<Record<string, string>> = RENAMED,
): SortedThresholds {
  const leads = (key: string): boolean => leadsToNumber(rules as unknown as Branch, key.split('.'));
  const kept: Record<string, number> = {};
  const gone: string[] = [];
  const moved: { from: string; to: string }[] = [];
  for (const [key, value] of Object.entries(thresholds)) {
    const to = leads(key) ? key : todaysKey(key, renamed);
    if (!leads(to)) gone.push(key);
    else if (to === key) kept[key] = value;
    else {
      moved.push({ from: key, to });
      if (!(to in thresholds)) kept[to] = value;
    }
  }
  return { kept, gone, moved };
}

/** What is said of a key that goes by another name now. */
export const movedWords = ({ from, to }: SortedThresholds['moved'][number]): string =>
  `thresholds: "${from}" is called "${to}" now and is taken for that: write the new name.`;

/** What is said of a key that leads nowhere. */
export const goneWords = (key: string): string =>
  `thresholds: "${key}" leads to no number of these rules and is left out: take it away, or correct it (names or ids down to a number, e.g. safety.hazards.cold-water.classes.danger.at).`;

function leadsToNumber(branch: Branch, path: readonly string[]): boolean {
  const found = stepInto(branch, path);
  if (found === undefined) return false;
  const child = (branch as Record<string, unknown>)[found.name];
  if (found.rest.length === 0) return typeof child === 'number';
  return typeof child === 'object' && child !== null && leadsToNumber(child as Branch, found.rest);
}

/**
 * Every number of the rules that can be tuned, with its key as `thresholds` takes it; but those that only say when a
 * sentence is true.
 *
 * @returns keys in the order of the files
 */
export function tunableNumbers(rules: RuleBook): ReadonlyMap<string, number> {
  const found = new Map<string, number>();
  const walk = (value: unknown, key: string): void => {
    if (typeof value === 'number') found.set(key, value);
    else if (Array.isArray(value))
      value.forEach((entry: unknown, index) => {
        walk(entry, `${key}.${namesOf(entry)[0] ?? index}`);
      });
    else if (typeof value === 'object' && value !== null)
      for (const [name, child] of Object.entries(value))
        if (name !== 'trueWhen') walk(child, `${key}.${name}`);
  };
  for (const name of Object.keys(SCHEMAS)) walk(rules[name as RuleFile | 'hours'], name);
  return found;
}

/** What an entry of a list goes by in a key, its id before its name. */
function namesOf(entry: unknown): string[] {
  if (typeof entry !== 'object' || entry === null) return [];
  const names = ['id' in entry ? entry.id : undefined, 'name' in entry ? entry.name : undefined];
  return names.filter((name) => typeof name === 'string');
}

function setNumber(branch: Branch, path: readonly string[], value: number, key: string): void {
  const found = stepInto(branch, path);
  if (found === undefined) throw noSuchNumber(key);
  const { name, rest } = found;
  const child = (branch as Record<string, unknown>)[name];
  if (rest.length === 0) {
    if (typeof child !== 'number') throw noSuchNumber(key);
    (branch as Record<string, unknown>)[name] = value;
    return;
  }
  if (typeof child !== 'object' || child === null) throw noSuchNumber(key);
  setNumber(child as Branch, rest, value, key);
}

/** The child a path begins with, and what is left of the path. An id may hold dots itself, so it can take several parts. */
function stepInto(
  branch: Branch,
  path: readonly string[],
): { name: string; rest: readonly string[] } | undefined {
  for (let parts = 1; parts <= path.length; parts += 1) {
    const word = path.slice(0, parts).join('.');
    const name = Array.isArray(branch)
      ? indexOf(branch, word)
      : Object.hasOwn(branch, word)
        ? word
        : undefined;
    if (name !== undefined) return { name, rest: path.slice(parts) };
  }
  return undefined;
}

function indexOf(list: readonly unknown[], word: string): string | undefined {
  const at = list.findIndex((entry) => namesOf(entry).includes(word));
  if (at >= 0) return String(at);
  return /^\d+$/.test(word) && Number(word) < list.length ? word : undefined;
}

const noSuchNumber = (key: string): ThawlineError =>
  new ThawlineError(
    'config',
    `thresholds: "${key}" leads to no number in the rules. Use file, then names or ids down to a number, e.g. safety.hazards.cold-water.classes.danger.at.`,
  );
