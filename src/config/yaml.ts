import { isMap, isScalar, LineCounter, parseDocument, type Document, type ErrorCode } from 'yaml';
import type { z } from 'zod';
import { ThawlineError } from '../units/index.ts';
import { aliasFault } from './knots.ts';
import { readText } from './text.ts';
import { problemWords } from './problemWords.ts';

/** How far references multiply is judged before, by what they come to and not by their number. */
const UNLIMITED = -1;

/** One thing wrong in a file: where, what was found, what is expected and how to mend it. */
export interface FileProblem {
  readonly line: number;
  readonly column: number;
  readonly path: string;
  readonly sentence: string;
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

/** The parser's complaint with a cure that fits it; the place is told before it. */
function said(code: ErrorCode, message: string): string {
  if (code === 'MULTIPLE_DOCS')
    return 'a second document begins here (--- or ...), and a file holds one. Remove the mark, or put the rest into a file of its own.';
  if (code === 'DUPLICATE_KEY')
    return 'not valid YAML: fields of one section are unique, and this one stands here for the second time. Keep one of the two; entries of a list each begin with "- ".';
  const [first = ''] = message.split('\n');
  return `not valid YAML: ${first.replace(/ at line \d+, column \d+:?$/, '')}. Check indentation, brackets and quotes.`;
}

/** What is wrong with the text itself, before any field of it is looked at. */
function textProblems(doc: Document.Parsed, lines: LineCounter): FileProblem[] {
  const at = (offset: number, sentence: string): FileProblem => {
    const { line, col } = lines.linePos(offset);
    return { line, column: col, path: '', sentence };
  };
  const tab = doc.errors.find(({ code }) => code === 'TAB_AS_INDENT');
  // What comes behind it follows from it.
  if (tab !== undefined)
    return [
      at(tab.pos[0], 'a tab stands in the indentation. Write spaces in place of every tab, two a step.'),
    ];
  const deep = doc.errors.find(({ code }) => code === 'RESOURCE_EXHAUSTION');
  if (deep !== undefined)
    return [
      at(deep.pos[0], 'brackets or dashes stand within each other too deeply here. Write the part flat.'),
    ];
  if (doc.errors.length > 0)
    return doc.errors.map(({ code, pos, message }) => at(pos[0], said(code, message)));
  const tags = doc.warnings.filter(({ code }) => code === 'TAG_RESOLVE_FAILED');
  if (tags.length > 0)
    return tags.map(({ pos }) =>
      at(
        pos[0],
        'a tag (a word that begins with "!") is not taken here. Write the plain value; put text that begins with "!" in quotes.',
      ),
    );
  const knot = aliasFault(doc);
  return knot === null ? [] : [at(knot.offset, knot.sentence)];
}

function refused(file: string, problems: readonly FileProblem[]): ThawlineError {
  const rows = problems.map(
    (p) => `${file}:${p.line}:${p.column}: ${p.path === '' ? '' : `${p.path}: `}${p.sentence}`,
  );
  return new ThawlineError('config', rows.join('\n'));
}

interface Written {
  readonly doc: Document;
  readonly lines: LineCounter;
  readonly value: unknown;
}

/** @throws ThawlineError `config` for text that is no YAML, or holds nothing */
function writtenIn(text: string, file: string, complete: (written: unknown) => unknown): Written {
  const lines = new LineCounter();
  const doc = parseDocument(text, { lineCounter: lines, prettyErrors: true });
  const problems = textProblems(doc, lines);
  if (problems.length > 0) throw refused(file, problems);
  const value: unknown = complete(doc.toJS({ maxAliasCount: UNLIMITED }));
  if (value === null || value === undefined) {
    const sentence =
      'the file holds nothing. Begin with a copy of the example that belongs to it, or write the first field.';
    throw refused(file, [{ line: 1, column: 1, path: '', sentence }]);
  }
  return { doc, lines, value };
}

const asWritten = (written: unknown): unknown => written;

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
  complete: (written: unknown) => unknown = asWritten,
): T {
  const written = writtenIn(text, file, complete);
  return accepted(schema.safeParse(written.value), file, schema, written);
}

function accepted<T>(
  result: z.ZodSafeParseResult<T>,
  file: string,
  schema: z.ZodType<T>,
  { doc, lines, value }: Written,
): T {
  if (result.success) return result.data;
  throw refused(
    file,
    result.error.issues.map((issue) => {
      const path =
        issue.code === 'unrecognized_keys' ? [...issue.path, ...issue.keys.slice(0, 1)] : issue.path;
      const also = alsoOf(issue);
      const other = also === null ? '' : ` (see line ${position(doc, lines, also).line})`;
      return {
        ...position(doc, lines, path),
        path: issue.path.map(String).join('.'),
        sentence: problemWords(issue, value, schema) + other,
      };
    }),
  );
}

/** The other place that a problem has to do with, where its check names one. */
function alsoOf(issue: z.core.$ZodIssue): readonly PropertyKey[] | null {
  const also: unknown = issue.code === 'custom' ? issue.params?.['also'] : undefined;
  return Array.isArray(also) ? (also as readonly PropertyKey[]) : null;
}

/** Read and check a YAML file. @throws ThawlineError `config` when it is missing, unreadable or wrong. */
export function readYaml<T>(file: string, schema: z.ZodType<T>, complete?: (written: unknown) => unknown): T {
  return parseYaml(readText(file), file, schema, complete);
}

/** The same for a schema that looks into other places while it checks. */
export async function readYamlPatiently<T>(file: string, schema: z.ZodType<T>): Promise<T> {
  const written = writtenIn(readText(file), file, asWritten);
  return accepted(await schema.safeParseAsync(written.value), file, schema, written);
}
