/** The dates of a daily series, told from made-up water whose answer to the air is known. */
import { describe, expect, it } from 'vitest';
import { DatingWatch, type DatedStep } from '../../../src/water/lake/datingWatch.ts';

const RATE = 0.15;
/** Repeatable scatter between -1 and 1 (Lehmer's generator, as published by Park and Miller 1988). */
function scatter(seed: number): () => number {
  let state = seed;
  return () => {
    state = (state * 48_271) % 2_147_483_647;
    return (2 * state) / 2_147_483_647 - 1;
  };
}

/** Steps of water that answers the changes of tomorrow's, today's and yesterday's air by these shares. */
function steps(
  days: number,
  [tomorrow, today, yesterday]: readonly [number, number, number],
  more: { noiseC?: number; waterC?: number } = {},
): DatedStep[] {
  const { noiseC = 0.05, waterC = 15 } = more;
  const [weather, noise] = [scatter(7), scatter(11)];
  const air: number[] = [];
  for (let day = 0; day < days + 4; day++) air.push(0.7 * ((air[day - 1] ?? 15) - 15) + 15 + 4 * weather());
  return Array.from({ length: days }, (_, i) => {
    const [a3, a2, a1, a0, next] = air.slice(i, i + 5) as [number, number, number, number, number];
    const pull =
      tomorrow * (next - a0) + today * (a0 - a1) + yesterday * (a1 - a2) + 0.5 * (a2 - a3) + (a3 - waterC);
    return {
      stepC: RATE * pull + noiseC * noise(),
      waterC,
      airC: [a3, a2, a1, a0, next] as const,
      ratePerDay: RATE,
    };
  });
}
const judged = (given: readonly DatedStep[]): string => {
  const watch = new DatingWatch();
  for (const step of given) watch.take(step);
  return watch.judge();
};
const RIGHT = [0, 0.8, 1] as const;
const LATE = [0, 0, 1] as const;
const EARLY = [0.8, 1, 1] as const;

describe('a daily series', () => {
  it('that answers today’s air about as much as yesterday’s carries its own dates', () => {
    expect(judged(steps(400, RIGHT))).toBe('right');
    expect(judged(steps(400, [0, 1, 1]))).toBe('right');
  });

  it('that answers yesterday’s and hardly today’s is a day late, one that foresees tomorrow’s is early', () => {
    expect(judged(steps(400, LATE))).toBe('late');
    expect(judged(steps(400, EARLY))).toBe('early');
  });

  it('that answers today’s half as much as yesterday’s is between the two, and is left as it is', () => {
    expect(judged(steps(400, [0, 0.5, 1]))).toBe('right');
    expect(judged(steps(400, [0.5, 1, 1]))).toBe('right');
  });

  it('tells nothing before most of a year, and what it tells then stays', () => {
    for (const answer of [LATE, EARLY]) {
      expect(judged(steps(280, answer))).toBe('right');
      expect(judged(steps(300, answer))).not.toBe('right');
      expect(judged(steps(900, answer))).not.toBe('right');
    }
  });

  it('that answers no air at all tells nothing, however long it is', () => {
    const [deaf, noise] = [steps(600, LATE), scatter(3)];
    expect(judged(deaf.map((step) => ({ ...step, stepC: noise() })))).toBe('right');
  });

  it('tells nothing where the air never changes', () => {
    const steady = steps(600, LATE).map((step) => ({ ...step, airC: [12, 12, 12, 12, 12] as const }));
    expect(judged(steady)).toBe('right');
  });

  it('is not judged by days near freezing, which do not answer the air', () => {
    const winter = steps(400, RIGHT, { waterC: 2.9 }).map((step) => ({ ...step, stepC: 0 }));
    expect(judged([...winter, ...steps(400, LATE)])).toBe('late');
    expect(judged(winter)).toBe('right');
    expect(judged(steps(400, LATE, { waterC: 3 }))).toBe('late');
    expect(judged(steps(400, LATE, { waterC: 2.9 }))).toBe('right');
  });

  it('is not overturned by one bad reading: a leap counts as two kelvins', () => {
    const leap = (byC: number): string =>
      judged(
        steps(400, LATE).map((step, i) => (i % 100 === 50 ? { ...step, stepC: step.stepC + byC } : step)),
      );
    expect([leap(40), leap(-40)]).toEqual(['late', 'late']);
  });
});
