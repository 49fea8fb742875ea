/** Clarity on the page: a number only where something measured it. */
import { describe, expect, it } from 'vitest';
import { loadRules } from '../../src/config/rules.ts';
import { advise } from '../../src/advice/index.ts';
import { say, sayAdvice } from '../../src/words/index.ts';
import { CUE_WORDS } from '../../src/words/en/presentation.ts';
import { renderBriefing } from '../../src/render/index.ts';
import type { ClarityReport, SignalReport } from '../../src/signals/types.ts';
import { sampleBriefing, sampleFacts } from '../helpers/sampleBriefing.ts';
import { figure, sampleAdvice, sampleReport } from '../helpers/sampleReport.ts';

const BECAUSE = { code: 'runoffAlone', runoffMm: null } as const;
const guess = (word: ClarityReport['class'], middleM: number): SignalReport => ({
  ...sampleReport({
    conditions: {
      signals: {
        clarityM: figure(middleM, {
          kind: 'estimated',
          low: middleM / 2.2,
          high: middleM * 2.2,
          freshness: 'ageing',
        }),
      },
    },
  }),
  clarity: { class: word, confidence: 'low', measured: false, because: BECAUSE },
});
const rowOf = (report: SignalReport) =>
  sampleBriefing({ report }).conditions.find(({ id }) => id === 'clarityM');
const oneLine = (text: string): string => text.replace(/\s+/g, ' ');

describe('clarity that nobody measured', () => {
  it.each(['full', 'short'] as const)(
    'is a class in words, with no depth anywhere, in the %s form',
    async (form) => {
      const { text, html } = await renderBriefing(sampleBriefing({ report: guess('stained', 2.499) }), {
        units: 'us',
        form,
        detail: 'web',
      });
      for (const page of [text, html]) expect(page).not.toMatch(/8[.]2.ft|3[.]7 to 18|can see/);
      if (form === 'short') return;
      expect(oneLine(text)).toContain('Clarity stained (a guess) estimated. Low confidence. No reading');
      expect(html).toContain('stained (a guess)');
    },
  );

  it('is a reason in words', () => {
    const advice = sampleAdvice();
    const [first] = advice.positions;
    if (first === undefined) throw new Error('the sample ranks a place');
    const [evidence] = first.evidence;
    if (evidence === undefined) throw new Error('the sample place has evidence');
    const positions = [{ ...first, evidence: [{ ...evidence, signal: 'clarityM' as const, value: 2.5 }] }];
    const warm = { waterC: figure(20) };
    const lineOf = (clarity: ClarityReport): string =>
      sampleBriefing({
        report: { ...sampleReport({ conditions: { signals: warm } }), clarity },
        advice: { ...advice, positions, safety: { ...advice.safety, level: 1, hazards: [] } },
      }).bottomLine;
    const told = { class: 'clear', confidence: 'low', because: BECAUSE } as const;
    expect(lineOf({ ...told, measured: false })).toMatch(/because the water is likely clear\./);
    expect(lineOf({ ...told, measured: true })).toMatch(/because you can see \{\{clarity:2\.5\}\} down\./);
  });

  it('has changed when its class has, not when its middle has', () => {
    const previous = sampleFacts({ report: guess('clear', 2.5) });
    const items = (report: SignalReport) =>
      sampleBriefing({ report, previous }).whatChanged.items.filter(({ about }) => about === 'clarityM');
    expect(items(guess('clear', 1.6))).toEqual([]);
    expect(items(guess('stained', 1.4))[0]?.sentence).toMatch(/clear \(a guess\) → stained \(a guess\)\./);
  });

  it('gives lures and the swap no depth of now either', () => {
    const { conditions } = guess('clear', 2.499);
    const tackle = { reels: [], linesKg: [], castLengthM: 25 };
    const rules = loadRules();
    const judged = (signals: typeof conditions.signals) =>
      advise({ ...conditions, signals }, rules, { tackle });
    const adviseOn = (signals: typeof conditions.signals) => sayAdvice(judged(signals), rules.text);
    const told = judged(conditions.signals).casts.flatMap(({ cues }) =>
      cues.flatMap(({ fact }) => (fact.code === 'clarity' ? [say(CUE_WORDS, fact)] : [])),
    );
    expect(new Set(told)).toEqual(new Set(['clear water suits it']));
    expect(JSON.stringify(adviseOn(conditions.signals).presentations)).not.toContain('{{clarity:2.4');
    const { clarityM } = conditions.signals;
    const alone = adviseOn(clarityM ? { clarityM } : {}).swap;
    expect(alone?.sentence).toMatch(/^If you measure a clarity of \{\{clarity:[\d.]+\}\}, /);
  });
});

it('a measured clarity is a number with its class', () => {
  const clarity = {
    class: 'stained',
    confidence: 'high',
    measured: true,
    because: { code: 'reading', readingM: 1.3, ageDays: 0, runoffSince: false },
  } as const;
  const row = rowOf({ ...sampleReport(), clarity });
  expect(row?.words).toBeUndefined();
  expect(row?.note).toMatch(/^Stained, high confidence\. A reading gave \{\{clarity:1\.30\}\}, /);
});
