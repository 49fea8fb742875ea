/** Sentences of what the water and the signals say: quantities are left to the reader, outside words never become one. */
import { describe, expect, it } from 'vitest';
import type { GapFact, PocketFact, SourceFact } from '../../src/signals/index.ts';
import { expandQuantities } from '../../src/units/index.ts';
import type { ClarityReason } from '../../src/water/clarity/index.ts';
import type { Refusal } from '../../src/water/refusal.ts';
import { say, wordsFor } from '../../src/words/index.ts';

const words = wordsFor('en');
const us = (sentence: string): string => expandQuantities(sentence, 'us');
const refusal = (fact: Refusal): string => us(say(words.water.refusal, fact));
const clarity = (fact: ClarityReason): string => us(say(words.water.clarity, fact));
const gap = (fact: GapFact): string => us(say(words.signals.gap, fact));
const source = (fact: SourceFact): string => say(words.signals.source, fact);
const pocket = (fact: PocketFact): string => us(say(words.pockets.fact, fact));

describe('a refused reading', () => {
  it.each<[Refusal, RegExp]>([
    [{ code: 'notWater', waterC: 52, water: 'river' }, /^126 °F cannot be river water; check the unit\.$/],
    [{ code: 'tooFar', differenceC: 9, of: 'lake', fate: 'leftOut' }, /^It is 16 °F above .*left out until/],
    [
      { code: 'tooFar', differenceC: -5, of: 'pocket', fate: 'countsLittle' },
      /below .* in the pocket; .*little/,
    ],
    [
      { code: 'stuck', waterC: 15, days: 6, water: 'lake', movedC: 3 },
      /shown 59 °F for 6 days while the lake/,
    ],
    [{ code: 'belowWarmLayer', depthM: 6 }, /^At 20 ft /],
    [{ code: 'swingsLikeAir', rangeC: 12 }, /moved by 22 °F within the day/],
  ])('is told in the reader’s units: %j', (fact, wanted) => {
    expect(refusal(fact)).toMatch(wanted);
    expect(refusal(fact)).not.toMatch(/ K\b|°C/);
  });
});

describe('what the clarity rests on', () => {
  it.each<[ClarityReason, RegExp]>([
    [{ code: 'reading', readingM: 0.61, ageDays: 1, runoffSince: false }, /2\.0 ft, 1 day old; no runoff/],
    [{ code: 'reading', readingM: 0.61, ageDays: 0.2, runoffSince: null }, /less than a day old; whether/],
    [
      { code: 'oldReading', readingM: 0.61, ageDays: 12, runoffMm: 25 },
      /12 days old; runoff .* 0\.98 in over/,
    ],
    [{ code: 'gauge', turbidityFnu: 12 }, /^The turbidity gauge shows 12 /],
    [{ code: 'runoffAlone', runoffMm: null }, /^No reading and no turbidity gauge: hardly any runoff/],
  ])('%j', (fact, wanted) => {
    expect(clarity(fact)).toMatch(wanted);
    expect(clarity(fact)).toMatch(/\.$/);
  });
});

describe('a gap', () => {
  it('tells spans in hours below two days and in days from there', () => {
    const silent = (hours: number): string => gap({ code: 'levelSilent', ageMs: hours * 3_600_000 });
    expect(silent(1)).toMatch(/silent for 1 hour:/);
    expect(silent(47)).toMatch(/silent for 47 hours:/);
    expect(silent(48)).toMatch(/silent for 2 days:/);
  });

  it('lets no name from outside become a quantity', () => {
    const outside = '{{level:1}}';
    for (const fact of [
      { code: 'poolOnOtherDatum', levelDatum: outside, poolDatum: 'NAVD88' },
      { code: 'levelDatumUnknown', where: outside },
      { code: 'levelJumped', where: outside, jumpM: 1.8288 },
      { code: 'pocketReadingRefused', pocket: outside, reason: { code: 'notANumber' } },
    ] satisfies GapFact[])
      expect(say(words.signals.gap, fact)).not.toContain('{{level:1}}');
  });

  it('names a jump with its size and what to do', () => {
    expect(gap({ code: 'levelJumped', where: 'at the dam', jumpM: 1.8288 })).toBe(
      'The level gauge at the dam shows a jump of +6.0 ft that no second value confirms yet. It is not used: look at the ramp.',
    );
  });
});

describe('a source', () => {
  it.each<[SourceFact, string]>([
    [
      { code: 'gauge', service: 'usgs', station: 'USGS-01', where: 'at the dam', fallback: true },
      'USGS gauge 01, at the dam (fallback)',
    ],
    [
      { code: 'gauge', service: 'csv', station: 'x', where: 'the dock', fallback: false },
      'logger file, the dock',
    ],
    [{ code: 'waterModel', readingAgeDays: 1 }, 'water model, last reading 1 day old'],
    [{ code: 'waterModel', readingAgeDays: null }, 'water model, no water reading yet'],
    [
      { code: 'pocketModel', pocket: 'Mill, North', coarse: true, readingAgeDays: 0 },
      'pocket model, Mill, North (coarse class), read today',
    ],
    [{ code: 'pocketModel', pocket: null, coarse: false, readingAgeDays: null }, 'pocket model'],
  ])('%j', (fact, wanted) => {
    expect(source(fact)).toBe(wanted);
  });
});

describe('a pocket', () => {
  const ran = { share: 0.34, warmth: 'warmer', went: 'floated', lasts: true, mattered: true } as const;

  it.each<[PocketFact, string]>([
    [
      { code: 'differs', differenceK: 2, why: { code: 'ranIn', ...ran } },
      '4 °F warmer than the main lake at its warmest hour: warmer runoff renewed about 35% of its water and stayed on top.',
    ],
    [
      {
        code: 'differs',
        differenceK: -2,
        why: { code: 'together', causes: ['air', 'stream'], isWarmer: false },
      },
      '4 °F colder than the main lake even at its warmest hour: cold air and the stream together.',
    ],
    [
      { code: 'ranIn', ...ran, lasts: false, went: 'sank' },
      'Warmer runoff renewed about 35% of its water and sank, but its effect is gone.',
    ],
    [
      { code: 'rainRenewed', rainMm: 25.4, share: null },
      'How much of the 1.00 in of rain ran into it is not known.',
    ],
    [{ code: 'effectHalvesIn', ms: 0 }, 'Half of the runoff’s effect should be gone in about 1 hour.'],
    [
      { code: 'coldestHour', hour: 6.5, differenceK: -2, namesLake: true, why: { code: 'nightCools' } },
      'Near 06:30 it should be 4 °F colder than the lake: shallow water cools at night.',
    ],
  ])('%j', (fact, wanted) => {
    expect(pocket(fact)).toBe(wanted);
  });
});
