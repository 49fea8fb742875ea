import { caniemail } from 'caniemail';
import { describe, expect, it } from 'vitest';
import { mornings } from '../helpers/mornings.ts';
import { renderedMorning } from '../helpers/renderedMorning.ts';

/** Large mail programs, by the ids of the feature tables at caniemail.com. */
const CLIENTS = ['gmail.*', 'outlook.*', 'apple-mail.*', 'yahoo.*', 'samsung-email.*'] as const;

describe('what the large mail programs do not support', () => {
  it('is no more than what was looked at and accepted', async () => {
    const found = new Set<string>();
    for (const morning of mornings()) {
      const { html } = await renderedMorning(morning);
      const { issues } = caniemail({ clients: [...CLIENTS], html });
      for (const [client, features] of issues.errors) {
        for (const { title } of features) found.add(`${title} (${client})`);
      }
    }
    const list = [...found].sort();
    expect(list.length).toBeGreaterThan(0);
    await expect(`${list.join('\n')}\n`).toMatchFileSnapshot(
      '../../fixtures/render/mail-program-baseline.txt',
    );
  }, 120_000);
});
