import { describe, expect, it } from 'vitest';
import { isTrueOf, type Judged } from '../../src/advice/rules/truth.ts';
import { positionRulesSchema } from '../../src/config/rulesPlaces.ts';
import { rules } from './support.ts';

const day: Judged = {
  species: 'spotted',
  waterBody: 'highland-reservoir',
  signals: { waterC: 8, runoffC: 10, rain72Mm: 20, sunAltitudeDeg: 30 },
  membership: { prespawn: 0.3, spawn: 0.1, winter: 0.6 },
  places: new Set(['pocket', 'inflow']),
};

describe('a sentence is true', () => {
  it.each([
    ['of a number at its limit', [['waterC', '>=', 8]], true],
    ['not below it', [['waterC', '>', 8]], false],
    ['of a difference of two numbers', [['runoffC - waterC', '>=', 2]], true],
    ['not of a smaller difference', [['runoffC - waterC', '<', 2]], false],
    [
      'only when every condition holds',
      [
        ['runoffC - waterC', '>=', 1],
        ['rain72Mm', '>=', 30],
      ],
      false,
    ],
    ['of the hour’s own sun', [['sunAltitudeDeg', '<=', 35]], true],
    ['not while its number is unknown', [['windMs', '<=', 100]], false],
    ['not while one of two numbers is unknown', [['waterC - airMean24hC', '<=', 100]], false],
    ['of phases that add up', [{ phases: ['prespawn', 'spawn'], atLeast: 0.4 }], true],
    ['not of phases that do not', [{ phases: ['prespawn', 'spawn'], atLeast: 0.45 }], false],
    [
      'when any holds, the others unknown',
      [
        {
          any: [
            ['windMs', '>=', 3],
            ['rain72Mm', '>=', 5],
          ],
        },
      ],
      true,
    ],
    ['when none holds', [{ none: [['rain72Mm', '>=', 30]] }], true],
    ['not when none is known', [{ none: [['windMs', '>=', 30]] }], false],
    ['when what is asked for is unknown', [{ unknown: 'clarityM' }], true],
    ['not when it is known', [{ unknown: 'waterC' }], false],
    ['of a water that has the place', [{ has: ['dock', 'inflow'] }], true],
    ['not of one that has not', [{ has: ['dock'] }], false],
    ['of the species', [{ species: ['spotted', 'mixed'] }], true],
    ['not of another water', [{ waterBody: ['tailwater'] }], false],
  ] as const)('%s', (_, trueWhen, expected) => {
    expect(isTrueOf(trueWhen as unknown as Parameters<typeof isTrueOf>[0], day)).toBe(expected);
  });

  it('always, where it has no conditions', () => {
    expect(isTrueOf(undefined, day)).toBe(true);
  });
});

describe('conditions in the rules file', () => {
  const withTruth = (trueWhen: unknown) => {
    const [first, ...rest] = rules.positions.modifiers;
    return positionRulesSchema.safeParse({
      ...rules.positions,
      modifiers: [{ ...first, trueWhen }, ...rest],
    });
  };

  it('name signals, alone or one minus another', () => {
    expect(withTruth([['runoffC - waterC', '>=', 1]]).success).toBe(true);
    expect(withTruth([['runoffC - lake', '>=', 1]]).success).toBe(false);
    expect(withTruth([['waterC', '=', 1]]).success).toBe(false);
  });
});
