/** A problem of a field in words: what was found, what is expected, and how to mend the slips that people make. */
import { IANAZone } from 'luxon';
import type { z } from 'zod';
import { MOST_LAT } from './place.ts';
import { commaHint } from '../units/index.ts';
import { shown } from './letters.ts';
import { nearest } from './nearest.ts';

function show(value: unknown): string {
  if (value === undefined) return 'nothing';
  const text = shown(JSON.stringify(value) ?? typeof value);
  return text.length > 60 ? `${text.slice(0, 57)}...` : text;
}

type Def = Readonly<Record<string, unknown>>;
const defOf = (node: unknown): Def | undefined => (node as { def?: Def } | undefined)?.def;

/** What a schema is behind its defaults, options and transformations. */
function bare(node: unknown): unknown {
  let at = node;
  for (let def = defOf(at); def && (def['innerType'] ?? def['in']); def = defOf(at))
    at = def['innerType'] ?? def['in'];
  return at;
}

/** What may stand at a path; of a field that may be written in several ways, each of them. */
function schemasAt(schema: z.ZodType, path: readonly PropertyKey[]): unknown[] {
  return path.reduce<unknown[]>(
    (nodes, key) =>
      nodes.flatMap(waysOf).flatMap((node) => {
        const def = defOf(bare(node));
        return (
          def?.['element'] ??
          def?.['valueType'] ??
          (def?.['shape'] as Record<string, unknown> | undefined)?.[String(key)] ??
          []
        );
      }),
    [schema],
  );
}

function waysOf(node: unknown): unknown[] {
  const ways = defOf(bare(node))?.['options'];
  return Array.isArray(ways) ? ways : [node];
}

function fieldsAt(schema: z.ZodType, path: readonly PropertyKey[]): string[] {
  return schemasAt(schema, path)
    .flatMap(waysOf)
    .flatMap((node) => {
      const def = defOf(bare(node));
      // The names of a record are the words of its key.
      return Object.keys(def?.['shape'] ?? defOf(def?.['keyType'])?.['entries'] ?? {});
    });
}

/** Where a field belongs that stands in the wrong place: the sections that know it. */
function homesOf(schema: z.ZodType, key: string): string[] {
  const homes: string[] = [];
  const visit = (node: unknown, path: string): void => {
    const def = defOf(bare(node));
    if (def === undefined || path.split('.').length > 4) return;
    if (def['element'] !== undefined) {
      visit(def['element'], path);
      return;
    }
    const shape = (def['shape'] ?? {}) as Record<string, unknown>;
    if (Object.hasOwn(shape, key)) homes.push(path);
    for (const [name, child] of Object.entries(shape)) visit(child, path === '' ? name : `${path}.${name}`);
  };
  visit(schema, '');
  return homes.filter((home) => home !== '');
}

function unknownField(key: string, path: readonly PropertyKey[], schema: z.ZodType): string {
  const allowed = fieldsAt(schema, path);
  const guess = nearest(key, allowed);
  if (guess !== null) return `unknown field "${key}"; did you mean "${guess}"?`;
  const [home] = homesOf(schema, key);
  if (home !== undefined) return `unknown field "${key}"; it belongs to ${home}: check the indentation`;
  return allowed.length > 0
    ? `unknown field "${key}"; known here: ${allowed.join(', ')}`
    : `unknown field "${key}"`;
}

/** How to mend a value of the wrong type, where the slip is a common one; '' else. */
function typeHint(found: unknown, expected: string, schema: z.ZodType, path: readonly PropertyKey[]): string {
  if (typeof found === 'string') {
    if (expected === 'number') {
      const comma = commaHint(found);
      if (comma !== null) return `: ${comma}`;
      if (/^\s*[+-]?[\d.]+\s*$/.test(found)) return ': write it without quotes';
    }
    if (expected === 'boolean' && /^(yes|no|on|off)$/i.test(found))
      return `: write ${/^(yes|on)$/i.test(found) ? 'true' : 'false'}`;
    if (expected === 'object') {
      const [field] = fieldsAt(schema, path);
      return field === undefined ? '' : `: write the name of each field, ${field}: ${found.slice(0, 40)}`;
    }
  }
  if (expected === 'string' && typeof found === 'number') return ': put it in quotes';
  if (expected === 'array') return ': begin each entry of the list with "- ", or write [ ... ]';
  if (expected === 'object' && Array.isArray(found)) return ': write its fields without "- "';
  return '';
}

const WORD: Readonly<Record<string, string>> = {
  object: 'fields (name: value)',
  array: 'a list',
  record: 'fields (name: value)',
  string: 'text',
  boolean: 'true or false',
  number: 'a number',
  int: 'a whole number',
};

/** @param value the whole file as it was read */
export function problemWords(issue: z.core.$ZodIssue, value: unknown, schema: z.ZodType): string {
  const found = issue.path.reduce<unknown>(
    (node, key) => (node as Record<PropertyKey, unknown> | null | undefined)?.[key],
    value,
  );
  switch (issue.code) {
    case 'unrecognized_keys':
      return issue.keys.map((key) => unknownField(key, issue.path, schema)).join('; ');
    case 'invalid_type': {
      if (!issue.message.startsWith('Invalid input'))
        return issue.message.startsWith('found ') ? issue.message : `found ${show(found)}, ${issue.message}`;
      const expected = WORD[issue.expected] ?? issue.expected;
      return found === undefined
        ? `a field is missing; expected ${expected}. Add it.`
        : `found ${show(found)}, expected ${expected}${typeHint(found, issue.expected, schema, issue.path)}`;
    }
    case 'invalid_value': {
      const allowed = issue.values.map(String);
      const guess = typeof found === 'string' ? nearest(found, allowed) : null;
      const hint = typeHint(found, typeof issue.values[0], schema, issue.path);
      return `found ${show(found)}, expected one of ${allowed.join(', ')}${guess === null ? hint : `; did you mean ${guess}?`}`;
    }
    case 'too_small':
    case 'too_big': {
      const swapped = swappedWords(issue.path, value);
      if (swapped !== null) return swapped;
      return `found ${show(found)}; ${rangeWords(issue)}`;
    }
    case 'custom':
      return issue.message;
    case 'invalid_union':
      return unionWords(issue, found, schemasAt(schema, issue.path).flatMap(waysOf));
    case 'invalid_format':
      if (issue.format === 'date') return `found ${show(found)}, expected a date, for example 2026-03-06`;
      return `found ${show(found)}; ${issue.message}`;
    default:
      return `found ${show(found)}; ${issue.message}`;
  }
}

/**
 * A field that may be written in several ways: what is wrong with the way that was meant, which is the one whose kind of value
 * was found; else all ways.
 */
function unionWords(issue: z.core.$ZodIssueInvalidUnion, found: unknown, ways: readonly unknown[]): string {
  const told = issue.errors.map((inner, i) => ({ first: inner[0], way: ways[i] }));
  const isMeant = (first: z.core.$ZodIssue | undefined): boolean =>
    first !== undefined &&
    (first.path.length > 0 || (first.code !== 'invalid_type' && first.code !== 'invalid_value'));
  const meant = told.find(({ first }) => isMeant(first));
  if (meant?.first !== undefined && meant.way !== undefined) {
    const at = meant.first.path.map((key) => (typeof key === 'number' ? `entry ${key + 1}` : String(key)));
    // What zod keeps as an option of a union is a schema.
    return `${at.map((name) => `${name}: `).join('')}${problemWords(meant.first, found, meant.way as z.ZodType)}`;
  }
  const words = told.flatMap(({ first }) => {
    if (first?.code === 'invalid_value') return first.values.map(String);
    return first?.code === 'invalid_type' ? [WORD[first.expected] ?? first.expected] : [];
  });
  return `found ${show(found)}, expected ${words.length === 0 ? 'another kind of value' : words.join(', or ')}`;
}

/** How a position is mended whose two numbers stand in each other's place. */
export const swapWords = (lat: number, lon: number): string =>
  `found lat ${lat} and lon ${lon}: they look swapped, write { lat: ${lon}, lon: ${lat} }`;

/** A latitude that can be none here, beside a longitude that can be one. */
function swappedWords(path: readonly PropertyKey[], whole: unknown): string | null {
  const at = path
    .slice(0, -1)
    .reduce<unknown>((node, key) => (node as Record<PropertyKey, unknown> | null | undefined)?.[key], whole);
  const { lat, lon } = (at ?? {}) as { readonly lat?: unknown; readonly lon?: unknown };
  const { zone } = (above(path, whole) ?? {}) as { readonly zone?: unknown };
  if (path.at(-1) !== 'lat' || typeof lat !== 'number' || typeof lon !== 'number') return null;
  const mayBe = Math.abs(lat) > MOST_LAT && Math.abs(lat) <= 180 && Math.abs(lon) <= MOST_LAT;
  return mayBe && (Math.abs(lat) > 90 || isNearer(lat, lon, zone)) ? swapWords(lat, lon) : null;
}

/** The lake of a position's number. */
const above = (path: readonly PropertyKey[], whole: unknown): unknown =>
  path
    .slice(0, -2)
    .reduce<unknown>((node, key) => (node as Record<PropertyKey, unknown> | null | undefined)?.[key], whole);

/** Whether the clocks of a zone suit one longitude better than another; false where the zone is none. */
function isNearer(lonDeg: number, otherDeg: number, zone: unknown): boolean {
  if (typeof zone !== 'string' || !IANAZone.isValidZone(zone)) return false;
  // In January, when the north has no summer time.
  const zoneH = IANAZone.create(zone).offset(Date.UTC(2026, 0, 1)) / 60;
  const offH = (deg: number): number => Math.abs(((((deg / 15 - zoneH) % 24) + 36) % 24) - 12);
  return offH(lonDeg) < offH(otherDeg);
}

function rangeWords(issue: z.core.$ZodIssueTooSmall | z.core.$ZodIssueTooBig): string {
  if (!/^(Too small|Too big)/.test(issue.message)) return issue.message;
  const limit = String(issue.code === 'too_small' ? issue.minimum : issue.maximum);
  const bound = issue.code === 'too_small' ? 'at least' : 'at most';
  const what = issue.origin === 'array' ? ' entries' : issue.origin === 'string' ? ' characters' : '';
  return `expected ${bound} ${limit}${what}`;
}
