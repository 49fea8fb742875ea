import { describe, expect, it } from 'vitest';
import { fishEvents } from '../../../bench/fish-data.ts';
import { shareOf } from '../../../bench/fish-rank.ts';
import { judgeRules } from '../../../bench/fish-rules.ts';
import { knownAt, MAPPINGS, placesAt, scoreSite, sumOf } from '../../../bench/fish-site.ts';
import { loadRules } from '../../../src/config/rules.ts';
import type { PositionRules } from '../../../src/config/rulesPlaces.ts';

const SPECIES = 'smallmouth';

// The survey behind it: Upper Mississippi River Restoration Program, Long Term Resource Monitoring; credit in
// fixtures/fish/README.md.
describe('what fish say of the rules', () => {
  const rules = loadRules();
  const { fish } = rules;
  const ids = new Set([
    ...rules.positions.modifiers.map(({ id }) => id),
    ...rules.positions.places.flatMap(({ id, base }) =>
      Object.keys(base).map((phase) => `base.${id}.${phase}`),
    ),
  ]);

  it('is said of rules that there are, by enough sites', () => {
    expect(fish?.verdicts.filter(({ rule }) => !ids.has(rule))).toEqual([]);
    expect(Math.min(...(fish?.verdicts ?? []).map(({ n }) => n))).toBeGreaterThanOrEqual(30);
  });

  it('is what the events give today; else run bench/fish-score.ts --verdicts', () => {
    const alone = judgedOf({
      ...rules.positions,
      counted: [],
      modifiers: rules.positions.modifiers.filter(({ group }) => group !== 'river-survey'),
    });
    const all = judgedOf(rules.positions);
    expect(shareOf(all.scored)).toBeCloseTo(fish!.whole.smallmouth!, 3);
    expect(shareOf(alone.scored)).toBeCloseTo(fish!.trade!.smallmouth!, 3);
    const kept = new Map(
      fish!.verdicts.filter(({ species }) => species === 'smallmouth').map((row) => [row.rule, row]),
    );
    const learned = (rule: string): boolean => rule.startsWith('survey.');
    for (const { rule, n, ratio } of [
      ...judgeRules(alone.scored, alone.parts).filter((one) => !learned(one.rule)),
      ...judgeRules(all.scored, all.parts).filter((one) => learned(one.rule)),
    ]) {
      expect(kept.get(rule)?.n, rule).toBe(n);
      expect(kept.get(rule)?.ratio, rule).toBeCloseTo(Math.min(99, ratio), 1);
    }
  }, 120_000);

  it.each(['largemouth', 'smallmouth'] as const)(
    'leaves nothing of the conditions of the trade that %s of 200 sites and more contradict',
    (species) => {
      const contradicted = fish!.verdicts
        .filter((row) => row.species === species && row.n >= 200 && row.high < 1)
        .map(({ rule }) => rule)
        .filter((rule) => !rule.startsWith('base.'));
      const own = rules.positions.counted.find(({ id }) => id === `counted.${species}`);
      expect(contradicted.filter((rule) => !own!.contradicted.includes(rule))).toEqual([]);
      // What all of it rests on: the trade alone orders sites worse than the rules with what was learned.
      expect(fish!.trade![species]).toBeLessThan(fish!.unseen[species]!);
    },
  );
});

const events = fishEvents();
const { phases } = loadRules();
/** What the advice is told of each event, whichever rules judge it. */
const told = events.map((event) => knownAt(event, SPECIES));

function judgedOf(positions: PositionRules) {
  const { siteOf } = MAPPINGS[0]!;
  const parts = events.map((event, i) =>
    scoreSite(siteOf(event), 'best', placesAt(told[i]!, { phases, positions })),
  );
  const scored = events.map((event, i) => ({
    group: event.group,
    block: `${event.pool} ${event.year}`,
    score: sumOf(parts[i]!),
    caught: event.caught[SPECIES],
  }));
  return { parts, scored };
}
