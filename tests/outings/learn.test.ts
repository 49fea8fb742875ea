/**
 * What is learnt from outings whose truth is known: it finds what differs, leaves alone what does not, and its intervals
 * hold what they say. `npx tsx bench/outing-learn.ts` prints the same with more seasons.
 */
import { describe, expect, it } from 'vitest';
import { chance, normalOf, SEASON_RULES, seasonOf, type Season } from '../../bench/outing-sim.ts';
import { FEWEST, learnFrom, type LearnRow } from '../../src/outings/index.ts';

/** Long form: npm run test:long. */
const RUNS = process.env['THAWLINE_LONG'] === undefined ? 80 : 200;
const CLUB: Season = { outings: 300, readers: 12, perHour: 0.5, ratioOfAPoint: 1.25, wrong: {} };
const seasons = <T>(of: (seed: number) => T): T[] => Array.from({ length: RUNS }, (_, run) => of(run));
const share = (hits: readonly boolean[]): number => hits.filter(Boolean).length / hits.length;

describe('when nothing differs', () => {
  it.each<[string, Partial<Season>]>([
    ['the shipped rules are right', {}],
    ['no rule and no place matters at all', { ratioOfAPoint: 1 }],
    ['there are only sixty outings of six readers', { outings: 60, readers: 6 }],
    ['hardly any fish were caught', { perHour: 0.12 }],
  ])('in fewer than 5 of 100 seasons anything is proposed: %s', (_, change) => {
    const proposed = seasons(
      (seed) => learnFrom(seasonOf({ ...CLUB, ...change }, seed * 7 + 1), 'shared').proposals.length > 0,
    );
    expect(share(proposed)).toBeLessThan(0.05);
  });
});

describe('of a place worth twice what the rules say, in 300 outings', () => {
  const learnt = seasons((seed) =>
    learnFrom(seasonOf({ ...CLUB, wrong: { 'base.point': Math.LN2 } }, seed * 11 + 3), 'shared'),
  );

  it('the direction is right in 90 of 100 seasons and more, and so is what is proposed', () => {
    const of = (rule: string) => (one: { readonly rule: string }) => one.rule === rule;
    expect(
      share(learnt.map(({ judged }) => (judged.find(of('base.point'))?.change ?? 0) > 0)),
    ).toBeGreaterThan(0.9);
    expect(
      share(learnt.map(({ proposals }) => (proposals.find(of('base.point'))?.change ?? 0) > 0)),
    ).toBeGreaterThan(0.9);
    expect(learnt.some(({ proposals }) => (proposals.find(of('base.point'))?.change ?? 0) < 0)).toBe(false);
  });

  it('the proposal is drawn towards the shipped weight, and never more than a step', () => {
    for (const { proposals } of learnt)
      for (const { change } of proposals) expect(Math.abs(change)).toBeLessThanOrEqual(1.5);
  });
});

it('a rule of the day worth twice is seen in the right direction in 90 of 100 seasons', () => {
  const right = seasons((seed) => {
    const { judged } = learnFrom(seasonOf({ ...CLUB, wrong: { wind: Math.LN2 } }, seed * 17 + 5), 'shared');
    return (judged.find(({ rule }) => rule === 'wind')?.change ?? 0) > 0;
  });
  expect(share(right)).toBeGreaterThan(0.9);
});

describe('the 80 % interval of an effect', () => {
  it.each([
    [0.3, 300, 12],
    [0.3, 120, 8],
    [0.5, 600, 20],
  ])(
    'holds the truth in 75 to 85 of 100 cases (rules wrong by %d, %d outings of %d readers)',
    (spread, outings, readers) => {
      const inside = seasons((seed) => {
        const next = chance(seed + 100_000);
        const wrong = Object.fromEntries(SEASON_RULES.map((rule) => [rule, normalOf(next) * spread]));
        const rows = seasonOf({ ...CLUB, outings, readers, wrong }, seed * 13 + 5);
        // Places are told beside the mean of those that were fished.
        const beside =
          rows.reduce((sum, { parts }) => sum + (wrong[parts[0]?.rule ?? ''] ?? 0), 0) / rows.length;
        return learnFrom(rows, 'shared').judged.map(({ rule, low, high }) => {
          const truth = Math.exp((wrong[rule] ?? 0) - (rule.startsWith('base.') ? beside : 0));
          return truth >= low && truth <= high;
        });
      }).flat();
      expect(inside.length).toBeGreaterThan(5 * RUNS);
      expect(share(inside)).toBeGreaterThanOrEqual(0.75);
      expect(share(inside)).toBeLessThanOrEqual(0.85);
    },
  );
});

describe('what may be learnt from', () => {
  const rows = (outings: number, readers: number): LearnRow[] =>
    seasonOf({ ...CLUB, outings, readers }, 1).map((row, i) => ({ ...row, reader: `reader${i % readers}` }));

  it('is nothing below five readers or 30 outings', () => {
    expect(learnFrom(rows(FEWEST.sharedOutings, FEWEST.sharedReaders), 'shared').tooFew).toBe(false);
    expect(learnFrom(rows(29, 6), 'shared')).toMatchObject({ tooFew: true, proposals: [], judged: [] });
    expect(learnFrom(rows(200, 4), 'shared').tooFew).toBe(true);
  });

  it('of oneself asks for 30 outings too', () => {
    expect(learnFrom(rows(30, 1), 'own').tooFew).toBe(false);
    expect(learnFrom(rows(29, 1), 'own').tooFew).toBe(true);
  });

  it('is no rule that few outings or few readers heard', () => {
    const many = rows(120, 6);
    const alone = many.map((row, i): LearnRow => {
      const parts = [
        ...row.parts,
        ...(i < 9 ? [{ rule: 'seldom', share: 1 }] : []),
        ...(row.reader === 'reader1' || row.reader === 'reader2' ? [{ rule: 'of two', share: 1 }] : []),
      ];
      return { ...row, parts };
    });
    const heard = learnFrom(alone, 'shared').judged.map(({ rule }) => rule);
    expect(heard).toContain('base.bluff');
    expect(heard).not.toContain('seldom');
    expect(heard).not.toContain('of two');
  });

  it('moves a rule that surveys were fitted to less than any other', () => {
    const season = seasonOf({ ...CLUB, wrong: { 'base.point': Math.LN2 } }, 3);
    const of = (held: number) =>
      learnFrom(season, 'shared', (rule) => (rule === 'base.point' ? held : 1)).judged.find(
        ({ rule }) => rule === 'base.point',
      )?.ratio ?? NaN;
    expect(of(4)).toBeLessThan(of(1));
    expect(of(4)).toBeGreaterThan(1);
  });

  it('does not take a good angler for a good place', () => {
    const next = chance(8);
    const biased = Array.from({ length: 300 }, (_, i): LearnRow => {
      const reader = i % 6;
      const atDock = next() < (reader === 0 ? 0.9 : 0.2);
      const mean = reader === 0 ? 6 : 1.5;
      // A count that is its mean: only the reader differs.
      return {
        fish: Math.round(mean + normalOf(next)),
        hours: 4,
        reader: String(reader),
        points: 1,
        parts: [{ rule: `base.${atDock ? 'dock' : 'bluff'}`, share: 1 }],
      };
    }).map((row) => ({ ...row, fish: Math.max(0, row.fish) }));
    expect(learnFrom(biased, 'shared').proposals).toEqual([]);
  });
});
