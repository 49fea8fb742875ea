import { convert } from 'html-to-text';
import { describe, expect, it } from 'vitest';
import { composeBriefing } from '../../src/briefing/index.ts';
import { renderBriefing } from '../../src/render/index.ts';
import { PSEUDO } from '../../src/words/index.ts';
import { foreign } from '../helpers/foreign.ts';
import { sampleFacts, sampleInput } from '../helpers/sampleBriefing.ts';
import { mornings } from '../helpers/mornings.ts';
import { sampleAdvice, sampleLake, sampleReport } from '../helpers/sampleReport.ts';

/** What may stay Latin in any language: unit symbols and the zone's abbreviation. */
const UNITS =
  /°[CF](\/day)?|(?<=[\d\s])(ft³\/s|ft\/s|ft\/h|m³\/s|m\/s|m\/h|km\/h|turns\/s|days|mph|ft|in|mm|lb|oz|kg|g|m|s|h)\b|\bC[SD]T\b|https?:\S+/g;
const leaks = (text: string): string[] => text.replace(UNITS, '').match(/.{0,12}[A-Za-z]+/g) ?? [];

describe('a second language is one file', () => {
  const input = {
    lake: foreign(sampleLake()),
    report: foreign(sampleReport()),
    advice: foreign(sampleAdvice()),
  };
  const previous = composeBriefing(
    sampleInput({
      ...input,
      report: foreign(sampleReport({ conditions: { signals: { waterC: undefined } } })),
    }),
  );
  const { safety } = input.advice;
  const grave = { ...input.advice, safety: { ...safety, level: 4 as const } };
  const stale = Object.fromEntries(
    Object.entries(input.report.conditions.signals).map(([id, value]) => [
      id,
      { ...value, freshness: 'stale' as const },
    ]),
  );
  const nil = { ...input.report, conditions: { ...input.report.conditions, signals: stale } };
  const retrievals = [{ source: 'жж', ok: false, problem: 'ж.', atMs: 0 }];
  const cases = [
    ['an ordinary morning', { ...input, previous, preview: true, retrievals }],
    ['a flood', { ...input, advice: grave, previous }],
    ['nothing fresh', { ...input, report: nil }],
    [
      'nothing known',
      { ...input, advice: { ...input.advice, positions: [], tendency: null, presentations: [] } },
    ],
  ] as const;

  it.each(cases)(
    'leaves no English word in text, page, alt texts and short form: %s',
    async (_name, overrides) => {
      for (const units of ['us', 'metric'] as const) {
        const facts = composeBriefing(sampleInput(overrides));
        const page = await renderBriefing(facts, { units, form: 'full', pictures: false, language: PSEUDO });
        const alts = [...page.html.matchAll(/(?:alt|aria-label)="([^"]*)"/g)].map(([, alt]) => alt ?? '');
        const visible = convert(page.html.replace(/<\/t[dh]>/g, ' $&'), {
          selectors: [
            { selector: 'img', format: 'skip' },
            ...['h1', 'h2', 'h3'].map((selector) => ({ selector, options: { uppercase: false } })),
          ],
        });
        for (const part of [page.text, page.short, page.subject, page.preheader, visible, ...alts]) {
          expect(leaks(part)).toEqual([]);
        }
      }
    },
  );

  // The rules' own words stay as they are here: they must come through the words of the language too.
  it.each(mornings())(
    'nor in a real morning, its reasons, plan and dangers included: $name',
    async ({ facts }) => {
      const document = { ...foreign(facts), rulesWords: facts.rulesWords };
      const page = await renderBriefing(document, {
        units: 'us',
        form: 'full',
        pictures: false,
        language: PSEUDO,
      });
      for (const part of [page.text, page.short, page.subject, page.preheader])
        expect(leaks(part)).toEqual([]);
    },
  );

  it('would notice a leak', async () => {
    const page = await renderBriefing(sampleFacts(), {
      units: 'us',
      form: 'full',
      pictures: false,
      language: PSEUDO,
    });
    expect(leaks(page.text)).not.toEqual([]);
  });
});
