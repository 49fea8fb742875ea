import { describe, expect, it } from 'vitest';
import { fishEvents } from '../../../bench/fish-data.ts';
import { shareOf } from '../../../bench/fish-rank.ts';
import { judgeRules } from '../../../bench/fish-rules.ts';
import { knownAt, MAPPINGS, placesAt, scoreSite, sumOf } from '../../../bench/fish-site.ts';
import { loadRules } from '../../../src/config/rules.ts';

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
    const events = fishEvents();
    const [mapping] = MAPPINGS;
    const parts = events.map((event) =>
      scoreSite(mapping!.siteOf(event), mapping!.join, placesAt(knownAt(event, 'smallmouth'), rules)),
    );
    const scored = events.map((event, i) => ({
      group: event.group,
      block: `${event.pool} ${event.year}`,
      score: sumOf(parts[i]!),
      caught: event.caught.smallmouth,
    }));
    expect(shareOf(scored)).toBeCloseTo(fish!.whole.smallmouth!, 3);
    const kept = new Map(
      fish!.verdicts.filter(({ species }) => species === 'smallmouth').map((row) => [row.rule, row]),
    );
    for (const { rule, n, ratio } of judgeRules(scored, parts)) {
      expect(kept.get(rule)?.n, rule).toBe(n);
      expect(kept.get(rule)?.ratio, rule).toBeCloseTo(Math.min(99, ratio), 1);
    }
  }, 60_000);
});
