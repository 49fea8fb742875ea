/** Hours that hazards close are told as their union: nobody is let out in a gap between two names of one wind. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Briefing, IssuedBriefing } from '../../src/briefing/index.ts';
import { HOUR_MS } from '../../src/units/time/calendar.ts';
import { clock, pageOf, stretchesOf, wordsFor, type BriefingPage } from '../../src/words/index.ts';
import { morningNamed } from '../helpers/mornings.ts';
import { withPlan } from '../helpers/samplePlan.ts';

const words = wordsFor('en');

type Closed = NonNullable<IssuedBriefing['plan']>['closed'][number];
type Hours = readonly [hazard: string, level: 3 | 4, from: number, to: number];

const WIND = {
  code: 'class',
  id: 'wind',
  className: 'gale',
  quantity: 'windMaxMs',
  value: 16,
  also: [{ code: 'class', id: 'gusts', className: 'storm gusts', quantity: 'gustMs', value: 23 }],
};

const NAMES = { 'safety.wind.label': 'WIND', 'safety.gusts.label': 'GUSTS' };

/** A morning at level 4 whose plan has hours, and whose wind and gusts close the hours given, of the day itself. */
function morning(...hours: readonly Hours[]): BriefingPage {
  const base = withPlan(morningNamed('drawdown').facts);
  if (base.status === 'nil' || base.plan == null) throw new Error('no plan');
  const { zone } = base.lake;
  const midnightMs =
    (base.series.sun.riseMs ?? 0) - Number(clock(base.series.sun.riseMs ?? 0, zone).slice(0, 2)) * HOUR_MS;
  const dayMs = Math.floor(midnightMs / HOUR_MS) * HOUR_MS;
  const closed = hours.map(([hazard, level, from, to]): Closed => {
    const [fromMs, toMs] = [dayMs + from * HOUR_MS, dayMs + to * HOUR_MS];
    return { fromMs, toMs, from: clock(fromMs, zone), to: clock(toMs, zone), hazard, level };
  });
  const facts: Briefing = {
    ...base,
    safety: { ...base.safety, level: 4, hazards: [{ id: 'wind', level: 4, source: 'ours', told: WIND }] },
    plan: { ...base.plan, closed },
    rulesWords: { en: { ...base.rulesWords?.['en'], ...NAMES } },
  };
  return pageOf(facts, words);
}

describe('hours in which everybody stays ashore', () => {
  it('are those of wind and gusts together, on the front, in the danger’s line and in its block', () => {
    const page = morning(['wind', 4, 12, 18], ['gusts', 4, 13, 19]);
    expect(page.front?.danger).toBe('Stay ashore 12:00 to 19:00, 4 of 4.');
    expect(page.front?.hazards[0]).toMatch(/, 12:00 to 19:00\.$/);
    expect(page.safety.hazards[0]?.when).toBe('12:00 to 19:00.');
    expect(page.safety.levelWords).toBe('stay ashore 12:00 to 19:00');
    expect(page.subject).toContain('level 4 stay ashore 12:00 to 19:00: ');
  });

  it('are all told where there are two stretches, and as a whole with breaks where there are more', () => {
    const two = morning(['wind', 4, 9, 11], ['wind', 4, 17, 19]);
    expect(two.front?.danger).toBe('Stay ashore 09:00 to 11:00 and 17:00 to 19:00, 4 of 4.');
    expect(two.front?.hazards[0]).toMatch(/, 09:00 to 11:00 and 17:00 to 19:00\.$/);
    const more = morning(['wind', 4, 8, 9], ['wind', 4, 12, 13], ['gusts', 4, 16, 17]);
    expect(more.front?.danger).toBe('Stay ashore 08:00 to 17:00, with breaks, 4 of 4.');
  });

  it('hold no hours of a lower level in the headline, while the danger’s own line does', () => {
    const page = morning(['gusts', 3, 10, 12], ['wind', 4, 12, 18]);
    expect(page.front?.danger).toBe('Stay ashore 12:00 to 18:00, 4 of 4.');
    expect(page.front?.hazards[0]).toMatch(/, 10:00 to 18:00\.$/);
  });

  it('are one line of the day’s clock for each stretch, with every name once', () => {
    const page = morning(['wind', 4, 9, 12], ['gusts', 4, 11, 12], ['wind', 3, 12, 15], ['gusts', 3, 17, 18]);
    expect(page.plan?.closed.map(({ from, to, words: why }) => [from, to, why])).toEqual([
      ['09:00', '15:00', 'wind, gusts'],
      ['17:00', '18:00', 'gusts'],
    ]);
  });
});

describe('stretches', () => {
  const span = fc
    .tuple(fc.integer({ min: 0, max: 40 }), fc.integer({ min: 1, max: 12 }))
    .map(([from, long]) => ({ fromMs: from, toMs: from + long, from: `${from}`, to: `${from + long}` }));
  const holds = (spans: readonly { fromMs: number; toMs: number }[], at: number): boolean =>
    spans.some(({ fromMs, toMs }) => at >= fromMs && at < toMs);

  it('hold just the instants of their spans, in order and apart, each named by its own ends', () => {
    fc.assert(
      fc.property(fc.array(span, { maxLength: 8 }), (spans) => {
        const found = stretchesOf(spans);
        for (let at = 0; at < 60; at++) expect(holds(found, at)).toBe(holds(spans, at));
        for (const [i, { fromMs, toMs, from, to }] of found.entries()) {
          expect([from, to]).toEqual([`${fromMs}`, `${toMs}`]);
          expect(fromMs).toBeGreaterThan(found[i - 1]?.toMs ?? -1);
        }
        expect(found.flatMap(({ of }) => of)).toHaveLength(spans.length);
      }),
    );
  });
});
