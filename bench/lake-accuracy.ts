/**
 * Prints the accuracy of the lake model on held-out years: `npx tsx bench/lake-accuracy.ts [path of feeagh.csv]`.
 * Without the path the four lakes of the fixtures are scored.
 */
import { feeagh, fixtureLakes } from './lake-data.ts';
import { medianOf, scoreLake } from './lake-score.ts';

const CASES = [
  [0, 'no readings'],
  [30, 'monthly reading'],
  [7, 'weekly reading'],
  [1, "yesterday's reading"],
] as const;

const path = process.argv[2];
const lakes = [...fixtureLakes(), ...(path === undefined ? [] : [feeagh(path)])];
console.log('RMSE in degC on held-out years; readings are known one day after they were taken.');
console.log('lake           readings              model   bias  in 80 %  last held  day-of-year mean');
for (const [everyDays, label] of CASES) {
  const rows = lakes.map((lake) => ({ name: lake.name, score: scoreLake(lake, everyDays) }));
  for (const { name, score } of rows)
    console.log(
      name.padEnd(15) +
        label.padEnd(20) +
        score.model.rmseC.toFixed(2).padStart(7) +
        score.model.biasC.toFixed(2).padStart(7) +
        `${(100 * score.model.coverage).toFixed(0)} %`.padStart(9) +
        (score.persistence?.rmseC.toFixed(2) ?? '-').padStart(11) +
        (score.dayOfYearMean?.rmseC.toFixed(2) ?? '-').padStart(12),
    );
  const model = medianOf(rows.map(({ score }) => score.model.rmseC));
  const coverage = rows.reduce((sum, { score }) => sum + score.model.coverage, 0) / rows.length;
  console.log(
    `median of ${rows.length}`.padEnd(15) +
      label.padEnd(20) +
      model.toFixed(2).padStart(7) +
      `${(100 * coverage).toFixed(0)} %`.padStart(16),
  );
  if (everyDays > 0)
    console.log(`  in the interval by age of the reading: ${byAge(rows.map(({ score }) => score))}`);
}

function byAge(scores: readonly ReturnType<typeof scoreLake>[]): string {
  const sums = new Map<string, { hits: number; days: number }>();
  for (const { byReadingAge } of scores)
    for (const { readingAge, coverage, days } of byReadingAge) {
      const cell = sums.get(readingAge) ?? { hits: 0, days: 0 };
      sums.set(readingAge, { hits: cell.hits + coverage * days, days: cell.days + days });
    }
  return [...sums]
    .filter(([, { days }]) => days >= 100)
    .map(([age, { hits, days }]) => `${age}: ${((100 * hits) / days).toFixed(0)} %`)
    .join(', ');
}
