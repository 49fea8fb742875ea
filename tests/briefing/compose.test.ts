import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { briefingSchema } from '../../src/briefing/index.ts';
import { BOTTOM_LINE_MAX, COLD_WATER_C } from '../../src/words/index.ts';
import { expandQuantities } from '../../src/units/placeholder.ts';
import { mornings } from '../helpers/mornings.ts';
import { sampleBriefing, sampleFacts } from '../helpers/sampleBriefing.ts';
import {
  figure,
  SAMPLE_ISSUED_MS,
  SAMPLE_SIGNALS,
  sampleAdvice,
  sampleReport,
} from '../helpers/sampleReport.ts';

const DAY = 86_400_000;
const systems = ['us', 'metric'] as const;
const both = (text: string): string[] => systems.map((units) => expandQuantities(text, units));

describe('composing a briefing', () => {
  it.each(mornings())('keeps to its own schema on the morning $name', ({ facts }) => {
    expect(briefingSchema.parse(facts)).toEqual(facts);
  });

  it('gives the same document for the same input', () => {
    expect(sampleBriefing()).toEqual(sampleBriefing());
  });

  it('does not change what it was given', () => {
    const report = sampleReport();
    const advice = sampleAdvice();
    const before = structuredClone({ report, advice });
    sampleBriefing({ report, advice });
    expect({ report, advice }).toEqual(before);
  });

  it('keeps every figure in SI with unit, kind and age', () => {
    const row = sampleBriefing().conditions.find(({ id }) => id === 'waterC');
    expect(row?.now).toMatchObject({ value: 8.3, unit: 'degC', kind: 'estimated', ageMinutes: 60 });
  });

  it('shows a stale figure only as "last" and names what is missing', () => {
    const document = sampleBriefing({
      report: sampleReport({
        conditions: {
          signals: { dischargeM3s: figure(62, { freshness: 'stale', asOfMs: SAMPLE_ISSUED_MS - 2 * DAY }) },
        },
      }),
      retrievals: [{ source: 'gauge {{x', ok: false, problem: 'It did not answer.', atMs: SAMPLE_ISSUED_MS }],
    });
    const row = document.conditions.find(({ id }) => id === 'dischargeM3s');
    expect(row?.now).toBeNull();
    expect(row?.last?.value).toBe(62);
    expect(document.gaps.at(-1)).toBe(
      'gauge {{brace}}{{brace}}x could not be read at 05:15. It did not answer.',
    );
  });
});

describe('a service that fails', () => {
  const HOUR = 3_600_000;
  const note = (ok: boolean, hoursAgo: number, source = 'open-meteo', name = 'Open-Meteo') => ({
    source,
    name,
    ok,
    problem: ok ? '' : `It did not answer ${hoursAgo} h ago.`,
    atMs: SAMPLE_ISSUED_MS - hoursAgo * HOUR,
  });
  const told = (...retrievals: ReturnType<typeof note>[]): string[] =>
    sampleBriefing({ retrievals }).gaps.filter((gap) => /did not answer/.test(gap));

  it('is told once, by its name, of its last attempt', () => {
    expect(told(note(false, 7), note(false, 1))).toEqual([
      'Open-Meteo could not be read at 04:15. It did not answer 1 h ago.',
    ]);
    expect(told(note(false, 1), note(false, 2, 'usgs', 'USGS'))).toHaveLength(2);
  });

  it('that was read is not told as unread where only a part of it was refused', () => {
    expect(told(note(true, 1), note(false, 1))).toEqual([
      'Open-Meteo was read at 04:15, but not all of it was used. It did not answer 1 h ago.',
    ]);
    // What an earlier attempt brought does not make the last one whole.
    expect(told(note(true, 2), note(false, 1))).toEqual([
      'Open-Meteo could not be read at 04:15. It did not answer 1 h ago.',
    ]);
  });

  it('is not told once it has answered again, or of another day', () => {
    expect(told(note(false, 7), note(true, 1))).toEqual([]);
    expect(told(note(false, 30))).toEqual([]);
  });
});

describe('a reading taken in a pocket', () => {
  const line = (beforeC?: number): string => {
    const pockets = sampleReport().pockets.map((pocket) => ({
      ...pocket,
      ...(beforeC === undefined ? {} : { lastReading: { atMs: SAMPLE_ISSUED_MS - 2 * 86_400_000, beforeC } }),
    }));
    const [first] = sampleBriefing({ report: sampleReport({ pockets }) }).pockets;
    return expandQuantities(first?.sentence ?? '', 'metric');
  };

  it('is thanked for in the line of the pocket, with the estimate before and after', () => {
    expect(line(9.4)).toMatch(
      /^Mill Hollow: .* Your reading of Wed 4 Mar moved its warmest hour from 9\.4 °C to 11\.2 °C\. Thank you\.$/,
    );
    expect(line()).not.toMatch(/Thank you/);
  });

  it('that hardly moved it does not print the same number twice', () => {
    expect(line(11)).toMatch(/Your reading of Wed 4 Mar agrees: 11\.2 °C at its warmest hour\. Thank you\.$/);
  });
});

describe('the line of a pocket', () => {
  it('goes on in small letters after the name', () => {
    expect(sampleBriefing({ report: sampleReport() }).pockets[0]?.sentence).toMatch(/^Mill Hollow: [a-z]/);
  });

  it('carries its figures for programs', () => {
    const coldest = { atMs: SAMPLE_ISSUED_MS, surfaceC: 6.5, minusMainC: -1.8 };
    const pockets = sampleReport().pockets.map((pocket) => ({ ...pocket, coldest }));
    const [sample] = pockets;
    const [first] = sampleBriefing({ report: sampleReport({ pockets }) }).pockets;
    expect(first).toMatchObject({ renewedShare: 0.34, buoyant: true, halfLifeH: 31, coldest });
    expect(first?.warmest).toEqual({
      atMs: sample?.warmestHourMs,
      surfaceC: sample?.surfaceC.value,
      minusMainC: sample?.minusMainC.value,
      lowC: sample?.surfaceC.low,
      highC: sample?.surfaceC.high,
    });
  });
});

describe('a NIL briefing', () => {
  const stale = Object.fromEntries(
    Object.entries(SAMPLE_SIGNALS).map(([id, value]) => [id, { ...value, freshness: 'stale' as const }]),
  );
  const document = sampleBriefing({ report: sampleReport({ conditions: { signals: stale } }) });

  it('is issued when nothing in the table is fresh, although constants of the lake are', () => {
    const withConstant = { ...stale, bankDeg: figure(18) };
    expect(sampleBriefing({ report: sampleReport({ conditions: { signals: withConstant } }) }).status).toBe(
      'nil',
    );
  });

  it('ranks nothing and shows no cast', () => {
    expect(document).toMatchObject({ status: 'nil', positions: [], casts: [], tendency: null, phase: null });
  });

  it('says so in the bottom line and keeps the hazards', () => {
    expect(document.bottomLine).toMatch(/^No fresh figures/);
    expect(document.safety.hazards).toHaveLength(2);
  });
});

describe('the bottom line', () => {
  it.each(mornings())('fits both unit systems on the morning $name', ({ document }) => {
    for (const line of both(document.bottomLine)) expect(line.length).toBeLessThanOrEqual(BOTTOM_LINE_MAX);
  });

  it('fits whatever the place is called, and is never cut inside a number', () => {
    fc.assert(
      fc.property(
        fc.string({ minLength: 1, maxLength: 120 }).filter((name) => !/[{}]/.test(name)),
        fc.double({ min: -2, max: 35, noNaN: true }),
        fc.constantFrom<(1 | 2 | 3 | 4)[]>(1, 2, 3, 4),
        (name, waterC, level) => {
          const advice = sampleAdvice();
          const { bottomLine } = sampleBriefing({
            report: sampleReport({ conditions: { signals: { waterC: figure(waterC) } } }),
            advice: {
              ...advice,
              positions: advice.positions.map((position) => ({ ...position, name })),
              safety: { ...advice.safety, level },
            },
          });
          for (const line of both(bottomLine)) {
            expect(line.length).toBeLessThanOrEqual(BOTTOM_LINE_MAX);
            expect(line).not.toMatch(/[{}]/);
            expect(line).toMatch(/[.!?]$/);
          }
        },
      ),
      { numRuns: 200 },
    );
  });

  it('carries the life-jacket line while the water is cold, and not when it is warm', () => {
    const at = (waterC: number): string =>
      sampleBriefing({ report: sampleReport({ conditions: { signals: { waterC: figure(waterC) } } }) })
        .bottomLine;
    expect(at(COLD_WATER_C)).toContain('life jacket');
    expect(at(COLD_WATER_C + 0.1)).not.toContain('life jacket');
  });

  it('speaks of the hazard, not of fish, from level 3', () => {
    const { safety } = sampleAdvice();
    for (const level of [3, 4] as const) {
      const { bottomLine } = sampleBriefing({ advice: sampleAdvice({ safety: { ...safety, level } }) });
      expect(bottomLine).not.toContain('pocket');
      expect(bottomLine).toMatch(level === 4 ? /^Stay ashore today/ : /^Think twice/);
    }
  });
});

describe('what changed', () => {
  const before = sampleFacts({
    issuedMs: SAMPLE_ISSUED_MS - DAY,
    report: sampleReport({
      conditions: {
        date: '2026-03-05',
        signals: {
          waterC: figure(6),
          pocketMinusMainC: figure(0.5),
          level24hM: figure(0),
          rain72Mm: figure(0),
        },
      },
    }),
  });

  it('tells at most three changes, the strongest first, one for each story', () => {
    const { items } = sampleBriefing({ previous: before }).whatChanged;
    expect(items).toHaveLength(3);
    const abouts = items.map(({ about }) => about);
    expect(new Set(abouts).size).toBe(3);
    expect(abouts).not.toEqual(expect.arrayContaining(['pocketC', 'pocketMinusMainC']));
  });

  it('says that nothing changed when nothing did', () => {
    const { lead, items } = sampleBriefing({ previous: sampleFacts() }).whatChanged;
    expect(items).toEqual([]);
    expect(lead).toBe('No significant change since Fri 6 Mar 05:15.');
  });

  it('puts a risen safety level before every figure', () => {
    const { safety } = sampleAdvice();
    const { items } = sampleBriefing({
      previous: before,
      advice: sampleAdvice({ safety: { ...safety, level: 3 } }),
    }).whatChanged;
    expect(items[0]).toMatchObject({ about: 'safety', before: 2, now: 3 });
  });

  it('never prints a change that rounds away', () => {
    fc.assert(
      fc.property(fc.double({ min: 2, max: 20, noNaN: true }), (waterC) => {
        const { items } = sampleBriefing({
          previous: before,
          report: sampleReport({ conditions: { signals: { waterC: figure(waterC) } } }),
        }).whatChanged;
        for (const { sentence } of items) {
          for (const text of both(sentence)) {
            const [, from, to] = /(\S+ \S+) → (\S+ \S+)\.$/.exec(text) ?? [];
            if (from !== undefined) expect(from).not.toBe(to);
          }
        }
      }),
      { numRuns: 100 },
    );
  });
});

describe('order by danger', () => {
  it('leaves the cast out at level 4 and keeps it at level 3', () => {
    const { safety } = sampleAdvice();
    const at = (level: 3 | 4) => sampleBriefing({ advice: sampleAdvice({ safety: { ...safety, level } }) });
    expect(at(3).casts).toHaveLength(2);
    expect(at(4).casts).toEqual([]);
  });

  it('says nothing about how it has done before there is something to say', () => {
    expect(sampleBriefing().verification).toBeUndefined();
    expect(sampleBriefing({ scores: [] }).verification).toBeUndefined();
  });
});
