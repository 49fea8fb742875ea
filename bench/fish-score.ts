import { loadRules } from '../src/config/rules.ts';
import { fishEvents, type FishEvent, type FishSpecies } from './fish-data.ts';
import { blocksOf, interval, shareOf, type Scored } from './fish-rank.ts';
import { judgeRules, ratioOfAPoint } from './fish-rules.ts';
import { knownAt, MAPPINGS, placesAt, scoreSite, sumOf, type Contributions } from './fish-site.ts';

/**
 * The advice judged by fish: of two electrofishing events of one pool, year and period, how often did the site that
 * the advice scores higher hold more bass? One half is chance.
 *
 * `npx tsx bench/fish-score.ts [events.csv]`: other years of the same survey may be given as a file.
 */
const SPECIES: readonly FishSpecies[] = ['largemouth', 'smallmouth'];
const path = process.argv[2];
const events = path === undefined ? fishEvents() : fishEvents(path);
const rules = loadRules();

const scoredOf = (species: FishSpecies, scoreAt: (event: FishEvent, index: number) => number): Scored[] =>
  events.map((event, index) => ({
    group: event.group,
    block: `${event.pool} ${event.year}`,
    score: scoreAt(event, index),
    caught: event.caught[species],
  }));

const three = (value: number): string => value.toFixed(3);

/** Mean catch by stratum and flags of all other years: what a plain table of the same survey would say. */
function tableOf(species: FishSpecies): (event: FishEvent) => number {
  const years = [...new Set(events.map(({ year }) => year))];
  const key = (e: FishEvent): string =>
    [e.stratum, e.riprap, e.wood, e.flooded, e.mouth].map(String).join(' ');
  const means = new Map(
    years.map((year) => {
      const sums = new Map<string, { caught: number; n: number }>();
      for (const event of events) {
        if (event.year === year) continue;
        const cell = sums.get(key(event)) ?? { caught: 0, n: 0 };
        sums.set(key(event), { caught: cell.caught + event.caught[species], n: cell.n + 1 });
      }
      return [year, sums] as const;
    }),
  );
  return (event) => {
    const cell = means.get(event.year)?.get(key(event));
    return cell === undefined ? 0 : cell.caught / cell.n;
  };
}

const day = new Map(
  SPECIES.map((species) => [species, events.map((event) => placesAt(knownAt(event, species), rules))]),
);

console.log(
  `${events.length} events of ${[...new Set(events.map(({ year }) => year))].sort().join(', ')}; share of pairs ordered as the catch orders them, 5 to 95 % over pool-years.\n`,
);
console.log('score of a site                                    largemouth            smallmouth');
const line = (name: string, of: (species: FishSpecies) => Scored[]): void => {
  const cells = SPECIES.map((species) => {
    const scored = of(species);
    const [low, high] = interval(blocksOf(scored));
    return `${three(shareOf(scored))} (${three(low)}-${three(high)})`;
  });
  console.log(`${name.padEnd(50)} ${cells.join('   ')}`);
};
for (const mapping of MAPPINGS) {
  line(mapping.name, (species) =>
    scoredOf(species, (event, index) =>
      sumOf(scoreSite(mapping.siteOf(event), mapping.join, day.get(species)![index]!)),
    ),
  );
}
line('plain table of mean catch, the other years', (species) => {
  const table = tableOf(species);
  return scoredOf(species, table);
});

const main = MAPPINGS[0]!;
for (const species of SPECIES) {
  const parts: Contributions[] = events.map((event, index) =>
    scoreSite(main.siteOf(event), main.join, day.get(species)![index]!),
  );
  const scored = scoredOf(species, (_, index) => sumOf(parts[index]!));
  const whole = shareOf(scored);
  console.log(
    `\n${species}, rule by rule (${main.name}). A point of the whole score goes with x${Math.exp(ratioOfAPoint(scored)).toFixed(2)} of the catch.`,
  );
  console.log('rule                                     events   catch a point         total without');
  for (const { rule, n, ratio, low, high, without } of judgeRules(scored, parts)) {
    const verdict = low > 1 ? 'agrees' : high < 1 ? 'CONTRADICTED' : 'open';
    const size = `x${ratio.toFixed(2)} (${low.toFixed(2)}-${high.toFixed(2)})`;
    console.log(
      `${rule.padEnd(40)} ${String(n).padStart(6)}   ${size.padEnd(21)} ${three(without)} (${signed(whole - without)})  ${verdict}`,
    );
  }
}

function signed(value: number): string {
  return `${value < 0 ? '-' : '+'}${three(Math.abs(value))}`;
}
