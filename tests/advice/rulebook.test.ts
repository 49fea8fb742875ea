import { cpSync, mkdtempSync, readFileSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { loadRules } from '../../src/config/rules.ts';
import { PHASES, PLACES } from '../../src/vocabulary/index.ts';
import { rules } from './support.ts';

const shipped = new URL('../../config/rules/', import.meta.url).pathname;

/** A copy of the shipped rules with one edit. */
function edited(file: string, from: string, to: string): string {
  const folder = mkdtempSync(join(tmpdir(), 'thawline-rules-'));
  cpSync(shipped, folder, { recursive: true });
  const text = readFileSync(join(folder, file), 'utf8');
  expect(text).toContain(from);
  writeFileSync(join(folder, file), text.replace(from, to));
  return folder;
}

describe('the rules files', () => {
  it('give every place a base in every phase, each with sentence, grade and source', () => {
    const cells = rules.positions.places.flatMap(({ base }) => Object.values(base));
    expect(cells).toHaveLength(PLACES.length * PHASES.length);
    for (const cell of cells) expect(cell.sentence.length).toBeGreaterThan(5);
  });

  it('name a listed source for everything that claims to be published', () => {
    const claims = [
      ...rules.positions.modifiers,
      ...rules.positions.places.flatMap(({ base }) => Object.values(base)),
    ];
    for (const { source, grade, sentence } of claims) {
      const ids = source.split(', ');
      for (const id of ids) expect(Object.keys(rules.positions.sources), sentence).toContain(id);
      if (grade.startsWith('published'))
        expect(
          ids.some((id) => id !== 'CP'),
          sentence,
        ).toBe(true);
      if (grade === 'common-practice') expect(ids, sentence).toEqual(['CP']);
    }
  });

  it('have ids that are used once', () => {
    const ids = [
      rules.positions.modifiers,
      rules.positions.depthShifts,
      rules.positions.periods,
      rules.positions.tendency,
    ]
      .flat()
      .map(({ id }) => id);
    expect(new Set(ids).size).toBe(ids.length);
  });

  it.each([
    [
      'positions.yaml',
      'signal: warmingDays',
      'signal: warmingDay',
      /positions\.yaml:\d+:\d+: .*did you mean warmingDays\?/,
    ],
    ['positions.yaml', 'clampDefault: 4', 'clampDefault: many', /positions\.yaml:\d+:\d+: clampDefault/],
    [
      'phases.yaml',
      'daylightFloor:',
      'daylightFlor:',
      /phases\.yaml:\d+:\d+: .*did you mean "daylightFloor"\?/,
    ],
    ['phases.yaml', '[9, 0.4]', '[5, 0.4]', /phases\.yaml:\d+:\d+: .*must rise/],
  ])('say file, line and column when %s is wrong', (file, from, to, message) => {
    expect(() => loadRules(edited(file, from, to))).toThrow(message);
  });

  it('let a reader change one weight and see it in the ranking', () => {
    const folder = edited('positions.yaml', 'clampDefault: 4', 'clampDefault: 3');
    expect(loadRules(folder).positions.clampDefault).toBe(3);
  });
});
