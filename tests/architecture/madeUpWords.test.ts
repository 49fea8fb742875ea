/** A signal and a kind of place are one row: what lists them takes a made-up one without another edit. */
import { cpSync, mkdtempSync, readFileSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { describe, expect, it, vi } from 'vitest';
import { z } from 'zod';

vi.mock('../../src/vocabulary/signals.ts', async (original) => {
  const real = await original<typeof import('../../src/vocabulary/signals.ts')>();
  const SIGNALS = { ...real.SIGNALS, frogChorusDb: 'count' };
  return { ...real, SIGNALS, SIGNAL_IDS: Object.keys(SIGNALS) };
});

vi.mock('../../src/vocabulary/places.ts', async (original) => {
  const real = await original<typeof import('../../src/vocabulary/places.ts')>();
  const PLACE = { ...real.PLACE, sunken_ferry: real.PLACE.hump };
  return { ...real, PLACE, PLACES: Object.keys(PLACE) };
});

const { configSchema } = await import('../../src/config/index.ts');
const { loadRules } = await import('../../src/config/rules.ts');

/** The shipped rules with one more cue on the made-up signal and, on request, one more place. */
function rulesWith(edit: (text: string) => string): string {
  const folder = mkdtempSync(join(tmpdir(), 'thawline-rules-'));
  cpSync(new URL('../../config/rules', import.meta.url).pathname, folder, { recursive: true });
  for (const name of ['positions.yaml', 'words.en.yaml']) {
    const file = join(folder, name);
    writeFileSync(file, edit(readFileSync(file, 'utf8')));
  }
  return folder;
}

describe('a made-up signal', () => {
  it('may be used by a rule', () => {
    const folder = rulesWith((text) => text.replace(/signal: windMs/, 'signal: frogChorusDb'));
    expect(JSON.stringify(loadRules(folder).positions)).toContain('frogChorusDb');
  });
});

describe('a made-up kind of place', () => {
  it('may be named by a point of the configuration, and stands in the JSON Schema', () => {
    const text = JSON.stringify(z.toJSONSchema(configSchema, { io: 'input', unrepresentable: 'any' }));
    expect(text).toContain('"sunken_ferry"');
  });

  it('may be ranked by the rules', () => {
    const folder = rulesWith((text) => text.replaceAll(/\bhump\b(?=[:.,\s\]}])/g, 'sunken_ferry'));
    const { positions } = loadRules(folder);
    expect(positions.places.map(({ id }) => id as string)).toContain('sunken_ferry');
  });
});
