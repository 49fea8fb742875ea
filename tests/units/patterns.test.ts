/**
 * Every pattern of the program takes time in proportion to the text: whoever can put 64 kB into a reply, a header or a
 * form must not be able to stop it. Judged by the analysis of recheck (https://makenowjust-labs.github.io/recheck/),
 * which looks for ambiguity in the pattern itself, not by a clock.
 */
import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { checkSync } from 'recheck';
import ts from 'typescript';
import { describe, expect, it } from 'vitest';
import { clean } from '../../src/services/http/errors.ts';

interface Pattern {
  readonly source: string;
  readonly flags: string;
  readonly where: string;
}

function patternsOf(path: string): Pattern[] {
  const file = ts.createSourceFile(path, readFileSync(path, 'utf8'), ts.ScriptTarget.Latest, true);
  const found: Pattern[] = [];
  const visit = (node: ts.Node): void => {
    if (ts.isRegularExpressionLiteral(node)) {
      const end = node.text.lastIndexOf('/');
      const line = file.getLineAndCharacterOfPosition(node.getStart()).line + 1;
      found.push({
        source: node.text.slice(1, end),
        flags: node.text.slice(end + 1),
        where: `${path}:${line}`,
      });
    }
    ts.forEachChild(node, visit);
  };
  visit(file);
  return found;
}

const files = readdirSync('src', { recursive: true, encoding: 'utf8' }).filter((name) =>
  name.endsWith('.ts'),
);
const all = files.flatMap((name) => patternsOf(join('src', name)));

describe('patterns', () => {
  it('are known to the analysis when they are slow', () => {
    expect(checkSync(String.raw`\w+:\/\/\S+`, 'g').status).toBe('vulnerable');
    expect(checkSync(String.raw`\{\{(.*?)\}\}`, 'g').status).toBe('vulnerable');
  });

  it('of the whole program are linear', { timeout: 300_000 }, () => {
    expect(all.length).toBeGreaterThan(60);
    const judged = new Map<string, string>();
    for (const { source, flags, where } of all) {
      const key = `/${source}/${flags}`;
      if (judged.has(key)) continue;
      const { status } = checkSync(source, flags, { timeout: 60_000 });
      judged.set(key, status === 'safe' ? 'linear' : `${status} at ${where}`);
    }
    expect([...judged].filter(([, word]) => word !== 'linear')).toEqual([]);
  });

  it('are not put together at run time but from fixed parts', () => {
    const made = files.filter((name) => readFileSync(join('src', name), 'utf8').includes('new RegExp('));
    expect(made.sort()).toEqual(MADE);
  });
});

/** Files that put a pattern together: of constants of their own only, and each anchored or without repetition. */
const MADE = ['units/placeholder.ts', 'web/guard.ts'];

describe('the reason in a reply', () => {
  it('is shown without addresses and secrets, whatever its length', () => {
    expect(clean('Cannot read https://user:pw@example.org/x?api_key=1, sorry..')).toBe(
      'Cannot read (address) sorry',
    );
    expect(clean(`no ${'a'.repeat(64_000)} way`)).toBe('no (hidden)');
    expect(clean('a\u0000b\u202Ec')).toBe('abc');
  });
});
