/** What the briefing puts first, and what it does not say. */
import { describe, expect, it } from 'vitest';
import type {
  AdviceInWords as Advice,
  EvidenceInWords as Evidence,
  PositionInWords as PositionAdvice,
} from '../../src/words/inWords.ts';
import { BOTTOM_LINE_MAX } from '../../src/words/index.ts';
import { without } from '../../src/briefing/without.ts';
import { renderBriefing } from '../../src/render/index.ts';
import { expandQuantities } from '../../src/units/placeholder.ts';
import { sampleBriefing, sampleFacts } from '../helpers/sampleBriefing.ts';
import { figure, SAMPLE_CARD, SAMPLE_SIGNALS, sampleAdvice, sampleReport } from '../helpers/sampleReport.ts';

const advice = sampleAdvice();
const first = advice.positions[0]!;
const withFirst = (more: Partial<PositionAdvice>): Advice => ({
  ...advice,
  positions: [{ ...first, ...more }, ...advice.positions.slice(1)],
});
const atLevel = (level: 3 | 4, hazards: Advice['safety']['hazards'] = advice.safety.hazards): Advice => ({
  ...advice,
  safety: { ...advice.safety, level, hazards },
});
const warm = sampleReport({ conditions: { signals: { ...SAMPLE_SIGNALS, waterC: figure(22) } } });
const textOf = async (of: Advice): Promise<string> =>
  (await renderBriefing(sampleBriefing({ advice: of }), { units: 'us', form: 'full', pictures: false })).text;

describe('the bottom line', () => {
  const evidence = (sentence: string): Evidence => ({
    rule: 'base.dock.postspawn',
    signal: 'phase',
    value: null,
    curve: 1,
    contribution: 2,
    sentence,
    grade: 'common-practice',
    source: 'CP',
  });
  const of = (sentence: string): string => {
    const plain = without(first, 'named', 'hours');
    const dock = { ...plain, place: 'dock', name: 'dock', evidence: [evidence(sentence)] };
    const changed = { ...advice, positions: [dock, ...advice.positions.slice(1)] };
    return sampleBriefing({ report: warm, advice: changed }).bottomLine;
  };

  it('gives a reason in a sentence where no number does', () => {
    expect(of('It gives shade over deeper water.')).toBe('Start: dock. It gives shade over deeper water.');
  });

  it('leaves out a reason too long for a phone', () => {
    expect(of(`It ${'very '.repeat(30)}much gives shade.`)).toBe('Start: dock.');
  });

  it('says when no daylight is left, within its length', () => {
    const plain = without(first, 'hours');
    const changed = { ...advice, positions: [{ ...plain, bound: 'dark' as const }] };
    const { bottomLine, positions } = sampleBriefing({ report: warm, advice: changed });
    expect(expandQuantities(bottomLine, 'us')).toContain('no daylight left today');
    expect(expandQuantities(bottomLine, 'us').length).toBeLessThanOrEqual(BOTTOM_LINE_MAX);
    expect(positions[0]?.periodWords).toBe('no daylight left today');
  });
});

describe('the period of a place', () => {
  it('says what bounds it', () => {
    const words = (more: Partial<PositionAdvice>) =>
      sampleBriefing({ advice: withFirst(more) }).positions[0]?.periodWords;
    expect(words({ period: 'all_day', hours: [10, 19], bound: 'rest' })).toBe(
      'rest of the day, 10:00 to 19:00',
    );
    expect(words({ period: 'earlier', hours: [6, 11], bound: 'cool' })).toBe(
      'early, outside the heat, 06:00 to 11:00',
    );
  });
});

describe('at level 4', () => {
  it('the page invites nobody: no hours, no best day, no plan, no cast', async () => {
    const document = sampleBriefing({ advice: atLevel(4) });
    expect(document.positions.every(({ hours }) => hours === undefined)).toBe(true);
    expect(document.tendency?.bestDay).toBeUndefined();
    expect([document.searchPlan, document.casts, document.swap]).toEqual([[], [], null]);
    const text = await textOf(atLevel(4));
    expect(text).toContain('at level 4 the advice is to stay ashore.');
    expect(text).not.toMatch(/Best day in sight|WHY THESE PLACES/);
  });

  it('and only there', async () => {
    const text = await textOf(atLevel(3));
    expect(text).not.toMatch(/not today|For another day/);
    expect(text).toMatch(/Best day in sight/);
  });
});

describe('what changed', () => {
  it('tells a hazard’s own figure before those that only changed more', () => {
    const signals = (level24hM: number, more: number) => ({
      ...SAMPLE_SIGNALS,
      level24hM: figure(level24hM),
      rain72Mm: figure(20 + more),
      dischargeM3s: figure(60 + 10 * more),
      windMs: figure(2 + more / 10),
      airMean3dC: figure(8 + more / 10),
    });
    const previous = sampleFacts({
      report: sampleReport({ conditions: { signals: signals(0.1, 0) } }),
    });
    const rising = { ...advice.safety.hazards[0]!, id: 'rising-water', level: 4 as const };
    const about = (of: Advice): string[] =>
      sampleBriefing({
        report: sampleReport({ conditions: { signals: signals(0.5, 60) } }),
        advice: of,
        previous,
      }).whatChanged.items.map((item) => item.about);
    expect(about(atLevel(4, [rising]))).toContain('level24hM');
    expect(about(atLevel(4, [{ ...rising, id: 'other' }]))).not.toContain('level24hM');
  });
});

describe('the card of a lure let straight down', () => {
  it('names no cast, angle or turns of the handle', async () => {
    const drop = { ...SAMPLE_CARD, castLengthM: 0, castAngleDeg: 90, family: 'vertical' as const };
    const { html, text } = await renderBriefing(
      sampleBriefing({ advice: { ...advice, presentations: [drop] } }),
      { units: 'us', form: 'full', pictures: false },
    );
    // No drawing either: there is no cast to draw.
    expect(html).not.toContain('cid:cast-1');
    expect(text).not.toMatch(/to the bank|landing/);
    const cast = await renderBriefing(
      sampleBriefing({ advice: { ...advice, presentations: [SAMPLE_CARD] } }),
      {
        units: 'us',
        form: 'full',
        pictures: false,
      },
    );
    expect(cast.html).toContain('cid:cast-1');
  });
});
