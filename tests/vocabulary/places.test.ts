import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { loadRules } from '../../src/config/rules.ts';
import { LURES, PLACE, PLACES, WATER_BODIES } from '../../src/vocabulary/index.ts';

describe('the table of places', () => {
  it('says of each kind of water whether it has the place', () => {
    for (const id of PLACES) expect(Object.keys(PLACE[id].on), id).toEqual([...WATER_BODIES]);
  });

  it('leaves every kind of water with places to rank without a word of configuration', () => {
    for (const body of WATER_BODIES) {
      const usual = PLACES.filter((id) => PLACE[id].on[body] === 'usual');
      expect(usual.length, body).toBeGreaterThanOrEqual(4);
    }
  });

  it('and the guide to what-if agree on what is ranked from grass_edge on without being declared', () => {
    const text = readFileSync('docs/what-if.md', 'utf8');
    const [, exceptions = ''] = /from `grass_edge` on hardly any is usual \(([^)]*)\)/.exec(text) ?? [];
    const late = PLACES.slice(PLACES.indexOf('grass_edge'));
    const undeclared = late.filter((id) => WATER_BODIES.some((body) => PLACE[id].on[body] === 'usual'));
    expect([...exceptions.matchAll(/`([a-z_]+)`/g)].map(([, id]) => id).sort()).toEqual(
      [...undeclared].sort(),
    );
  });

  it('has no place that no water has', () => {
    for (const id of PLACES) {
      expect(
        WATER_BODIES.some((body) => PLACE[id].on[body] !== 'never'),
        id,
      ).toBe(true);
    }
  });

  it('keeps drowned channels out of natural lakes and creek arms out of ponds and tailwaters', () => {
    expect(PLACE.river_channel.on['natural-lake']).toBe('never');
    expect(PLACE.channel_swing_bank.on['natural-lake']).toBe('never');
    expect(PLACE.creek_arm.on.pond).toBe('never');
    expect(PLACE.creek_arm.on.tailwater).toBe('never');
    expect(PLACE.eddy_seam.on.tailwater).toBe('usual');
  });
});

describe('the shipped rules', () => {
  const rules = loadRules();

  it('rank only places of the table', () => {
    for (const place of rules.positions.places) expect(PLACES).toContain(place.id);
  });

  it('know only lure classes of the table', () => {
    for (const lure of rules.lures.classes) expect(LURES).toContain(lure.id);
  });
});
