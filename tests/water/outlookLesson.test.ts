/** What past outlooks teach of the days ahead: figures on invented misses, and properties that any misses must keep. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { Z80 } from '../../src/science/index.ts';
import { addDays } from '../../src/units/time/calendar.ts';
import {
  lessonAt,
  LESSON_FROM,
  LESSON_ISSUES,
  outlookLessons,
  withLesson,
  type OutlookMiss,
} from '../../src/water/outlookLesson.ts';

const START = '2024-04-01';
/** One issue a day that looks as many days ahead. */
function misses(
  issues: number,
  missC: (issue: number, lead: number) => number,
  { leads = [1, 2, 3, 4, 5, 6], halfC = 1 } = {},
): OutlookMiss[] {
  return Array.from({ length: issues }, (_, i) => addDays(START, i)).flatMap((issued, i) =>
    leads.map((leadDays) => ({
      issued,
      leadDays,
      date: addDays(issued, leadDays),
      missC: missC(i, leadDays),
      halfC,
    })),
  );
}
const day = (leadDays: number) => ({ waterC: 20, lowC: 19, highC: 21, leadDays });

describe('what past outlooks teach', () => {
  it('is nothing before thirty issues could be compared, and says how many there are', () => {
    const few = outlookLessons(misses(LESSON_FROM - 1, () => 2));
    expect(few[0]).toEqual({ fromDays: 1, toDays: 3, issues: 29, learned: false, biasC: 0, spread: 1 });
    expect(withLesson(day(2), few)).toEqual(day(2));
    expect(outlookLessons(misses(LESSON_FROM, () => 2))[0]).toMatchObject({ issues: 30, learned: true });
  });

  it('takes part of a lasting miss off, more with every day seen, and never all of it', () => {
    const takenOff = [30, 60, 90].map((issues) => outlookLessons(misses(issues, () => 1))[0]!.biasC);
    // Thirty issues have seen 32 days three days ahead: 32 of 92 of the miss.
    expect(takenOff[0]).toBeCloseTo(32 / 92, 9);
    expect(takenOff).toEqual([...takenOff].sort((a, b) => a - b));
    expect(takenOff[2]).toBeLessThan(1);
  });

  it('widens the range of a lake that scatters more than stated, and narrows that of a quieter one', () => {
    const scatter = (sdC: number) => (i: number) => (i % 2 === 0 ? sdC : -sdC);
    const stated = 1 / Z80;
    expect(outlookLessons(misses(90, scatter(2 * stated)))[0]!.spread).toBeGreaterThan(1.4);
    expect(outlookLessons(misses(90, scatter(0.5 * stated)))[0]!.spread).toBeLessThan(0.9);
    expect(outlookLessons(misses(90, scatter(stated)))[0]!.spread).toBeCloseTo(1, 2);
  });

  it('keeps near and far days apart, and joins them along a line that starts at today', () => {
    const lessons = outlookLessons(misses(90, (_, lead) => (lead <= 3 ? 0.5 : 2)));
    const taken = [0, 1, 2, 4, 6].map((lead) => lessonAt(lessons, lead).biasC);
    expect(taken[0]).toBe(0);
    expect(taken[1]).toBeCloseTo(taken[2]! / 2, 9);
    expect(taken).toEqual([...taken].sort((a, b) => a - b));
    // Nobody looked eight days ahead: it stays as elsewhere.
    expect(lessonAt(lessons, 9)).toMatchObject({ biasC: 0, spread: 1 });
  });

  it('is nothing at any lead where there is no lesson at all', () => {
    for (const lead of [0, 1, 2, 5, 9, 15]) expect(lessonAt([], lead)).toMatchObject({ biasC: 0, spread: 1 });
    expect(withLesson(day(3), [])).toEqual(day(3));
  });

  it('forgets what lies further back than the last ninety issues', () => {
    const changed = misses(200, (i) => (i < 200 - LESSON_ISSUES ? 5 : 0));
    expect(outlookLessons(changed)[0]).toMatchObject({ issues: LESSON_ISSUES, biasC: 0 });
  });

  it('counts a day that few readings saw for little: a reading a week teaches less than a thermometer', () => {
    const weekly = misses(90, () => 1).filter(({ date }) => new Date(date).getUTCDay() === 3);
    const [near] = outlookLessons(weekly);
    expect(near!.issues).toBeGreaterThanOrEqual(LESSON_FROM);
    expect(near!.biasC).toBeLessThan(0.2);
  });

  it('keeps what the model said beside what it corrects, and leaves today alone', () => {
    const lessons = outlookLessons(misses(90, () => 1));
    const corrected = withLesson(day(2), lessons);
    expect(corrected.raw).toEqual({ waterC: 20, halfC: 1 });
    expect(corrected.waterC).toBeCloseTo(20 - lessons[0]!.biasC, 9);
    expect(withLesson(day(0), lessons)).toEqual(day(0));
  });
});

it('any misses give a bias between none and their mean, and an interval around the figure', () => {
  fc.assert(
    fc.property(
      fc.array(fc.double({ min: -8, max: 8, noNaN: true }), { minLength: 30, maxLength: 120 }),
      fc.double({ min: 0.2, max: 4, noNaN: true }),
      fc.integer({ min: 1, max: 12 }),
      (values, halfC, leadDays) => {
        const lessons = outlookLessons(misses(values.length, (i) => values[i]!, { halfC }));
        const last = values.slice(-LESSON_ISSUES);
        const mean = last.reduce((a, b) => a + b, 0) / last.length;
        expect(Math.abs(lessons[0]!.biasC)).toBeLessThanOrEqual(Math.abs(mean) + 1e-9);
        expect(lessons[0]!.biasC * mean).toBeGreaterThanOrEqual(0);
        expect(lessons[0]!.spread).toBeGreaterThan(0.5);
        expect(lessons[0]!.spread).toBeLessThanOrEqual(3);
        const { waterC, lowC, highC } = withLesson(
          { ...day(leadDays), waterC: 4, lowC: 3, highC: 5 },
          lessons,
        );
        expect(lowC).toBeLessThanOrEqual(waterC);
        expect(highC).toBeGreaterThanOrEqual(waterC);
        expect(waterC).toBeGreaterThanOrEqual(0);
        // The order in which they are read does not matter.
        const back = outlookLessons(misses(values.length, (i) => values[i]!, { halfC }).reverse());
        expect(back[0]!.biasC).toBeCloseTo(lessons[0]!.biasC, 9);
      },
    ),
  );
});
