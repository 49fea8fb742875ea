/** The floors of the house, checked on a copy of it: a room without a rule may not be built. */
import { cpSync, mkdirSync, mkdtempSync, readdirSync, writeFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';

interface Rules {
  readonly forbidden: readonly { readonly name: string }[];
}

const require = createRequire(import.meta.url);

/** The rules as they load beside the given folders of `src/`. */
function rulesBeside(rooms: readonly string[]): Rules {
  const house = mkdtempSync(join(tmpdir(), 'thawline-rooms-'));
  cpSync('.dependency-cruiser.cjs', join(house, 'rules.cjs'));
  mkdirSync(join(house, 'src'));
  for (const room of rooms) {
    mkdirSync(join(house, 'src', room));
    writeFileSync(join(house, 'src', room, 'index.ts'), '');
  }
  return require(join(house, 'rules.cjs')) as Rules;
}

const rooms = readdirSync('src');

describe('the rules of the rooms', () => {
  it('know every room there is', () => {
    const names = rulesBeside(rooms).forbidden.map(({ name }) => name);
    for (const room of rooms.filter((one) => one !== 'cli')) expect(names).toContain(`${room}-floor`);
  });

  it('do not load beside a new room that has none, and say how to mend it', () => {
    expect(() => rulesBeside([...rooms, 'attic'])).toThrow('src/attic has no rule: add it to the floors');
  });
});
