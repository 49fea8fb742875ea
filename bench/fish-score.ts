import { loadRules } from '../src/config/rules.ts';
import { fishEvents, type FishEvent, type FishSpecies } from './fish-data.ts';
import { blocksOf, interval, shareOf, type Scored } from './fish-rank.ts';
import { judgeRules, ratioOfAPoint, type RuleVerdict } from './fish-rules.ts';
import type { ScoredPlace } from '../src/advice/positions/score.ts';
import { JOINS, knownAt, MAPPINGS, placesAt, scoreSite, sumOf, type Contributions } from './fish-site.ts';

/**
 * The advice judged by fish: of two electrofishing events of one pool, year and period, how often did the site that
 * the advice scores higher hold more bass? One half is chance.
 *
 * `npx tsx bench/fish-score.ts [events.csv]`: other years of the same survey may be given as a file. With `--verdicts`
 * it prints what the fish say of each rule as `config/rules/fish.yaml` holds it.
 */
const SPECIES: readonly FishSpecies[] = ['largemouth', 'smallmouth'];
const asVerdicts = process.argv.includes('--verdicts');
const path = process.argv.slice(2).find((argument) => !argument.startsWith('--'));
const events = path === undefined ? fishEvents() : fishEvents(path);
const rules = loadRules();
const LEARNED = 'river-survey';
/** The rules as they were before fish were counted. */
const trade = {
  ...rules,
  positions: {
    ...rules.positions,
    counted: [],
    modifiers: rules.positions.modifiers.filter(({ group }) => group !== LEARNED),
  },
};
const learned = new Set(
  rules.positions.modifiers.filter(({ group }) => group === LEARNED).map(({ id }) => id),
);

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

if (asVerdicts) {
  console.log(verdictsFile());
  process.exit();
}
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
for (const { name, siteOf } of MAPPINGS)
  for (const join of JOINS)
    line(`${name}, ${join} of its kinds`, (species) =>
      scoredOf(species, (event, index) => sumOf(scoreSite(siteOf(event), join, day.get(species)![index]!))),
    );
line('the trade alone, finest reading, best of its kinds', (species) => byTrade(species).scored);
line('plain table of mean catch, the other years', (species) => {
  const table = tableOf(species);
  return scoredOf(species, table);
});

for (const species of SPECIES) {
  const found = verdictsOf(species);
  for (const [name, { whole, ratio, verdicts }] of Object.entries(found)) {
    console.log(
      `\n${species}, ${name} (finest reading, best of its kinds: ${three(whole)}). A point of the whole score goes with x${ratio.toFixed(2)} of the catch.`,
    );
    console.log('rule                                     events   catch a point         total without');
    for (const { rule, n, ratio: size, low, high, without } of verdicts) {
      const verdict = low > 1 ? 'agrees' : high < 1 ? 'CONTRADICTED' : 'open';
      const told = `x${size.toFixed(2)} (${low.toFixed(2)}-${high.toFixed(2)})`;
      console.log(
        `${rule.padEnd(40)} ${String(n).padStart(6)}   ${told.padEnd(21)} ${three(without)} (${signed(whole - without)})  ${verdict}`,
      );
    }
  }
}

function signed(value: number): string {
  return `${value < 0 ? '-' : '+'}${three(Math.abs(value))}`;
}

interface ByRule {
  readonly parts: readonly Contributions[];
  readonly scored: Scored[];
}

function byRule(species: FishSpecies, days: readonly ReadonlyMap<string, ScoredPlace>[]): ByRule {
  const { siteOf } = MAPPINGS[0]!;
  const parts = events.map((event, index) => scoreSite(siteOf(event), 'best', days[index]!));
  return { parts, scored: scoredOf(species, (_, index) => sumOf(parts[index]!)) };
}

function byTrade(species: FishSpecies): ByRule {
  return byRule(
    species,
    events.map((event) => placesAt(knownAt(event, species), trade)),
  );
}

interface Judged {
  readonly whole: number;
  readonly ratio: number;
  readonly verdicts: readonly RuleVerdict[];
}

/** Rules of the trade are judged as they would rank alone, for beside the learned ones a part of each has given way. */
function verdictsOf(species: FishSpecies): Readonly<Record<'the trade alone' | 'rules learned', Judged>> {
  const judge = ({ parts, scored }: ByRule, own: boolean): Judged => ({
    whole: shareOf(scored),
    ratio: Math.exp(ratioOfAPoint(scored)),
    verdicts: judgeRules(scored, parts).filter(({ rule }) => learned.has(rule) === own),
  });
  return {
    'the trade alone': judge(byTrade(species), false),
    'rules learned': judge(byRule(species, day.get(species)!), true),
  };
}

/** `unseen` is what `bench/fish-fit.ts` prints for the same reading. */
function verdictsFile(): string {
  const { unseen } = rules.fish ?? {};
  const found = SPECIES.map((species) => ({ species, ...verdictsOf(species) }));
  const of = (values: readonly string[]): string => `{ ${values.join(', ')} }`;
  const rows = found.flatMap(({ species, 'the trade alone': alone, 'rules learned': all }) =>
    [...alone.verdicts, ...all.verdicts].map(({ rule, n, ratio, low, high, without }) => {
      const [r, l, h] = [ratio, low, high].map((value) => Math.min(99, value).toFixed(2));
      return `  - { rule: ${rule}, species: ${species}, n: ${n}, ratio: ${r}, low: ${l}, high: ${h}, without: ${three(without)} }`;
    }),
  );
  return [
    '# What sampled fish say of each rule: made by `npx tsx bench/fish-score.ts --verdicts`; finest reading of a site,',
    '# best of its kinds. ratio: catch where the rule gives a point more, over that where it does not, all else of the',
    '# score alike; 99 is "99 or more". Rules of the trade are judged as they would rank alone (`trade`), for where fish',
    '# were counted most of them has given way; rules of the group river-survey on the years they were learned from.',
    'schema: thawline-fish/1',
    'source: L1',
    `events: ${events.length}`,
    `whole: ${of(found.map(({ species, 'rules learned': all }) => `${species}: ${three(all.whole)}`))}`,
    `trade: ${of(found.map(({ species, 'the trade alone': alone }) => `${species}: ${three(alone.whole)}`))}`,
    `unseen: ${of(Object.entries(unseen ?? {}).map(([species, share]) => `${species}: ${three(share)}`))}`,
    'verdicts:',
    ...rows,
  ].join('\n');
}
