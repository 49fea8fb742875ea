import { cpSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { parse } from 'yaml';
import { advise } from '../../src/advice/index.ts';
import { loadRules } from '../../src/config/rules.ts';
import { conditionsOf, TACKLE } from '../advice/support.ts';

const shipped = new URL('../../config/rules/', import.meta.url).pathname;
const before = new URL('../../fixtures/rules/one/', import.meta.url).pathname;

/** A copy of a rules folder with one file changed. */
function folder(from: string, file: string, change: (text: string) => string): string {
  const copy = mkdtempSync(join(tmpdir(), 'thawline-words-'));
  cpSync(from, copy, { recursive: true });
  const text = readFileSync(join(copy, file), 'utf8');
  const changed = change(text);
  expect(changed).not.toBe(text);
  writeFileSync(join(copy, file), changed);
  return copy;
}

const line = (key: string): RegExp => new RegExp(`^${key.replaceAll('.', '\\.')}: .*\n`, 'm');

describe('the words of the rules', () => {
  it('stand in a file a language, keyed by the rule’s id, and every one belongs to a rule', () => {
    const words = parse(readFileSync(join(shipped, 'words.en.yaml'), 'utf8')) as Record<string, string>;
    expect(loadRules().text).toEqual(words);
  });

  it('are those that a rule carries inline, where it carries any', () => {
    const own = folder(shipped, 'positions.yaml', (text) =>
      text.replace(
        '- id: warming.cold-season\n',
        '- id: warming.cold-season\n    sentence: My own words for it.\n',
      ),
    );
    const rules = loadRules(own);
    const rule = rules.positions.modifiers.find(({ id }) => id === 'warming.cold-season');
    expect(rule?.sentence).toBe('My own words for it.');
    expect(rules.text['warming.cold-season']).toBe('My own words for it.');
  });

  it('come with a rule of a reader’s own, inline', () => {
    const own = folder(shipped, 'positions.yaml', (text) =>
      text.replace(
        'depthShifts:\n',
        'depthShifts:\n  - id: depth.mine\n    sentence: My fish sit deep on Mondays.\n    factor: 1.1\n    when: {}\n',
      ),
    );
    expect(loadRules(own).text['depth.mine']).toBe('My fish sit deep on Mondays.');
  });

  // The shipped words stand in for a folder's missing ones, so a rule without any is one of a reader's own.
  it.each([
    [
      'positions.yaml',
      'id: warming.cold-season',
      /positions\.yaml:\d+:\d+: modifiers\.\d+\.sentence: .*no words.*words\.en\.yaml/,
    ],
    ['safety.yaml', 'name: gale', /safety\.yaml:\d+:\d+: hazards\.\d+\.classes\.0\.do: .*no words/],
  ])('are asked for in %s with file, line and both places to write them', (file, named, message) => {
    const renamed = named.replace(/: .*/, ': mine');
    expect(() => loadRules(folder(shipped, file, (text) => text.replace(named, renamed)))).toThrow(message);
  });

  it('of the shipped file stand in where a copied folder has none of its own', () => {
    const bare = folder(shipped, 'words.en.yaml', (text) => text.replace(line('place.dock.step'), ''));
    expect(loadRules(bare).text['place.dock.step']).toBe(loadRules().text['place.dock.step']);
    rmSync(join(bare, 'words.en.yaml'));
    expect(loadRules(bare)).toEqual(loadRules());
  });
});

describe('a rules folder of the version before', () => {
  it('says its own sentences', () => {
    const written = parse(readFileSync(join(before, 'positions.yaml'), 'utf8')) as {
      modifiers: { id: string; sentence: string }[];
    };
    const { text } = loadRules(before);
    expect(written.modifiers.length).toBeGreaterThan(40);
    for (const { id, sentence } of written.modifiers) expect(text[id]).toBe(sentence);
    expect(text['safety.cold-water.label']).toBe('COLD WATER');
  });

  it('goes on giving advice', () => {
    const rules = loadRules(before);
    const advice = advise(conditionsOf({ date: '2026-02-20', water: { main: '7.5 C' } }), rules, {
      tackle: TACKLE,
    });
    expect(advice.positions.length).toBeGreaterThanOrEqual(15);
    const first = advice.positions[0]!;
    expect(rules.text[first.evidence[0]!.rule]).toMatch(/\.$/);
  });
});
