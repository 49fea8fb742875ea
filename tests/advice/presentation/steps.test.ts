import { describe, expect, it } from 'vitest';
import { stepsFor, turnsByHand } from '../../../src/advice/presentation/steps.ts';
import { expandQuantities } from '../../../src/units/placeholder.ts';
import { rules } from '../support.ts';

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
  const lure = rules.lures.classes.find(({ family }) => family === 'bottom')!;
  const steps = (contactToM: number | null): string =>
    stepsFor({
      lure,
      traits: rules.lures.places.dock!,
      cast: {
        lengthM: 9.1,
        runningDepthM: 7,
        boatDepthM: 8,
        castDepthM: 6.4,
        angleDeg: 90,
        contactApplies: true,
        contactShare: contactToM === null ? 0 : contactToM / 9.1,
        contactFromM: contactToM === null ? null : 0,
        contactToM,
      },
      pace: { speedMs: 0.3, lowMs: 0.2, highMs: 0.4 },
      reel: { gear: 6.8, takeM: 0.71, name: '', words: '' },
      line: { kg: 5, diameterMm: 0.33, words: '' },
      pauseWords: 'Let it lie.',
    }).join(' ');

  it('drag it down a slope only where it stays on the bottom for a stretch', () => {
    expect(steps(5)).toMatch(/Drag it down the slope/);
    expect(steps(1)).not.toMatch(/Drag it down the slope/);
    expect(expandQuantities(steps(1), 'us')).toMatch(/Work it where it lies.*leaves the bottom after 3 ft/);
    expect(steps(null)).not.toMatch(/down the slope|leaves the bottom/);
  });
});
