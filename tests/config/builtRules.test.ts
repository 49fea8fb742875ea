/** What the build keeps of the rules is the rules, and is taken only while their files are the same. */
import { appendFileSync, cpSync, mkdtempSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { rulesDigest } from '../../src/config/builtRules.ts';
import { loadRules } from '../../src/config/rules.ts';

const copy = (): string => {
  const folder = mkdtempSync(join(tmpdir(), 'thawline-built-'));
  cpSync('config/rules', folder, { recursive: true });
  return folder;
};

describe('the rules that the build keeps', () => {
  it('lose nothing by being kept as JSON', () => {
    const rules = loadRules();
    expect(JSON.parse(JSON.stringify(rules))).toEqual(rules);
  });

  it('belong to any folder with the same files', () => {
    expect(rulesDigest(copy())).toBe(rulesDigest('config/rules'));
  });

  it.each(['positions.yaml', 'safety.yaml', 'words.en.yaml', 'own.yaml'])(
    'are not those of a folder where %s differs by one letter',
    (file) => {
      const folder = copy();
      appendFileSync(join(folder, file), '\n');
      expect(rulesDigest(folder)).not.toBe(rulesDigest('config/rules'));
    },
  );
});
