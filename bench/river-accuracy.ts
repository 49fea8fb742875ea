/**
 * Prints the accuracy of the river model on the validation years of two rivers: `npx tsx bench/river-accuracy.ts`.
 *
 * Each river is judged as what it is, as every other kind, and as a river whose own fit is withheld: that last row
 * is what an unknown river may expect.
 */
import type { RiverKind } from '../src/water/river/index.ts';
import { fixtureRivers, type ObservedRiver } from './river-data.ts';
import { scoreGaps, scoreRiver, scoreWeekdays, scoreYearsOfReadings, type Belief } from './river-score.ts';

const KINDS: readonly RiverKind[] = ['lowland', 'wide', 'snow-fed', 'regulated'];

const percent = (share: number): string => `${(100 * share).toFixed(0)} %`;
const cell = (rmseC: number, coverage?: number): string =>
  `${rmseC.toFixed(2)}${coverage === undefined ? '' : ` ${percent(coverage)}`}`.padStart(12);

function rowOf(river: ObservedRiver, label: string, kind: RiverKind, belief?: Belief): void {
  const withBelief = belief === undefined ? { kind } : { kind, belief };
  const score = (everyDays: number) => scoreRiver(river, { ...withBelief, everyDays }).model;
  const [none, daily] = [0, 1].map(score);
  const weekly = scoreWeekdays(river, withBelief);
  const [first, second] = scoreYearsOfReadings(river, { ...withBelief, everyDays: 7 });
  const [monthFirst] = scoreYearsOfReadings(river, { ...withBelief, everyDays: 30 });
  console.log(
    label.padEnd(38) +
      [none!, monthFirst, first, second, weekly, daily!].map((s) => cell(s.rmseC, s.coverage)).join(''),
  );
}

for (const river of fixtureRivers()) {
  console.log(`\n${river.name}, from ${river.heldOutFrom}: RMSE in degC, share of days in the 80 % interval`);
  console.log(
    ' '.repeat(38) +
      ['none', 'month, yr 1', 'week, yr 1', 'week, yr 2', 'week, all', 'day, all']
        .map((h) => h.padStart(12))
        .join(''),
  );
  for (const kind of KINDS) rowOf(river, kind === river.kind ? `${kind} (its own)` : kind, kind);
  const other: Belief =
    river.ownBase === 'lowland' ? { alpine: 0.5, open: 0.5 } : { melt: 0.6, lowland: 0.3, open: 0.1 };
  rowOf(river, 'own fit withheld', river.kind, other);
  rowOf(river, 'own fit withheld, open water alone', river.kind, { open: 1 });
  if (river.ownBase === 'lowland') rowOf(river, 'own fit withheld, alpine alone', river.kind, { alpine: 1 });
  else {
    rowOf(river, 'own fit withheld, lowland alone', river.kind, { lowland: 1 });
    rowOf(river, 'own fit withheld, melt share alone', river.kind, { melt: 1 });
  }
  const noFlow = { ...river, weather: river.weather.map(({ date, airC }) => ({ date, airC })) };
  rowOf(noFlow, 'its own, no discharge known', river.kind);
  const weekly = scoreRiver(river, { kind: river.kind, everyDays: 7 });
  const daily = scoreRiver(river, { kind: river.kind, everyDays: 1 });
  console.log(
    'last reading held'.padEnd(38 + 4 * 12) +
      cell(weekly.persistence!.rmseC) +
      cell(daily.persistence!.rmseC),
  );
  console.log('day-of-year mean'.padEnd(38) + cell(weekly.dayOfYearMean!.rmseC));
  const { gap, known } = scoreGaps(river, { kind: river.kind, everyDays: 7 });
  console.log(
    `  weekly, its own, days in six-day gaps of the air:${cell(gap.rmseC, gap.coverage)}; the same days with air:${cell(known.rmseC, known.coverage)}`,
  );
  console.log(
    `  weekly, its own, in the interval by age of the reading: ${weekly.byReadingAge
      .map(({ readingAge, coverage }) => `${readingAge}: ${percent(coverage)}`)
      .join(', ')}`,
  );
}
