import { describe, expect, it } from 'vitest';
import { inUnits } from '../../src/render/index.ts';
import { mornings } from '../helpers/mornings.ts';
import { renderedMorning } from '../helpers/renderedMorning.ts';

const all = mornings();

/** Every string of a document that a reader meets; official statements are others' words. */
function sentences(value: unknown, key = ''): string[] {
  if (['official', 'sources', 'series', 'schema', 'id', 'date', 'lake'].includes(key)) return [];
  if (typeof value === 'string') return [value];
  if (Array.isArray(value)) return value.flatMap((item) => sentences(item, key));
  if (value === null || typeof value !== 'object') return [];
  return Object.entries(value).flatMap(([name, item]) => sentences(item, name));
}

describe.each(all)('the words of $name', (morning) => {
  const { name, document } = morning;
  it.each(['us', 'metric'] as const)('are clean and short in %s units', (system) => {
    const words = sentences(inUnits(document, system));
    expect(words.length).toBeGreaterThan(20);
    for (const text of words) {
      expect(text).not.toMatch(/ {2}| [,.;:!?](?!\d)|\.\.|,,|^\s|\s$/);
      expect(text).not.toMatch(/undefined|null|NaN|Infinity|\[object|\{\{|\}\}/);
      expect(text).not.toMatch(/(?<![\d.,])1 (days|turns|minutes|hours)\b|(?<![\d.])(?!1 )\d+ day\b/);
      for (const sentence of text.split(/(?<=[.!?:;])\s+/)) {
        expect(sentence.split(/\s+/).length, sentence).toBeLessThanOrEqual(25);
      }
    }
  });

  it('fit 72 columns', async () => {
    const { text } = await renderedMorning(morning);
    const lines = text.split('\n');
    for (const line of lines) expect(line.length, line).toBeLessThanOrEqual(72);
    expect(text).not.toMatch(/undefined|NaN|\{\{/);
    expect(text).not.toMatch(/\n{3}/);
  });

  it('are the ones last looked at', async () => {
    const { text, subject, preheader, short, card } = await renderedMorning(morning);
    await expect(`${subject}\n${preheader}\n\n${text}\n${short}\n\n${card}\n`).toMatchFileSnapshot(
      `snapshots/${name}.txt`,
    );
  });
});
