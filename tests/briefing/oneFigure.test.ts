// No two figures for one thing on a page: issues as they were made, and the same with a lie in one of their parts.
import { readdirSync, readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { inOneFigure, readBriefing, type Briefing } from '../../src/briefing/index.ts';
import { mappedMorning } from '../helpers/mappedMorning.ts';

const folder = new URL('../../fixtures/mornings/', import.meta.url);
const mornings = readdirSync(folder).filter((name) => name.endsWith('.json'));

function morning(name: string): Briefing {
  const found = readBriefing(readFileSync(new URL(name, folder), 'utf8'));
  if (found === null) throw new Error(`${name} is of no version that is read`);
  return found;
}

/** The first pocket's warmest hour told by another figure in its sentence. */
function anotherStory(facts: Briefing): Briefing {
  const [first, ...rest] = facts.pockets;
  return {
    ...facts,
    pockets: [
      {
        ...first!,
        sentence: {
          ...first!.sentence,
          told: [{ code: 'differs', differenceK: 9, why: { code: 'stream' } }],
        } as never,
      },
      ...rest,
    ],
  };
}

describe('a page', () => {
  it.each(mornings)('tells each thing by one figure: %s', (name) => {
    const facts = morning(name);
    expect(inOneFigure(facts)).toEqual({ facts, dropped: 0 });
  });

  it('leaves out what is said of a pocket by another figure than its hours have', () => {
    const facts = morning('warm-rain-pulse.json');
    const told = inOneFigure(anotherStory(facts));
    expect(told.dropped).toBe(1);
    expect(told.facts.pockets[0]?.sentence).toMatchObject({ told: [] });
    expect(told.facts.pockets[0]?.warmest).toEqual(facts.pockets[0]?.warmest);
  });

  it('leaves out a depth of the layer that is not the one of the lake', () => {
    const facts = morning('summer-heat.json');
    if (facts.status === 'nil' || facts.plan === null) throw new Error('no plan');
    const layer = { code: 'lake.today', told: { code: 'layerEstimate', depthM: 3, lowM: 2, highM: 4 } };
    const blocks = facts.plan.blocks.map((block, index) => (index === 0 ? { ...block, layer } : block));
    const told = inOneFigure({ ...facts, plan: { ...facts.plan, blocks } });
    expect(told).toEqual({ facts, dropped: 1 });
  });

  it('leaves a pocket uncoloured on the map where the map has another figure than its row', async () => {
    const facts = await mappedMorning(4);
    expect(inOneFigure(facts).dropped).toBe(0);
    const places = facts.map!.places.map((place) =>
      'minusMainC' in place ? { ...place, minusMainC: -5 } : place,
    );
    const lies = places.filter((place) => 'minusMainC' in place).length;
    expect(lies).toBeGreaterThan(0);
    const told = inOneFigure({ ...facts, map: { ...facts.map!, places } });
    expect(told.dropped).toBe(lies);
    expect(told.facts.map!.places.filter((place) => 'minusMainC' in place)).toEqual([]);
  });
});
