/** The first place against the second, and the cards of the casts. */
import { describe, expect, it } from 'vitest';
import { cardOf } from '../../src/advice/cards.ts';
import { adviceFor, rules, table, totalOf } from './support.ts';

const some = table.scenarios
  .filter((_, i) => i % 3 === 0)
  .map(({ id, conditions }) => ({ id, advice: adviceFor(conditions) }));

describe('the lead of the first place', () => {
  it('is told with its points, and called close under half of one', () => {
    for (const { id, advice } of some) {
      const [first, second] = advice.positions.filter(({ closedBy }) => closedBy === undefined);
      const points = (first?.total ?? Number.NaN) - (second?.total ?? Number.NaN);
      const code = points < 0.5 ? 'close' : 'ahead';
      expect(advice.lead, id).toEqual({ code, first: first?.place, second: second?.place, points });
      expect(advice.close, id).toBe(code === 'close');
    }
    expect(new Set(some.map(({ advice }) => advice.close)).size).toBe(2);
  });
});

describe('the search plan', () => {
  // Common practice, no source: in the cold half of the year fish hold in several patterns at once.
  const SPREAD = ['winter', 'early_prespawn', 'prespawn', 'late_fall'] as const;
  const patternOf = (place: string) => rules.positions.places.find(({ id }) => id === place)?.pattern;

  it('lays out two patterns at least where fish are spread, and else those near the leader alone', () => {
    for (const { id, advice } of some) {
      const spread = SPREAD.reduce((sum, phase) => sum + advice.phase.membership[phase], 0);
      const steps = advice.searchPlan.map(({ place }) => place);
      const leader = Math.max(...steps.map((place) => totalOf(advice, place)));
      const reach = spread > 0.5 ? 4 : 2.5;
      expect(new Set(steps.map(patternOf)).size, id).toBe(steps.length);
      if (spread > 0.5) expect(steps.length, id).toBeGreaterThanOrEqual(2);
      for (const place of steps.slice(spread > 0.5 ? 2 : 1))
        expect(leader - totalOf(advice, place), id).toBeLessThanOrEqual(reach);
    }
    expect(new Set(some.map(({ advice }) => advice.searchPlan.length)).size).toBeGreaterThan(1);
  });
});

describe('the card of a cast', () => {
  const casts = some.flatMap(({ advice }) => advice.casts);
  it('counts a sinking lure down, and no other by its line', () => {
    const sinking = casts
      .filter(({ family }) => family === 'sinking')
      .map((cast) => ({ cast, card: cardOf(cast) }));
    expect(sinking.length).toBeGreaterThan(0);
    for (const { cast, card } of sinking) {
      const down = cast.family === 'sinking' ? cast.down : null;
      expect(card.countS).toBe(down?.countS);
      expect(card.fallMs).toBe(down?.fallMs);
    }
    for (const cast of casts.filter(({ family }) => family === 'surface' || family === 'diving'))
      expect(cardOf(cast)).not.toHaveProperty('countS');
  });

  it('tells of contact with the bottom where a lure is fished on it, with how much of the way', () => {
    for (const cast of casts) {
      const card = cardOf(cast);
      const touches = cast.family === 'bottom' || (cast.family === 'diving' && cast.contact !== null);
      expect(card.contactApplies, cast.family).toBe(touches);
      const contact = cast.family === 'bottom' || cast.family === 'diving' ? cast.contact : null;
      expect(card.contactShare).toBe(contact?.share ?? 0);
      if (cast.family === 'surface') expect(card.runningDepthM).toBe(0);
    }
    expect(new Set(casts.map((cast) => cardOf(cast).contactApplies)).size).toBe(2);
  });
});
