/** Hours of the weather that are not there, named with the reason. */
import { describe, expect, it } from 'vitest';
import { readSignals } from '../../src/signals/index.ts';
import { say } from '../../src/words/catalogue.ts';
import { wordsFor } from '../../src/words/index.ts';
import type { Observation } from '../../src/record/types.ts';
import { observation, recordView, testLake } from '../helpers/weatherRecord.ts';

const AS_OF = '2026-03-06T11:15:00Z'; // 05:15 at the lake
const NOW_HOUR = Date.parse('2026-03-06T11:00:00Z');
const HOUR = 3_600_000;
const view = recordView({ asOf: AS_OF });
const told = (keeps: (row: Observation) => boolean, extra: readonly Observation[] = []) =>
  readSignals(
    { ...view, observations: [...view.observations.filter(keeps), ...extra] },
    testLake,
  ).conditions.gaps.flatMap(({ id, fact }) => (id === 'weather' ? [fact] : []));
const words = (facts: ReturnType<typeof told>): string[] =>
  facts.map((fact) => say(wordsFor('en').signals.gap, fact));

describe('a forecast that ends early', () => {
  it('is told once, with the hour and the parts', () => {
    const facts = told(({ atMs }) => atMs <= NOW_HOUR + 3 * HOUR);
    expect(facts).toEqual([
      { code: 'weatherEnds', parts: ['air', 'wind', 'rain', 'cloud'], hour: 8, reachesAhead: true },
    ]);
    expect(words(facts)[0]).toMatch(/^The forecast ends at 08:00: .*not known is not safe\.$/);
  });

  it('or reaches nowhere is told so', () => {
    const facts = told(({ atMs }) => atMs <= NOW_HOUR);
    expect(facts).toMatchObject([{ code: 'weatherEnds', reachesAhead: false }]);
    expect(words(facts)[0]).toMatch(/^There is no forecast beyond 05:00: /);
  });

  it('of one part names that part alone', () => {
    expect(told(({ atMs, variable }) => variable !== 'rain' || atMs <= NOW_HOUR + 2 * HOUR)).toMatchObject([
      { code: 'weatherEnds', parts: ['rain'] },
    ]);
  });

  it('is not told of one that reaches through the day', () => {
    expect(told(({ atMs }) => atMs <= NOW_HOUR + 14 * HOUR)).toEqual([]);
  });
});

describe('hours that are missing every day', () => {
  it('are named as the reason why no figure of a day is made', () => {
    const facts = told(({ atMs }) => (atMs / HOUR) % 24 >= 6);
    expect(facts).toEqual([{ code: 'weatherHoles', parts: ['air', 'wind', 'rain', 'cloud'], hours: 6 }]);
    expect(words(facts)[0]).toContain('about 6 of 24 are missing');
  });

  it('are no news where a day still has enough of them', () => {
    expect(told(({ atMs }) => (atMs / HOUR) % 24 >= 3)).toEqual([]);
  });
});

describe('a rain gauge that falls silent in a storm', () => {
  const fell = (silent: (hoursBack: number) => boolean): Observation[] =>
    Array.from({ length: 80 }, (_, back) =>
      observation('rain', NOW_HOUR - back * HOUR, back < 10 ? 4 : 0, { periodS: 3600 }),
    ).filter((_, back) => !silent(back));

  it('is named with its hours and with what the model puts there', () => {
    const facts = told(
      () => true,
      fell((back) => back >= 4 && back < 7),
    );
    expect(facts).toEqual([{ code: 'rainGaugeHole', hours: 3, modelMm: 0 }]);
    expect(words(facts)[0]).toContain('silent for 3 hours');
  });

  it('has no hole in it where its newest hours have not come in yet', () => {
    expect(
      told(
        () => true,
        fell((back) => back < 3),
      ),
    ).toEqual([]);
    expect(
      told(
        () => true,
        fell(() => false),
      ),
    ).toEqual([]);
  });
});
