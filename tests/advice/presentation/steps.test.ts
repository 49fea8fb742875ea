import { describe, expect, it } from 'vitest';
import { turnsByHand } from '../../../src/words/en/presentation.ts';
import { expandQuantities } from '../../../src/units/placeholder.ts';
import { book, conditions, place, presentCards, tackle } from './day.ts';

const said = (perS: number): string => expandQuantities(turnsByHand(perS), 'us');

describe('turns of the handle as a hand counts them', () => {
  it('are small whole numbers', () => {
    expect(said(1)).toBe('one turn a second');
    expect(said(0.64)).toBe('two turns in 3 s');
    expect(said(0.5)).toBe('one turn in 2 s');
    expect(said(1.9)).toBe('two turns a second');
    expect(said(1.48)).toBe('three turns in 2 s');
    expect(said(0.1)).toBe('one turn in 10 s');
  });

  it('miss the computed rate by no more than a seventh over the rates in use', () => {
    for (let perS = 0.1; perS <= 4; perS += 0.01) {
      const found = /^(\w+) turns? (?:a second|in (\d+) s)$/.exec(said(perS));
      const turns = ['one', 'two', 'three', 'four', 'five'].indexOf(found?.[1] ?? '') + 1;
      expect(turns).toBeGreaterThan(0);
      expect(Math.abs(turns / Number(found?.[2] ?? 1) / perS - 1)).toBeLessThanOrEqual(1 / 7);
    }
  });
});

describe('the steps of a lure on the bottom', () => {
  const steps = (where: string, band: readonly [number, number]): string =>
    expandQuantities(
      presentCards(
        conditions({ waterC: 10, clarityM: 1 }),
        [place(where, band)],
        { ...book, classes: book.classes.filter(({ id }) => id === 'jig') },
        tackle,
      )[0]!.steps.join(' '),
      'us',
    );

  it('move it down a slope only where it stays on the bottom for a stretch', () => {
    expect(steps('channel_swing_bank', [2, 4])).toMatch(/Move it down the slope/);
    expect(steps('dock', [4, 7])).toMatch(/Hop it a few times where it lies/);
    expect(steps('dock', [4, 7])).not.toMatch(/down the slope/);
  });

  it('speak of limbs only where there is wood, and of posts at a dock', () => {
    expect(steps('dock', [1, 3])).not.toMatch(/limb|branch/);
    expect(steps('dock', [1, 3])).toMatch(/post/);
    expect(steps('laydown', [1, 3])).toMatch(/limb/);
    expect(steps('riprap', [1, 3])).not.toMatch(/limb|post/);
  });
});
