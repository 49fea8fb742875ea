/** What a page says in one place it does not deny in another. */
import { DateTime } from 'luxon';
import { describe, expect, it } from 'vitest';
import type { BriefingPage, PageRow } from '../../src/words/index.ts';
import { inUnits } from '../../src/render/index.ts';
import { mornings } from '../helpers/mornings.ts';
import { renderedMorning } from '../helpers/renderedMorning.ts';

const MONTHS = ['Jan', 'Feb', 'Mar', 'Apr', 'May', 'Jun', 'Jul', 'Aug', 'Sep', 'Oct', 'Nov', 'Dec'];
const MONTH = MONTHS.join('|');
const DATE = new RegExp(String.raw`\b(?:(\d{1,2}) (${MONTH})|(${MONTH}) (\d{1,2}))\b`, 'g');

/** Days from the issue's own date of every date that a text names; of the years around, the nearest. */
function daysAway(text: string, date: string): number[] {
  const own = DateTime.fromISO(date, { zone: 'utc' });
  return [...text.matchAll(DATE)].map(([, day, month, monthFirst, dayLast]) => {
    const at = { month: MONTHS.indexOf(month ?? monthFirst ?? '') + 1, day: Number(day ?? dayLast) };
    const away = [-1, 0, 1].map((years) => own.plus({ years }).set(at).diff(own, 'days').days);
    return away.reduce((a, b) => (Math.abs(b) < Math.abs(a) ? b : a));
  });
}

/** Numbers of one kind that the sentences of a part carry; a range gives both its ends. */
function quantities(part: unknown, kind: string): number[] {
  const number = String.raw`([-+]?\d+(?:\.\d+)?(?:e[-+]?\d+)?)`;
  const inside = new RegExp(String.raw`\{\{${kind}:${number}(?:\.\.${number})?\}\}`, 'g');
  return [...JSON.stringify(part).matchAll(inside)].flatMap(([, from, to]) =>
    [from, to].flatMap((value) => (value === undefined ? [] : [Number(value)])),
  );
}

const rowOf = (document: BriefingPage, id: string): PageRow['now'] =>
  document.conditions.find((row) => row.id === id)?.now ?? null;
const valuesOf = (row: PageRow['now']): number[] =>
  row === null ? [] : [row.value, row.low ?? row.value, row.high ?? row.value];

/** The nearest of the figures is no farther from the number than printing rounds away. */
function expectAmong(value: number, figures: readonly number[], step: number, words: string): void {
  const apart = Math.min(...figures.map((figure) => Math.abs(figure - value)));
  expect(apart, `${words}: ${value} is none of ${figures.join(', ')}`).toBeLessThanOrEqual(step);
}

const drawnLevels = (document: BriefingPage): number[] =>
  document.series.days.flatMap(({ levelM }) => (levelM === undefined ? [] : [levelM]));

/** The level moves by more than its instruments are off, m, and is drawn. */
const movesLevel = (document: BriefingPage): boolean =>
  Math.abs(rowOf(document, 'level24hM')?.value ?? 0) >= 0.05 && drawnLevels(document).length > 1;

describe('the mornings', () => {
  it('hold levels that go up and down, and rankings that a number would turn: what is asked below is asked of some', () => {
    const pages = mornings().map(({ document }) => document);
    const ways = pages.filter(movesLevel).map((page) => Math.sign(rowOf(page, 'level24hM')?.value ?? 0));
    expect(new Set(ways)).toEqual(new Set([1, -1]));
    expect(pages.filter(({ swap }) => swap !== null).length).toBeGreaterThan(3);
  });
});

describe.each(mornings())('the page of $name', (morning) => {
  const { document } = morning;
  const hazards = document.safety.hazards;
  const today = document.series.days.find(({ date }) => date === document.date);

  it('names no date more than ten days from its own', async () => {
    const { text } = await renderedMorning(morning, { detail: 'web' });
    const away = daysAway(text, document.date);
    expect(away.length).toBeGreaterThan(3);
    // Where nothing is known, what was last known is older.
    const most = document.status === 'nil' ? 20 : 10;
    for (const days of away) expect(Math.abs(days)).toBeLessThanOrEqual(most);
  });

  it('speaks in its warnings of the water and the level that its table shows', () => {
    const ofWater = hazards.filter(({ id }) => ['cold-water', 'ice', 'fish-handling'].includes(id));
    // Fixed limits of a class stand in some sentences: only what the water is called near is a figure.
    for (const [sentence] of JSON.stringify(ofWater).matchAll(/Water near [^ ]*\}\}/g))
      for (const value of quantities(sentence, 'temperature'))
        expectAmong(value, valuesOf(rowOf(document, 'waterC')), 0.01, sentence);
    for (const { id, what } of hazards.filter((hazard) => /^(rising|falling)-water$/.test(hazard.id)))
      for (const value of quantities(what, 'levelChange'))
        expectAmong(
          value,
          valuesOf(rowOf(document, 'level24hM')).map((change) => Math.abs(change)),
          0.001,
          id,
        );
  });

  it('warns of a wind and of an air that its charts show', () => {
    const strongest = Math.max(0, ...document.series.hours.map(({ windMs }) => windMs ?? 0));
    const gustiest = Math.max(0, ...document.series.hours.map(({ gustMs }) => gustMs ?? 0));
    for (const { id, what } of hazards) {
      for (const value of quantities(what, 'windSpeed')) {
        if (id === 'wind') expect(value).toBeCloseTo(strongest, 3);
        if (id === 'gusts') expect(value).toBeCloseTo(gustiest, 3);
      }
      if (id === 'wind-chill')
        for (const value of quantities(what, 'temperature')) {
          expect(value).toBeLessThanOrEqual((today?.airMinC ?? NaN) + 0.01);
          expect(value).toBeGreaterThan((today?.airMinC ?? NaN) - 15);
        }
      if (id === 'heat')
        for (const value of quantities(what, 'temperature'))
          expect(Math.abs(value - (today?.airMaxC ?? NaN))).toBeLessThan(12);
    }
  });

  it('reasons from the figures of its table', () => {
    const water = valuesOf(rowOf(document, 'waterC'));
    for (const words of [document.bottomLine, document.phase?.because ?? ''])
      for (const value of quantities(words, 'temperature'))
        expectAmong(value, [...water, ...valuesOf(rowOf(document, 'pocketC'))], 0.01, words);
    for (const value of quantities(document.bottomLine, 'levelChange'))
      expectAmong(
        value,
        valuesOf(rowOf(document, 'level24hM')).map((change) => Math.abs(change)),
        0.001,
        document.bottomLine,
      );
  });

  it.runIf(movesLevel(document))('draws a level that moves as its table says', () => {
    const [before, last] = drawnLevels(document).slice(-2);
    expect(Math.sign((last ?? NaN) - (before ?? NaN))).toBe(
      Math.sign(rowOf(document, 'level24hM')?.value ?? 0),
    );
  });

  const hasSwap = document.swap !== null;
  for (const system of ['us', 'metric'] as const)
    it.runIf(hasSwap)(`would change its mind at another number than today’s, in ${system}`, () => {
      const sentence = inUnits(document, system).swap ?? '';
      // A change that went up and one that went down differ by their verbs.
      const pair = /^(?:If .+? were|With|Had the \w+) (.+?) instead of (.+?), /.exec(sentence);
      expect(pair, sentence).not.toBeNull();
      expect(pair?.[1], sentence).not.toBe(pair?.[2]);
    });

  it('says nothing twice among what is missing', () => {
    const gaps = document.gaps;
    for (const one of gaps)
      for (const other of gaps)
        if (one !== other) expect(other, 'one gap repeats another').not.toContain(one);
  });
});
