import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { clarityClass, type ClarityInput } from '../../../src/water/clarity/index.ts';

const HILL = 'hill-land-reservoir';
type RunoffKnown = ClarityInput & { runoffMmByDay: NonNullable<ClarityInput['runoffMmByDay']> };
const quiet = (over: Partial<RunoffKnown> = {}): RunoffKnown => ({
  runoffMmByDay: [],
  waterBody: HILL,
  ...over,
});
const storm = (mm: number, ageDays: number): RunoffKnown['runoffMmByDay'] => [{ ageDays, mm }];
const ORDER = ['very-muddy', 'muddy', 'stained', 'clear'] as const;

describe('clarity', () => {
  it('is not known where the runoff is not, but for what was measured lately', () => {
    const unknown = { runoffMmByDay: null, waterBody: HILL };
    expect(clarityClass(unknown)).toBeNull();
    expect(clarityClass({ ...unknown, readingM: { value: 1.1, ageDays: 12 } })).toBeNull();
    const read = clarityClass({ ...unknown, readingM: { value: 1.1, ageDays: 1 } });
    expect(read).toMatchObject({ secchiM: 1.1, confidence: 'medium' });
    expect(read?.because).toMatchObject({ code: 'reading', runoffSince: null });
    expect(clarityClass({ ...unknown, turbidityFnu: { value: 8, ageH: 2 } })?.from).toBe('gauge');
  });

  it('from runoff alone is a class of low confidence and never a number', () => {
    const got = clarityClass(quiet({ runoffMmByDay: storm(25, 1) }));
    expect(got.secchiM).toBeNull();
    expect(got.confidence).toBe('low');
    expect(got.highM / got.lowM).toBeGreaterThan(4);
    expect(got.because).toMatchObject({ code: 'runoffAlone', runoffMm: 25 });
  });

  it('goes muddy after a storm and clears as the load settles (classes: common practice, no source)', () => {
    const classes = [0, 6, 12, 30].map((age) => clarityClass(quiet({ runoffMmByDay: storm(25, age) })).class);
    expect(classes[0]).toBe('very-muddy');
    expect(classes.at(-1)).toBe('stained');
    const ranks = classes.map((c) => ORDER.indexOf(c));
    expect([...ranks].sort((a, b) => a - b)).toEqual(ranks);
    expect(clarityClass({ runoffMmByDay: [], waterBody: 'highland-reservoir' }).class).toBe('clear');
  });

  it('from a fresh reading is that reading, with high confidence', () => {
    const got = clarityClass(quiet({ readingM: { value: 0.6, ageDays: 0.5 }, runoffMmByDay: storm(20, 4) }));
    expect(got).toMatchObject({ class: 'stained', secchiM: 0.6, confidence: 'high' });
    expect(got.lowM).toBeLessThan(0.6);
    expect(got.highM).toBeGreaterThan(0.6);
  });

  it('from a reading that a storm has overtaken is a muddier class and no number', () => {
    const got = clarityClass(quiet({ readingM: { value: 1.5, ageDays: 2 }, runoffMmByDay: storm(20, 1) }));
    expect(got.secchiM).toBeNull();
    expect(got.confidence).toBe('low');
    expect(ORDER.indexOf(got.class)).toBeLessThan(ORDER.indexOf('stained'));
  });

  it('an old reading still says what kind of lake it is, less the older it is', () => {
    const at = (ageDays: number): number => clarityClass(quiet({ readingM: { value: 4, ageDays } })).highM;
    expect(at(5)).toBeGreaterThan(at(20));
    expect(at(20)).toBeGreaterThan(at(40));
    expect(clarityClass(quiet({ readingM: { value: 4, ageDays: 100 } }))).toEqual(clarityClass(quiet()));
  });

  it('from a turbidity gauge is the river fit’s depth, of medium confidence (USGS Willamette: 8 FNU is 3 ft)', () => {
    const got = clarityClass(quiet({ turbidityFnu: { value: 7.8, ageH: 2 } }));
    expect((got.secchiM ?? 0) / 0.3048).toBeCloseTo(3, 1);
    expect(got).toMatchObject({ class: 'stained', confidence: 'medium' });
    expect(clarityClass(quiet({ turbidityFnu: { value: 0, ageH: 2 } })).class).toBe('clear');
  });

  it('a gauge that has been silent for two days is not used', () => {
    expect(clarityClass(quiet({ turbidityFnu: { value: 300, ageH: 48 } }))).toEqual(clarityClass(quiet()));
  });

  it('today’s reading goes before the gauge, the gauge before the day before yesterday’s', () => {
    const turbidityFnu = { value: 44, ageH: 1 };
    expect(clarityClass(quiet({ turbidityFnu, readingM: { value: 1, ageDays: 0.2 } })).secchiM).toBe(1);
    expect(clarityClass(quiet({ turbidityFnu, readingM: { value: 1, ageDays: 2 } })).class).toBe('muddy');
  });

  it('says what it rests on', () => {
    const codeOf = (more: Parameters<typeof quiet>[0]): string => clarityClass(quiet(more)).because.code;
    expect(codeOf({})).toBe('runoffAlone');
    expect(codeOf({ readingM: { value: 0.61, ageDays: 1 } })).toBe('reading');
    expect(codeOf({ readingM: { value: 0.61, ageDays: 12 } })).toBe('oldReading');
    expect(codeOf({ turbidityFnu: { value: 12, ageH: 1 } })).toBe('gauge');
  });

  it('refuses what cannot be a reading', () => {
    expect(() => clarityClass(quiet({ readingM: { value: 0, ageDays: 1 } }))).toThrow(/above 0 m/);
    expect(() => clarityClass(quiet({ readingM: { value: 1, ageDays: -1 } }))).toThrow(RangeError);
    expect(() => clarityClass(quiet({ turbidityFnu: { value: -3, ageH: 1 } }))).toThrow(/turbidity/);
    expect(() => clarityClass(quiet({ runoffMmByDay: storm(-1, 1) }))).toThrow(/runoff/);
  });

  it('never gets clearer with more runoff, nor muddier with time alone', () => {
    const mm = fc.double({ min: 0, max: 60, noNaN: true });
    const age = fc.double({ min: 0, max: 14, noNaN: true });
    const body = fc.constantFrom(
      'highland-reservoir',
      HILL,
      'run-of-river',
      'tailwater',
      'natural-lake',
      'pond',
    );
    fc.assert(
      fc.property(mm, mm, age, age, body, (a, more, ageDays, later, waterBody) => {
        const mid = (rain: number, at: number): number => {
          const got = clarityClass({ runoffMmByDay: storm(rain, at), waterBody });
          return Math.sqrt(got.lowM * got.highM);
        };
        expect(mid(a + more, ageDays)).toBeLessThanOrEqual(mid(a, ageDays) + 1e-12);
        expect(mid(a, ageDays + later)).toBeGreaterThanOrEqual(mid(a, ageDays) - 1e-12);
      }),
    );
  });
});
