import { z } from 'zod';
import { ThawlineError } from '../units/index.ts';

/** A number that may be absent, null, or written as text; anything else is refused by the schema. */
export const looseNumber = z.union([z.number(), z.string()]).nullish();

const isLooseList = (value: unknown): boolean =>
  Array.isArray(value) &&
  value.every((one) => one === null || one === undefined || typeof one === 'string' || Number.isFinite(one));

/** A list of them. A season by the hour is looked at in one pass; only what is wrong is asked for where. */
export const looseNumbers = z.union([
  z.custom<z.infer<typeof looseNumber>[]>(isLooseList),
  z.array(looseNumber),
]);

/** One thing or a list of things: some services write a single item without its list. */
export const oneOrMany = <T extends z.ZodType>(item: T) =>
  z.union([z.array(item), item.transform((one) => [one])]) as z.ZodType<z.infer<T>[]>;

/** No figure of a gauge is longer. */
const LONGEST_NUMBER = 40;

/**
 * A finite number, or null when the service sent nothing usable.
 * Text is taken only when all of it is a number: an empty text is missing, never zero.
 */
export function finite(value: number | string | null | undefined): number | null {
  if (typeof value === 'string') {
    const written = value.trim();
    if (written.length > LONGEST_NUMBER || !/^[-+]?(?:\d+(?:\.\d*)?|\.\d+)(?:e[-+]?\d+)?$/i.test(written))
      return null;
    value = Number(written);
  }
  return typeof value === 'number' && Number.isFinite(value) ? value : null;
}

/** Parse a reply as JSON; a page of HTML, an empty body or a cut one becomes one plain sentence. */
export function parseJson(text: string, service: string): unknown {
  if (text.trim() === '') {
    throw new ThawlineError('service', `${service} answered with an empty body.`, { retryable: true });
  }
  try {
    return JSON.parse(text);
  } catch (cause) {
    const what = /^\s*</.test(text) ? 'a web page instead of data' : 'data that is cut short or damaged';
    throw new ThawlineError('service', `${service} answered with ${what}; it will be asked again later.`, {
      retryable: true,
      cause,
    });
  }
}

/** Check a parsed reply against its schema. */
export function check<T>(schema: z.ZodType<T>, value: unknown, service: string): T {
  const result = schema.safeParse(value);
  if (result.success) return result.data;
  const where = deepest(result.error.issues).map(String).join('.');
  throw new ThawlineError(
    'service',
    `${service} answered in a shape we do not know (at ${where === '' ? 'the top' : where.slice(0, 80)}); nothing of it was used.`,
    { cause: result.error },
  );
}

/** Where a value is wrong: of a shape that may be one of several, the place up to which the likeliest one held. */
function deepest(issues: readonly z.core.$ZodIssue[]): readonly PropertyKey[] {
  const paths = issues.map((issue) => {
    if (issue.code !== 'invalid_union') return issue.path;
    return [...issue.path, ...longest(issue.errors.map(deepest))];
  });
  return paths[0] ?? [];
}
const longest = (paths: readonly (readonly PropertyKey[])[]): readonly PropertyKey[] =>
  paths.reduce((most, path) => (path.length > most.length ? path : most), []);

const INSTANT = /^\d{4}-\d{2}-\d{2}T\d{2}:\d{2}(:\d{2}(\.\d+)?)?(Z|[+-]\d{2}:?\d{2})$/;

/** Epoch ms of a date-time that states its zone; null for a bare date, a text without zone, or nonsense. */
export function instantMs(text: string | null | undefined): number | null {
  if (typeof text !== 'string' || !INSTANT.test(text)) return null;
  const ms = Date.parse(text);
  return Number.isFinite(ms) && plausible(ms) ? ms : null;
}

const EARLIEST_MS = Date.UTC(1900, 0, 1);
const LATEST_MS = Date.UTC(2200, 0, 1);

/** Whether this is a whole number of ms in our time: year-0001 and far-future stamps are how several services write "missing". */
export function plausible(ms: number): boolean {
  return Number.isSafeInteger(ms) && ms >= EARLIEST_MS && ms < LATEST_MS;
}

/** `2026-11-25T10:00Z` for query strings: whole seconds, UTC. */
export function isoSeconds(ms: number): string {
  return new Date(ms).toISOString().replace(/\.\d{3}Z$/, 'Z');
}
