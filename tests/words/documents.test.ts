/** What is written for programs keeps to the published JSON Schema, and what older versions wrote stays of use. */
import { readFileSync } from 'node:fs';
import { Ajv2020 } from 'ajv/dist/2020.js';
import { describe, expect, it } from 'vitest';
import { z } from 'zod';
import {
  briefingSchema,
  checkedBriefing,
  composeBriefing,
  readComparable,
} from '../../src/briefing/index.ts';
import { renderBriefing } from '../../src/render/index.ts';
import { pageOf, readArchived, toPage, twinSchema, wordsFor } from '../../src/words/index.ts';
import { loadRules } from '../../src/config/rules.ts';
import { morningNamed, mornings } from '../helpers/mornings.ts';
import { sampleFacts, sampleInput } from '../helpers/sampleBriefing.ts';

const ajv = new Ajv2020({ strict: false });
const validates = (schema: z.ZodType) =>
  ajv.compile(z.toJSONSchema(schema, { io: 'output', unrepresentable: 'any' }));

describe('the published JSON Schema', () => {
  const facts = validates(briefingSchema);
  const twin = validates(twinSchema);

  it.each(mornings())('holds of what is archived and of what is sent of $name', async (morning) => {
    expect(facts(morning.facts), ajv.errorsText(facts.errors)).toBe(true);
    const { json } = await renderBriefing(morning.facts, { units: morning.units, form: 'short' });
    expect(twin(JSON.parse(json)), ajv.errorsText(twin.errors)).toBe(true);
  });

  it('refuses what is not a briefing', () => {
    expect(facts({ ...sampleFacts(), issuedMs: 'this morning' })).toBe(false);
    expect(facts({ ...sampleFacts(), aWordTooMany: 1 })).toBe(false);
  });
});

it('a document with a field of the wrong kind is not written', () => {
  const broken = { ...sampleFacts(), issuedMs: 1.5 };
  expect(() => checkedBriefing(broken)).toThrow(/not as its schema has it.*/);
});

/** A sentence: three words of letters one after another. */
const SENTENCE = /\p{L}{2,} \p{L}{2,} \p{L}{2,}/u;
/** What people or services named or wrote, ids of lures, and the rules' own words, which the facts name by key. */
const GIVEN = new Set([
  ...['official', 'sources', 'name', 'lake', 'where', 'source', 'problem', 'named'],
  ...['event', 'headline', 'instruction'],
  ...['lure', 'lureClass', 'hook', 'wanted', 'rulesWords'],
]);
const sentences = (value: unknown, key = ''): string[] => {
  if (GIVEN.has(key)) return [];
  if (typeof value === 'string') return SENTENCE.test(value) ? [value] : [];
  if (Array.isArray(value)) return value.flatMap((item) => sentences(item, key));
  if (value === null || typeof value !== 'object') return [];
  return Object.entries(value).flatMap(([name, item]) => sentences(item, name));
};

it.each(mornings())('the facts of $name hold no sentence of their own', ({ facts, document }) => {
  expect(sentences(facts)).toEqual([]);
  expect(JSON.stringify(facts)).not.toContain('"code":"said"');
  expect(sentences(document).length).toBeGreaterThan(20);
});

describe('the rules’ own words in a document', () => {
  const { facts, document } = morningNamed('warm-rain-pulse');
  const tables = facts.rulesWords ?? {};

  it('are those its page names, and no others', () => {
    const named = Object.keys(tables['en'] ?? {});
    expect(named).toContain('safety.deferTo');
    expect(named.length).toBeLessThan(Object.keys(loadRules().text).length / 4);
    for (const key of named.filter((one) => one.startsWith('safety.') && one.endsWith('.label'))) {
      const without = Object.fromEntries(Object.entries(tables['en'] ?? {}).filter(([one]) => one !== key));
      expect(pageOf({ ...facts, rulesWords: { en: without } }, wordsFor('en'))).not.toEqual(document);
    }
  });

  it('are told as they stood at the issue, whatever the rules say by now', () => {
    const reworded = { ...tables['en'], 'safety.deferTo': 'Ask the warden first.' };
    const page = pageOf({ ...facts, rulesWords: { en: reworded } }, wordsFor('en'));
    expect(page.safety.deferTo).toBe('Ask the warden first.');
    expect(page.plan).toEqual(document.plan);
  });
});

describe('a document of the first version, with its sentences', () => {
  const json = readFileSync(new URL('../../fixtures/briefing/version-1.json', import.meta.url), 'utf8');
  const old = readArchived(json);

  it('is read and shown with the sentences it was issued with', async () => {
    expect(old.schema).toBe('thawline-briefing/1');
    const page = toPage(old, wordsFor('en-XA'));
    expect(page.bottomLine).toMatch(/^Start/);
    const {
      html,
      text,
      json: twin,
    } = await renderBriefing(old, { units: 'metric', form: 'full', pictures: false });
    expect(text).toContain(page.safety.hazards[0]?.headline);
    expect(html).toContain('</html>');
    expect(twinSchema.parse(JSON.parse(twin)).facts).toBeNull();
  });

  it('is compared with the next issue as one of this version would be', () => {
    const morning = mornings().find(({ name }) => name === 'warm-rain-pulse');
    if (morning === undefined) throw new Error('no such morning');
    const previous = readComparable(json);
    if (previous === null) throw new Error('nothing to compare');
    // An issue of this version with the old one's figures, places and level.
    const figures = new Map(previous.conditions.map((row) => [row.id, row.now]));
    const same = readComparable(
      JSON.stringify({
        ...morning.facts,
        conditions: morning.facts.conditions
          .filter(({ id }) => figures.has(id))
          .map((row) => ({ ...row, now: figures.get(row.id) })),
        positions: previous.positions,
        safety: { ...morning.facts.safety, level: previous.safety.level },
      }),
    );
    if (same === null) throw new Error('nothing to compare');
    const changes = (against: typeof previous) =>
      composeBriefing(sampleInput({ previous: { ...against, issuedMs: 0 } })).whatChanged;
    expect(changes(previous).items.length).toBeGreaterThan(0);
    expect(changes(previous)).toEqual(changes(same));
  });
});

it('damaged documents are not taken for an issue', () => {
  expect(readComparable('{"demo":false,')).toBeNull();
  expect(() => readArchived('{"schema":"thawline-briefing/9"}')).toThrow(/does not read/);
});

it('a fact of a later version has no sentence here, and the page stands without it', () => {
  const facts = sampleFacts();
  const [row] = facts.conditions;
  if (row === undefined) throw new Error('no row');
  const later = { ...facts, conditions: [{ ...row, notes: [{ code: 'of.tomorrow' }] }] };
  expect(pageOf(later, wordsFor('en')).conditions[0]?.note).toBeUndefined();
});
