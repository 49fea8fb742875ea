/** The reference is what the program says of itself. */
import { readFileSync } from 'node:fs';
import { expect, it } from 'vitest';
import { reference } from '../../scripts/reference.ts';

it('the reference is made anew after every change: npx tsx scripts/reference.ts', async () => {
  for (const [path, text] of await reference()) expect(readFileSync(path, 'utf8'), path).toBe(text);
});
