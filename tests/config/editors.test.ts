/** The JSON Schemas that editors use say what the program says: checked with a validator that is not ours. */
import { readFileSync } from 'node:fs';
import { Ajv2020, type ValidateFunction } from 'ajv/dist/2020.js';
import { beforeAll, describe, expect, it } from 'vitest';
import { parse } from 'yaml';
import { configSchema, FIELD_WORDS, jsonSchemaOf } from '../../src/config/index.ts';

type Node = Record<string, unknown>;

/** Every property of a schema by its dotted name. */
function properties(node: unknown, path = ''): [string, Node][] {
  if (Array.isArray(node)) return node.flatMap((entry) => properties(entry, path));
  if (typeof node !== 'object' || node === null) return [];
  const bag = node as Node;
  const own = Object.entries((bag['properties'] ?? {}) as Record<string, Node>);
  return [
    ...own.flatMap(([key, property]): [string, Node][] => {
      const name = path === '' ? key : `${path}.${key}`;
      return [[name, property], ...properties(property, name)];
    }),
    ...['items', 'anyOf', 'oneOf', 'allOf'].flatMap((inner) => properties(bag[inner], path)),
  ];
}

const schema = jsonSchemaOf(configSchema, 'input', FIELD_WORDS);
const example = (): Record<string, never> =>
  parse(readFileSync('config/thawline.example.yaml', 'utf8')) as Record<string, never>;

describe('the schema of the configuration', () => {
  let valid: ValidateFunction;
  beforeAll(() => {
    valid = new Ajv2020({ allErrors: true, strict: false, validateFormats: false }).compile(schema);
  });

  it('has a title and a description at every property', () => {
    const all = properties(schema);
    expect(all.length).toBeGreaterThan(110);
    for (const [name, { title, description }] of all) {
      expect(title, name).toMatch(/^[A-Z]/);
      expect(description, `${name}: describe it in src/config/fieldWords.ts`).toMatch(/^[A-Z].{5}/);
    }
  });

  it('describes no field that is not there', () => {
    const names = new Set(properties(schema).map(([name]) => name));
    for (const name of Object.keys(FIELD_WORDS)) expect(names).toContain(name);
  });

  it('takes the example', () => {
    expect(valid(example()), JSON.stringify(valid.errors)).toBe(true);
  });

  it.each([
    ['a bare number for a depth', 'meanDepth', 11],
    ['a quantity without a unit', 'meanDepth', '11'],
    ['a unit of something else', 'meanDepth', '11 acres'],
    ['a decimal comma', 'meanDepth', '11,5 ft'],
    ['a zone of half the year', 'zone', 'EST'],
    ['a zone that is none', 'zone', 'America/Nowhere'],
    ['an unknown kind of water', 'waterBody', 'puddle'],
    ['a field that is not known', 'normlPool', '3 ft'],
  ])('refuses %s, as the program does', (_what, field, value) => {
    const written = example() as unknown as { lakes: Record<string, unknown>[] };
    written.lakes = written.lakes.map((lake) => ({ ...lake, [field]: value }));
    expect(valid(written)).toBe(false);
    expect(configSchema.safeParse(written).success).toBe(false);
  });
});
