import { readFileSync } from 'node:fs';
import {
  isAlias,
  isCollection,
  isMap,
  isNode,
  isPair,
  isScalar,
  LineCounter,
  parseDocument,
  type Document,
  type Node,
} from 'yaml';
import type { z } from 'zod';
import { ThawlineError } from '../units/index.ts';

/** One thing wrong in a file: where, what was found, what is expected and how to mend it. */
export interface FileProblem {
  readonly line: number;
  readonly column: number;
  readonly path: string;
  readonly sentence: string;
}

/** Nodes that a file may come to when everything that is referred to is written out. */
const MOST_NODES = 100_000;

/** What is wrong with the references of a file: one that leads back into itself, or so many that they explode. */
function aliasFault(doc: Document.Parsed): { readonly offset: number; readonly sentence: string } | null {
  let fault: { offset: number; sentence: string } | null = null;
  let first = 0;
  const sizes = new Map<Node, number>();
  const open = new Set<Node>();
  const size = (node: unknown): number => {
    if (fault !== null || !isNode(node)) return 0;
    if (isAlias(node)) {
      const target = node.resolve(doc);
      first ||= node.range?.[0] ?? 0;
      if (target === undefined) return 1;
      if (open.has(target)) {
        fault = {
          offset: node.range?.[0] ?? 0,
          sentence: `*${node.source} stands inside what it refers to. Write the part out instead of referring to it.`,
        };
        return 0;
      }
      return size(target);
    }
    const known = sizes.get(node);
    if (known !== undefined) return known;
    if (!isCollection(node)) return 1;
    open.add(node);
    let sum = 1;
    for (const item of node.items) sum += isPair(item) ? size(item.key) + size(item.value) : size(item);
    open.delete(node);
    sizes.set(node, sum);
    return sum;
  };
  const total = size(doc.contents);
  if (fault !== null) return fault;
  return total <= MOST_NODES
    ? null
    : {
        offset: first,
        sentence: 'the references (*name) of this file multiply beyond measure. Write the parts out.',
      };
}

function position(
  doc: Document,
  lines: LineCounter,
  path: readonly PropertyKey[],
): { line: number; column: number } {
  // The node itself may be missing: then the nearest parent that exists is where the reader should look.
  for (let depth = path.length; depth >= 0; depth -= 1) {
    const keys = path.slice(0, depth).map((key) => (typeof key === 'number' ? key : String(key)));
    const parent = keys.length === 0 ? doc.contents : doc.getIn(keys.slice(0, -1), true);
    const last = keys.at(-1);
    if (last !== undefined && isMap(parent)) {
      const pair = parent.items.find((item) => isScalar(item.key) && String(item.key.value) === String(last));
      if (pair && isScalar(pair.key) && pair.key.range) {
        const { line, col } = lines.linePos(pair.key.range[0]);
        return { line, column: col };
      }
    }
    const node = keys.length === 0 ? doc.contents : doc.getIn(keys, true);
    if (typeof node === 'object' && node !== null && 'range' in node && Array.isArray(node.range)) {
      const { line, col } = lines.linePos(Number(node.range[0]));
      return { line, column: col };
    }
  }
  return { line: 1, column: 1 };
}

/** How many single-letter edits lie between two short words. */
function editDistance(a: string, b: string): number {
  let row = Array.from({ length: b.length + 1 }, (_, index) => index);
  for (const [i, letter] of Array.from(a).entries()) {
    const next = [i + 1];
    for (const [j, other] of Array.from(b).entries()) {
      next.push(
        Math.min((row[j] ?? 0) + (letter === other ? 0 : 1), (row[j + 1] ?? 0) + 1, (next[j] ?? 0) + 1),
      );
    }
    row = next;
  }
  return row[b.length] ?? 0;
}

/** The nearest allowed word, when it is near enough to be a slip of the finger. */
export function nearest(word: string, allowed: readonly string[]): string | null {
  const ranked = allowed
    .map((name) => ({ name, edits: editDistance(word.toLowerCase(), name.toLowerCase()) }))
    .sort((a, b) => a.edits - b.edits);
  const best = ranked[0];
  return best && best.edits <= Math.max(2, Math.floor(word.length / 3)) ? best.name : null;
}

function show(value: unknown): string {
  if (value === undefined) return 'nothing';
  const text = JSON.stringify(value);
  return text.length > 60 ? `${text.slice(0, 57)}...` : text;
}

function knownKeys(schema: z.ZodType, path: readonly PropertyKey[]): string[] {
  let node: unknown = schema;
  const step = (from: unknown, key: PropertyKey): unknown => {
    let def = (from as { def?: Record<string, unknown> } | undefined)?.def;
    while (def && (def['innerType'] ?? def['in']))
      def = ((def['innerType'] ?? def['in']) as { def?: Record<string, unknown> }).def;
    if (!def) return undefined;
    if (def['element']) return def['element'];
    if (def['valueType']) return def['valueType'];
    return (def['shape'] as Record<string, unknown> | undefined)?.[String(key)];
  };
  for (const key of path) node = step(node, key);
  let def = (node as { def?: Record<string, unknown> } | undefined)?.def;
  while (def && (def['innerType'] ?? def['in']))
    def = ((def['innerType'] ?? def['in']) as { def?: Record<string, unknown> }).def;
  return Object.keys((def?.['shape'] as Record<string, unknown> | undefined) ?? {});
}

function sentenceOf(issue: z.core.$ZodIssue, found: unknown, schema: z.ZodType): string {
  switch (issue.code) {
    case 'unrecognized_keys': {
      const allowed = knownKeys(schema, issue.path);
      const words = issue.keys.map((key) => {
        const guess = nearest(key, allowed);
        return `unknown field "${key}"${guess ? `; did you mean "${guess}"?` : allowed.length > 0 ? `; known here: ${allowed.join(', ')}` : ''}`;
      });
      return words.join('; ');
    }
    case 'invalid_type':
      if (!issue.message.startsWith('Invalid input')) return `found ${show(found)}, ${issue.message}`;
      return found === undefined
        ? `a field is missing; expected ${issue.expected}. Add it.`
        : `found ${show(found)}, expected ${issue.expected}`;
    case 'invalid_value': {
      const allowed = issue.values.map(String);
      const guess = typeof found === 'string' ? nearest(found, allowed) : null;
      return `found ${show(found)}, expected one of ${allowed.join(', ')}${guess ? `; did you mean ${guess}?` : ''}`;
    }
    case 'custom':
      return issue.message;
    default:
      return `found ${show(found)}; ${issue.message}`;
  }
}

/**
 * Parse YAML text and check it. Every problem is reported at once, each with its line and column.
 *
 * @param complete adds to what was written before it is checked, e.g. words that stand in another file
 * @throws ThawlineError `config`, one line a problem: `file:line:column: field: what was found, what is expected`
 */
export function parseYaml<T>(
  text: string,
  file: string,
  schema: z.ZodType<T>,
  complete: (written: unknown) => unknown = (written) => written,
): T {
  const lines = new LineCounter();
  const doc = parseDocument(text, { lineCounter: lines, prettyErrors: true });
  const fail = (problems: readonly FileProblem[]): never => {
    const rows = problems.map(
      (p) => `${file}:${p.line}:${p.column}: ${p.path === '' ? '' : `${p.path}: `}${p.sentence}`,
    );
    throw new ThawlineError('config', rows.join('\n'));
  };
  if (doc.errors.length > 0) {
    return fail(
      doc.errors.map((error) => {
        const { line, col } = lines.linePos(error.pos[0]);
        return {
          line,
          column: col,
          path: '',
          sentence: `not valid YAML: ${error.message.split('\n')[0] ?? ''} Check indentation and quotes.`,
        };
      }),
    );
  }
  const knot = aliasFault(doc);
  if (knot !== null) {
    const { line, col } = lines.linePos(knot.offset);
    return fail([{ line, column: col, path: '', sentence: knot.sentence }]);
  }
  const value: unknown = complete(doc.toJS());
  const result = schema.safeParse(value);
  if (result.success) return result.data;
  return fail(
    result.error.issues.map((issue) => {
      const path =
        issue.code === 'unrecognized_keys' ? [...issue.path, ...issue.keys.slice(0, 1)] : issue.path;
      const found = issue.path.reduce<unknown>(
        (node, key) => (node as Record<PropertyKey, unknown> | null | undefined)?.[key],
        value,
      );
      return {
        ...position(doc, lines, path),
        path: issue.path.map(String).join('.'),
        sentence: sentenceOf(issue, found, schema),
      };
    }),
  );
}

/** Read and check a YAML file. @throws ThawlineError `config` when it is missing, unreadable or wrong. */
export function readYaml<T>(file: string, schema: z.ZodType<T>, complete?: (written: unknown) => unknown): T {
  let text: string;
  try {
    text = readFileSync(file, 'utf8');
  } catch (cause) {
    throw new ThawlineError(
      'config',
      `${file}: cannot be read. Create it, or name another file with --config.`,
      { cause },
    );
  }
  return parseYaml(text, file, schema, complete);
}
