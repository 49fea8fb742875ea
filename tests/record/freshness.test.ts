// Limits are common practice, no source: the table in src/record/freshness.ts.
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { freshness, usualIntervalS } from '../../src/record/index.ts';
import { HOUR, START } from './rows.ts';

const word = (ageH: number, intervalS: number) => freshness(START - ageH * HOUR, START, intervalS);

describe('freshness', () => {
  it.each([
    [900, 1.5, 7],
    [3600, 3, 10],
    [21_600, 13, 30],
    [86_400, 49, 102],
  ])('of a source every %i s: fresh up to %d h, ageing up to %d h', (intervalS, freshH, ageingH) => {
    expect(word(freshH, intervalS)).toBe('fresh');
    expect(word(freshH + 0.01, intervalS)).toBe('ageing');
    expect(word(ageingH, intervalS)).toBe('ageing');
    expect(word(ageingH + 0.01, intervalS)).toBe('stale');
  });

  it('does not believe an instant well ahead of the clock', () => {
    expect(word(-0.9, 3600)).toBe('fresh');
    expect(word(-1.1, 3600)).toBe('stale');
  });

  it('refuses an interval that is none', () => {
    expect(() => freshness(START, START, -1)).toThrow(RangeError);
    expect(() => freshness(START, START, NaN)).toThrow(RangeError);
    expect(freshness(NaN, START, 60)).toBe('stale');
  });

  it('never gets better with age', () => {
    const rank = { fresh: 0, ageing: 1, stale: 2 };
    fc.assert(
      fc.property(
        fc.double({ min: 0, max: 500, noNaN: true }),
        fc.double({ min: 0, max: 500, noNaN: true }),
        fc.integer({ min: 0, max: 200_000 }),
        (a, b, intervalS) => rank[word(Math.min(a, b), intervalS)] <= rank[word(Math.max(a, b), intervalS)],
      ),
    );
  });
});

describe('the usual interval', () => {
  it('is not stretched by a gap', () => {
    const at = Array.from({ length: 20 }, (_, i) => START + i * HOUR + (i > 10 ? 40 * HOUR : 0));
    expect(usualIntervalS(at)).toBe(3600);
  });

  it('is assumed while there is too little to tell', () => {
    expect(usualIntervalS([START, START + 60_000])).toBe(3600);
    expect(usualIntervalS([], 900)).toBe(900);
  });
});
