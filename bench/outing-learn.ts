/**
 * What `thawline learn` does on invented seasons whose truth is known: `npx tsx bench/outing-learn.ts [runs]`.
 */
import { learnFrom } from '../src/outings/index.ts';
import { chance, normalOf, SEASON_RULES, seasonOf, type Season } from './outing-sim.ts';

const runs = Number(process.argv[2] ?? 400);
const usual = { outings: 300, readers: 12, perHour: 0.5, ratioOfAPoint: 1.25, wrong: {} } satisfies Season;
const percent = (part: number, whole: number): string => `${((100 * part) / whole).toFixed(1)} %`;

for (const [name, season] of [
  ['rules right', usual],
  ['nothing matters', { ...usual, ratioOfAPoint: 1 }],
  ['rules right, 60 outings', { ...usual, outings: 60, readers: 6 }],
  ['rules right, few fish', { ...usual, perHour: 0.12 }],
] as const) {
  let any = 0;
  for (let run = 0; run < runs; run++)
    if (learnFrom(seasonOf(season, run * 7 + 1), 'shared').proposals.length > 0) any += 1;
  console.log(`${name}: seasons with a false proposal ${percent(any, runs)}`);
}
for (const [name, rule, sign] of [
  ['a place worth twice', 'base.point', 1],
  ['a place worth half', 'base.bluff', -1],
  ['a rule of the day worth twice', 'wind', 1],
] as const) {
  let [right, proposed, wrongWay, others] = [0, 0, 0, 0];
  for (let run = 0; run < runs; run++) {
    const learnt = learnFrom(
      seasonOf({ ...usual, wrong: { [rule]: sign * Math.LN2 } }, run * 11 + 3),
      'shared',
    );
    const found = learnt.judged.find((one) => one.rule === rule);
    if (found !== undefined && Math.sign(found.change) === sign) right += 1;
    const own = learnt.proposals.find((one) => one.rule === rule);
    if (own !== undefined && Math.sign(own.change) === sign) proposed += 1;
    if (own !== undefined && Math.sign(own.change) !== sign) wrongWay += 1;
    if (learnt.proposals.some((one) => one.rule !== rule)) others += 1;
  }
  console.log(
    `${name}: direction right ${percent(right, runs)}, proposed ${percent(proposed, runs)}, proposed the wrong way ${percent(wrongWay, runs)}, another rule proposed too ${percent(others, runs)}`,
  );
}
for (const [spread, outings, readers] of [
  [0.15, 300, 12],
  [0.3, 300, 12],
  [0.3, 120, 8],
  [0.5, 600, 20],
] as const) {
  let [inside, all] = [0, 0];
  for (let run = 0; run < runs; run++) {
    const next = chance(run + 100_000);
    const wrong = Object.fromEntries(SEASON_RULES.map((rule) => [rule, normalOf(next) * spread]));
    const rows = seasonOf({ ...usual, outings, readers, wrong }, run * 13 + 5);
    // Places are told beside the mean of all places that were fished.
    const beside = rows.reduce((sum, { parts }) => sum + (wrong[parts[0]?.rule ?? ''] ?? 0), 0) / rows.length;
    for (const { rule, low, high } of learnFrom(rows, 'shared').judged) {
      const truth = Math.exp((wrong[rule] ?? 0) - (rule.startsWith('base.') ? beside : 0));
      all += 1;
      if (truth >= low && truth <= high) inside += 1;
    }
  }
  console.log(
    `rules wrong by ${spread}, ${outings} outings: 80 % intervals that hold the truth ${percent(inside, all)} of ${all}`,
  );
}
