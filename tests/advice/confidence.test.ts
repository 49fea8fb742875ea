/** "High" is a word with conditions: the water known well, the season and the first place clear. */
import { describe, expect, it } from 'vitest';
import { advise } from '../../src/advice/index.ts';
import type { Figure } from '../../src/signals/types.ts';
import { wordsFor } from '../../src/words/index.ts';
import { say } from '../../src/words/catalogue.ts';
import { adviceFor, conditionsOf, rules, table, TACKLE } from './support.ts';

const sure = table.scenarios.filter(({ conditions }) => adviceFor(conditions).confidence.word === 'high');

describe('confidence high', () => {
  it('is reached by some of the scenarios, and by none with a close call', () => {
    expect(sure.length).toBeGreaterThan(0);
    for (const { id, conditions } of sure) {
      const [first, second] = adviceFor(conditions).positions;
      expect((first?.total ?? 0) - (second?.total ?? 0), id).toBeGreaterThanOrEqual(0.5);
    }
  });

  it.each([
    ['a wide estimate', { kind: 'estimated', low: 6, high: 10 }, false],
    ['a narrow estimate', { kind: 'estimated', low: 7, high: 9.9 }, true],
    ['an estimate of unknown width', { kind: 'estimated' }, false],
    ['a fresh measurement', { kind: 'observed', freshness: 'fresh' }, true],
    ['an ageing measurement', { kind: 'observed', freshness: 'ageing' }, false],
  ] as const)('with %s of the water', (_, of, high) => {
    const [scenario] = sure;
    if (scenario === undefined) throw new Error('none is sure');
    const conditions = conditionsOf(scenario.conditions);
    const water: Figure | undefined = conditions.signals.waterC;
    if (water === undefined) throw new Error('no water');
    const signals = { ...conditions.signals, waterC: { ...water, ...of } };
    const { word } = advise({ ...conditions, signals }, rules, { tackle: TACKLE }).confidence;
    expect(word === 'high').toBe(high);
  });
});

describe('a figure that is some hours old', () => {
  const told = (of: Partial<Figure>): string => {
    const [scenario] = table.scenarios;
    if (scenario === undefined) throw new Error('no scenario');
    const conditions = conditionsOf(scenario.conditions);
    const { waterC } = conditions.signals;
    if (waterC === undefined) throw new Error('no water');
    const signals = { ...conditions.signals, waterC: { ...waterC, ...of } };
    const { because } = advise({ ...conditions, signals }, rules, { tackle: TACKLE }).confidence;
    const words = wordsFor('en').advice.confidence(rules.text);
    return because.map((fact) => say(words, fact)).join('; ');
  };

  it('is named, and a guess is no older than the hour it is made', () => {
    const name = rules.text['matters.waterC'] ?? '';
    expect(name).not.toBe('');
    expect(told({ kind: 'observed', freshness: 'ageing' })).toContain(`${name} is some hours old`);
    expect(told({ kind: 'estimated', freshness: 'ageing' })).not.toContain('some hours old');
    expect(told({ kind: 'observed', freshness: 'fresh' })).not.toContain('some hours old');
  });

  it('of a document of before is counted, since it names none', () => {
    const words = wordsFor('en').advice.confidence(rules.text);
    expect(say(words, { code: 'ageing', count: 2 })).toBe('2 figures are some hours old');
  });
});

describe('a forecast that ends before the day does', () => {
  it('leaves no place sure, and is told as the reason', () => {
    const [scenario] = sure;
    if (scenario === undefined) throw new Error('none is sure');
    const conditions = conditionsOf(scenario.conditions);
    const fact = { code: 'weatherEnds', parts: ['wind'], hour: 8, reachesAhead: true } as const;
    const { word, because } = advise(
      { ...conditions, gaps: [...conditions.gaps, { id: 'weather', fact }] },
      rules,
      { tackle: TACKLE },
    ).confidence;
    expect(word).toBe('low');
    expect(because).toContainEqual({ code: 'forecastEnds' });
  });
});
