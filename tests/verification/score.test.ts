import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { messagesFor, scoreWords } from '../../src/words/index.ts';
import { expandQuantities } from '../../src/units/index.ts';
import {
  FEWEST_OUTCOMES,
  scoreItem,
  worthTelling,
  type Item,
  type Outcome,
} from '../../src/verification/index.ts';
import { dateOf } from './kit.ts';

const outcome = (
  day: number,
  said: number,
  came: number,
  held: number,
  more: Partial<Outcome> = {},
): Outcome => ({
  date: dateOf(day),
  said,
  came,
  held,
  ...more,
});
/** The sentence of an item in a reader's units; undefined when nothing is said. */
function told(
  item: Item,
  outcomes: readonly Outcome[],
  units: 'us' | 'metric' = 'metric',
): string | undefined {
  const score = scoreItem(item, outcomes);
  const [line] = score === null ? [] : worthTelling([score]).map((one) => scoreWords(one, messagesFor('en')));
  return line === undefined ? undefined : expandQuantities(line, units);
}
const times = (n: number, of: (index: number) => Outcome): Outcome[] =>
  Array.from({ length: n }, (_, index) => of(index));

describe('scores of one item', () => {
  it('are the means that a hand computes', () => {
    // said - came: 1, -2, 0, 3 -> mean 0.5, mean absolute 1.5; held - came: -1, 1, 2, 0 -> mean absolute 1.
    const score = scoreItem('air', [
      outcome(1, 11, 10, 9),
      outcome(2, 8, 10, 11),
      outcome(3, 10, 10, 12),
      outcome(4, 13, 10, 10),
    ]);
    expect(score).toMatchObject({ n: 4, meanError: 0.5, meanAbsError: 1.5, heldMeanAbsError: 1 });
    expect(score).not.toHaveProperty('inside');
    expect(score).not.toHaveProperty('direction');
  });

  it('count an outcome on the end of the stated range as inside', () => {
    const range = [9, 11] as const;
    const score = scoreItem('water', [
      outcome(1, 10, 11, 10, { range }),
      outcome(2, 10, 9, 10, { range }),
      outcome(3, 10, 11.01, 10, { range }),
    ]);
    expect(score?.inside).toMatchObject({ hits: 2, of: 3 });
    // Wilson (1927) by hand for 2 of 3 at z = 1.6449: middle (2/3 + 2.7055/6) / (1 + 2.7055/3) = 0.5876, reach 0.3341.
    expect(score?.inside?.low).toBeCloseTo(0.2535, 4);
    expect(score?.inside?.high).toBeCloseTo(0.9217, 4);
  });

  it('take a change within the noise for steady, on both sides', () => {
    const deadBand = 0.03;
    const score = scoreItem('level', [
      outcome(1, 0.1, 0.2, 0, { deadBand }), // rise told, rose
      outcome(2, 0.02, -0.01, 0, { deadBand }), // both within the noise: steady
      outcome(3, 0.1, 0.03, 0, { deadBand }), // rise told, steady came
      outcome(4, -0.1, 0.1, 0, { deadBand }), // fall told, rose
    ]);
    expect(score?.direction).toMatchObject({ hits: 2, of: 4 });
    expect(score?.heldDirection).toMatchObject({ hits: 2, of: 4 });
  });

  it('without outcomes are none', () => {
    expect(scoreItem('water', [])).toBeNull();
  });

  it('do not depend on the order of the outcomes, to the last bit', () => {
    const some = fc.array(fc.tuple(...[0, 1, 2].map(() => fc.double({ min: -30, max: 40, noNaN: true }))), {
      minLength: 1,
      maxLength: 30,
    });
    fc.assert(
      fc.property(some, fc.infiniteStream(fc.nat()), (rows, chance) => {
        const list = rows.map(([said = 0, came = 0, held = 0], index) =>
          outcome(index + 1, said, came, held, { deadBand: 1, range: [said - 1, said + 1] }),
        );
        const keyed = list.map((one) => ({ one, key: chance.next().value }));
        const shuffled = keyed.sort((a, b) => a.key - b.key).map(({ one }) => one);
        expect(scoreItem('water', shuffled)).toEqual(scoreItem('water', list));
      }),
    );
  });

  it('of what came exactly as said are perfect, and holding is never better than that', () => {
    fc.assert(
      fc.property(fc.array(fc.double({ min: -5, max: 35, noNaN: true }), { minLength: 1 }), (values) => {
        const score = scoreItem(
          'water',
          values.map((value, index) => outcome(index, value, value, 10, { range: [value, value] })),
        );
        expect(score).toMatchObject({ meanError: 0, meanAbsError: 0 });
        expect(score?.inside?.hits).toBe(values.length);
        expect(score?.heldMeanAbsError).toBeGreaterThanOrEqual(0);
      }),
    );
  });
});

describe('the sentence', () => {
  it('waits for ten outcomes', () => {
    const list = times(FEWEST_OUTCOMES, (index) => outcome(index + 1, 10, 10.5, 11));
    expect(FEWEST_OUTCOMES).toBe(10);
    expect(told('air', list.slice(1))).toBeUndefined();
    expect(told('air', list)).toContain('10 days compared with a weather station');
  });

  it('for water counts days inside the range and sets our error beside holding the last reading', () => {
    // 18 of 22 inside; errors alternate +0.6 and -0.6, held 1.1 off.
    const list = times(22, (index) =>
      outcome(index + 1, 10, index % 2 === 0 ? 9.4 : 10.6, index % 2 === 0 ? 10.5 : 9.5, {
        range: index < 18 ? [9, 11] : [9.7, 10.3],
      }),
    );
    expect(told('water', list)).toBe(
      'Water: 18 of the last 22 days compared within the stated range (8 in 10 intended). Average error 0.6 °C. Repeating the last reading: 1.1 °C.',
    );
    // 0.6 K = 1.08 °F, 1.1 K = 1.98 °F.
    expect(told('water', list, 'us')).toContain('Average error 1.1 °F. Repeating the last reading: 2.0 °F.');
  });

  it('says when we did worse than holding the last reading, and when it made no difference', () => {
    const range = [8, 12] as const;
    const worse = times(12, (index) => outcome(index + 1, 10, 11.2, 11, { range }));
    expect(told('water', worse)).toMatch(
      /Average error 1\.2 °C, mostly too cold\. Repeating the last reading would have been better: 0\.2 °C\.$/,
    );
    const alike = times(12, (index) => outcome(index + 1, 10, 11, index % 2 === 0 ? 10 : 12, { range }));
    expect(told('water', alike)).toMatch(/Repeating the last reading would have done as well: 1\.0 °C\.$/);
  });

  it('names the side only when the errors lean to one', () => {
    const lean = times(10, (index) => outcome(index + 1, 5, index === 0 ? 5.5 : 4, 7));
    expect(told('wind', lean)).toMatch(/mostly too strong/);
    const even = times(10, (index) => outcome(index + 1, 5, index % 2 === 0 ? 6 : 4, 7));
    expect(told('wind', even)).not.toMatch(/mostly/);
  });

  it('for the level counts directions beside always saying no change', () => {
    const deadBand = 0.03;
    const list = times(12, (index) =>
      index < 9
        ? outcome(index + 1, 0.2, index % 2 === 0 ? 0.1 : 0.3, 0, { deadBand })
        : outcome(index + 1, 0.2, 0.02, 0, { deadBand }),
    );
    // Off: nine times 0.1, three times 0.18 -> 0.12; no change: five of 0.1, four of 0.3, three of 0.02 -> 1.76 / 12 = 0.147.
    expect(told('level', list)).toBe(
      'Level over 24 h: direction right 9 of the last 12 times; "no change" would have been right 3 times. Average error 12.0 cm. Saying "no change": 14.7 cm.',
    );
    const calm = times(12, (index) => outcome(index + 1, 0.2, index === 0 ? 0.2 : 0, 0, { deadBand }));
    expect(told('level', calm)).toMatch(
      /direction right only 1 of the last 12 times; "no change" would have been right 11 times\. .* Saying "no change" would have been better: 1\.7 cm\.$/,
    );
  });
});
