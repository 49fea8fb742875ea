import { mkdtempSync, readFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { basename, join } from 'node:path';
import { expect, it } from 'vitest';
import { writeSchemas } from '../../src/cli/check.ts';

it('the JSON Schemas kept for editors are those of the program', () => {
  for (const path of writeSchemas(mkdtempSync(join(tmpdir(), 'thawline-schema-')))) {
    const kept = readFileSync(join('config/schema', basename(path)), 'utf8');
    expect(
      kept,
      `run: npx thawline check --no-services --no-links --schemas config/schema, then prettier (${basename(path)})`,
    ).toBe(readFileSync(path, 'utf8'));
  }
});
