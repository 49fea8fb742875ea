import { describe, expect, it } from 'vitest';
import { fixtureLakes, type ObservedLake } from '../../../bench/lake-data.ts';
import { medianOf, scoreLake } from '../../../bench/lake-score.ts';

// Observed lakes: fixtures/water/lake/README.md (CC BY-SA 3.0), held-out years 2001 to 2015.
// Limits: the project's own aims, plus the rule that a model must beat holding the reading and the calendar.
const lakes = fixtureLakes().map((lake) => since(lake, '1990-01-01'));
const scores = new Map(
  [0, 1, 7, 30].map((everyDays) => [everyDays, lakes.map((lake) => scoreLake(lake, everyDays))]),
);

function since(lake: ObservedLake, date: string): ObservedLake {
  return {
    ...lake,
    weather: lake.weather.filter((d) => d.date >= date),
    water: new Map([...lake.water].filter(([d]) => d >= date)),
  };
}

describe('lake temperature on held-out years of four observed lakes', () => {
  const cases = [
    { everyDays: 0, name: 'without readings', median: 1 },
    { everyDays: 7, name: 'with a weekly reading', median: 0.69 },
    { everyDays: 1, name: "with yesterday's reading", median: 0.51 },
  ];
  it.each(cases)(
    '$name stays within the aimed error and beats the simple guesses',
    ({ everyDays, median }) => {
      const own = scores.get(everyDays)!;
      expect(medianOf(own.map((s) => s.model.rmseC))).toBeLessThanOrEqual(median);
      for (const s of own) {
        expect(s.model.rmseC).toBeLessThan(s.dayOfYearMean!.rmseC);
        if (everyDays > 0) expect(s.modelWherePersistence!.rmseC).toBeLessThan(s.persistence!.rmseC);
      }
    },
  );

  it.each([1, 7, 30])(
    'keeps 76 to 84 in a hundred days inside the interval with a reading every %i days',
    (everyDays) => {
      const groups = scores.get(everyDays)!.flatMap((s) => s.byReadingAge);
      for (const age of new Set(groups.map((g) => g.readingAge))) {
        const sameAge = groups.filter((g) => g.readingAge === age);
        const days = sameAge.reduce((sum, g) => sum + g.days, 0);
        if (days < 400) continue;
        const coverage = sameAge.reduce((sum, g) => sum + g.coverage * g.days, 0) / days;
        expect(coverage, `age ${age}`).toBeGreaterThan(0.76);
        expect(coverage, `age ${age}`).toBeLessThan(0.84);
      }
    },
  );
});
