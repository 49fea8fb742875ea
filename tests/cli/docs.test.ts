/** What the documents point to exists: files behind links, commands and their options. */
import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { Command } from 'commander';
import { beforeAll, describe, expect, it } from 'vitest';
import { commandTree, flattened, type CommandNode } from '../../src/cli/commandTree.ts';
import { COMMANDS } from '../../src/cli/commands.ts';
import { LURES, PLACES } from '../../src/vocabulary/index.ts';

const DOCUMENTS = [
  'README.md',
  'DEVELOPERS.md',
  ...readdirSync('docs', { recursive: true, encoding: 'utf8' })
    .filter((name) => name.endsWith('.md'))
    .map((name) => join('docs', name)),
];
let nodes: CommandNode[];

beforeAll(async () => {
  const root = new Command('thawline').option('--config <file>').version('0');
  for (const { load } of Object.values(COMMANDS)) (await load())(root);
  nodes = flattened(commandTree(root));
}, 120_000);

/** Lines of shell blocks and code spans that call the program, without what stands before its name. */
const calls = (text: string): string[] =>
  [...text.matchAll(/(?:npx thawline|dist\/cli\/main\.js|`thawline) ([^\n`#|&]+)/g)].map(([, words = '']) =>
    words.trim(),
  );

describe.each(DOCUMENTS)('%s', (path) => {
  const text = readFileSync(path, 'utf8');

  it('links to files that exist', () => {
    const links = [...text.matchAll(/\]\(([^)\s]+)\)/g)]
      .map(([, to = '']) => to)
      .filter((to) => !/^(?:https?:|mailto:|#)/.test(to));
    const dead = links.filter((to) => !existsSync(join(dirname(path), to.split('#')[0] ?? '')));
    expect(dead).toEqual([]);
  });

  it('calls commands and options that exist', () => {
    const wrong = calls(text).filter((call) => {
      const words = call.split(/\s+/);
      if (words[0]?.startsWith('-') === true) return false;
      const two = nodes.find((node) => node.path === words.slice(0, 2).join(' '));
      const node = two ?? nodes.find(({ path: own }) => own === words[0]);
      if (node === undefined) return true;
      const known = [...node.options, ...(nodes[0]?.options ?? [])].flatMap(({ names }) => names);
      return words.some(
        (word) => /^--[a-z]/.test(word) && word !== '--help' && !known.includes(word.split('=')[0] ?? ''),
      );
    });
    expect(wrong).toEqual([]);
  });
});

describe('docs/what-if.md', () => {
  it.each([...PLACES, ...LURES])('names %s', (id) => {
    expect(readFileSync('docs/what-if.md', 'utf8')).toMatch(new RegExp(`[\`\\s]${id}[\`\\s]`));
  });
});
