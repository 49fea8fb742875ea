import { describe, expect, it } from 'vitest';
import { fishEvents } from '../../../bench/fish-data.ts';
import { pairsOf } from '../../../bench/fish-rank.ts';
import { slopeOf } from '../../../bench/fish-rules.ts';

const event = (group: string, score: number, caught: number) => ({ group, block: group, score, caught });

describe('the counting rule', () => {
  it('asks of two events of one group whether the one scored higher caught more', () => {
    expect(pairsOf([event('a', 2, 1), event('a', 1, 0)])).toEqual({ right: 1, all: 1 });
    expect(pairsOf([event('a', 1, 1), event('a', 2, 0)])).toEqual({ right: 0, all: 1 });
  });

  it('leaves equal catches out, counts equal scores as a half, and compares no two groups', () => {
    expect(pairsOf([event('a', 1, 0), event('a', 2, 0), event('a', 2, 3), event('b', 9, 0)])).toEqual({
      right: 1.5,
      all: 2,
    });
  });
});

describe('the catch a point of a rule goes with', () => {
  it('is the ratio that was put into it', () => {
    const made = Array.from({ length: 40 }, (_, i) => event(`g${i % 4}`, 0, 0.1 * 1.5 ** (i % 3)));
    expect(
      Math.exp(
        slopeOf(
          made,
          made.map((_, i) => i % 3),
        ).at,
      ),
    ).toBeCloseTo(1.5, 3);
  });
});

// Figures of the survey's own description: 4,966 events, 7,727 largemouth and 2,200 smallmouth of 200 mm and more.
describe('the events', () => {
  const events = fishEvents();

  it('are those of the even years, six reaches, June to October', () => {
    expect(events).toHaveLength(4966);
    expect(new Set(events.map(({ pool }) => pool)).size).toBe(6);
    expect(events.every(({ year }) => year % 2 === 0)).toBe(true);
    expect(events.every(({ date }) => date.slice(5) >= '06-14' && date.slice(5) <= '10-31')).toBe(true);
  });

  it('hold no water that a river of the region cannot have', () => {
    const waters = events.flatMap(({ waterC }) => waterC ?? []);
    expect(Math.max(...waters)).toBeLessThan(40);
    expect(Math.min(...waters)).toBeGreaterThanOrEqual(2);
  });
});
