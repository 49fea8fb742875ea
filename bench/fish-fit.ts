import { loadRules } from '../src/config/rules.ts';
import type { Known } from '../src/advice/rules/known.ts';
import { spotTotal } from '../src/advice/positions/spot.ts';
import { curveAt } from '../src/advice/rules/curve.ts';
import type { Curve } from '../src/config/rulesPlaces.ts';
import { fishEvents, type FishEvent, type FishSpecies } from './fish-data.ts';
import { grouped, shareOf } from './fish-rank.ts';
import { JOINS, knownAt, MAPPINGS, placesAt, type Join } from './fish-site.ts';

/**
 * Points that the catches ask for, by condition and kind of place, on top of the rules without those of the group
 * `river-survey`; judged on years left out. The rules of that group in `config/rules/positions.yaml` come from here.
 *
 * `npx tsx bench/fish-fit.ts [largemouth|smallmouth] [--rules]`: `--rules` prints the points of all years as the rules file has them.
 */
const GROUP = 'river-survey';
type Signal = 'waterC' | 'currentMs' | 'clarityM' | 'latitudeDeg';

/** When each rule speaks: one number of the day and how fully, by it. */
const CONDITIONS: Readonly<Record<string, { readonly signal: Signal; readonly curve: Curve } | null>> = {
  always: null,
  cold: { signal: 'waterC', curve: curve(12, 1, 16, 0) },
  hot: { signal: 'waterC', curve: curve(23, 0, 27, 1) },
  'very-hot': { signal: 'waterC', curve: curve(26, 0, 29, 1) },
  slack: { signal: 'currentMs', curve: curve(0.05, 1, 0.2, 0) },
  still: { signal: 'currentMs', curve: curve(0.01, 1, 0.06, 0) },
  fast: { signal: 'currentMs', curve: curve(0.2, 0, 0.5, 1) },
  clear: { signal: 'clarityM', curve: curve(0.5, 0, 0.9, 1) },
  muddy: { signal: 'clarityM', curve: curve(0.2, 1, 0.4, 0) },
  south: { signal: 'latitudeDeg', curve: curve(39.5, 1, 41.5, 0) },
  north: { signal: 'latitudeDeg', curve: curve(41, 0, 43.2, 1) },
};
const NAMES = Object.keys(CONDITIONS);
/** `inflow` is left out: 58 events are too few. */
const KINDS = [
  'pocket',
  'main_point',
  'channel_swing_bank',
  'riprap',
  'laydown',
  'flooded_cover',
  'grass_edge',
  'creek_arm',
  'river_channel',
  'eddy_seam',
  'hard_spot',
  'emergent',
] as const;
/** A point that fewer events than this could tell of is not learned. */
const FEWEST = 200;
/** Pulls every point towards nothing as this many pairs would: what the catches do not ask for stays 0. */
const RIDGE_PAIRS = 10;
const STEPS = 150;
/** First step in points; it falls to nothing, so that the last steps settle. */
const RATE = 0.1;
/** The best kind is chosen softly at first, so that a kind that is never the best yet can become it. */
const SOFT_FROM = 0.6;
const SOFT_TO = 0.02;
/** Points below it are left out: a rule that moves nothing is no rule. */
const LEAST = 0.2;
const FOLDS = 4;

/** A site read in one way and scored in one way; the points must hold under all of them together. */
const READINGS = MAPPINGS.flatMap(({ name, siteOf }) =>
  JOINS.map((join) => ({ name: `${name}, ${join}`, siteOf, join })),
);

function curve(fromX: number, fromY: number, toX: number, toY: number): Curve {
  return [
    [fromX, fromY],
    [toX, toY],
  ];
}

const shipped = loadRules();
const rules = {
  ...shipped,
  positions: {
    ...shipped.positions,
    modifiers: shipped.positions.modifiers.filter(({ group }) => group !== GROUP),
  },
};
const bare = {
  ...rules,
  positions: {
    ...rules.positions,
    counted: rules.positions.counted.map((one) => ({ ...one, level: 0 })),
  },
};
const trade = { ...rules, positions: { ...rules.positions, counted: [] } };

function sharesOf(known: Known): Site['shares'] {
  return NAMES.flatMap((name, condition) => {
    const of = CONDITIONS[name];
    const value = of == null ? undefined : known.signals[of.signal];
    const share = of == null ? 1 : value === undefined ? 0 : curveAt(of.curve, value);
    return share === 0 ? [] : [{ condition, share }];
  });
}

/** One reading of one event. */
interface Site {
  readonly event: FishEvent;
  readonly reading: string;
  /** Indices into KINDS, or -1 for a kind whose points are not learned, with its total by the rules as they are. */
  readonly kinds: readonly { readonly kind: number; readonly total: number }[];
  readonly shares: readonly { readonly condition: number; readonly share: number }[];
  readonly join: Join;
}

/** Mean points that counted kinds of place lose where the trade gives way: the `level` they get instead. */
function levelOf(events: readonly FishEvent[], species: FishSpecies): number {
  const lost = events.flatMap((event) => {
    const known = knownAt(event, species);
    const [before, after] = [placesAt(known, trade), placesAt(known, bare)];
    return KINDS.map((kind) => (before.get(kind)?.total ?? 0) - (after.get(kind)?.total ?? 0));
  });
  return lost.reduce((sum, points) => sum + points, 0) / lost.length;
}

function sitesOf(events: readonly FishEvent[], species: FishSpecies): Site[] {
  const days = events.map((event) => {
    const known = knownAt(event, species);
    return { places: placesAt(known, rules), shares: sharesOf(known) };
  });
  return READINGS.flatMap(({ name, siteOf, join }) =>
    events.map((event, index): Site => {
      const { places, shares } = days[index]!;
      const { bank, covers } = siteOf(event);
      const kinds = [bank, ...covers].flatMap((id) => {
        const place = places.get(id);
        return place === undefined
          ? []
          : [{ kind: KINDS.findIndex((kind) => kind === id), total: place.total }];
      });
      return { event, reading: name, kinds, shares, join };
    }),
  );
}

type Pairs = readonly (readonly [number, number])[];

/** Pairs of one reading, pool, year and period of which the first caught more. */
function pairsOf(sites: readonly Site[], species: FishSpecies): Pairs {
  const indices = sites.map((_, i) => i);
  const groups = grouped(indices, (i) => `${sites[i]!.reading} ${sites[i]!.event.group}`);
  return [...groups.values()].flatMap((group) =>
    group.flatMap((a) =>
      group.flatMap((b): [number, number][] =>
        sites[a]!.event.caught[species] > sites[b]!.event.caught[species] ? [[a, b]] : [],
      ),
    ),
  );
}

/** Points, NAMES x KINDS. */
type Points = Float64Array;

function scoresOf(site: Site, points: Points): number[] {
  return site.kinds.map(({ kind, total }) => {
    if (kind < 0) return total;
    let score = total;
    for (const { condition, share } of site.shares) score += share * points[condition * KINDS.length + kind]!;
    return score;
  });
}

/** Catches on flooded ground fall with warmth whatever else is told apart, so no point may say that hot water draws to it. */
const mayRise = (point: number): boolean =>
  KINDS[point % KINDS.length] !== 'flooded_cover' ||
  !['hot', 'very-hot'].includes(NAMES[Math.floor(point / KINDS.length)]!);

/** Which points enough events could tell of, in the reading that has most of them. */
function learnable(sites: readonly Site[]): boolean[] {
  const counts = new Map<string, Float64Array>();
  for (const { reading, kinds, shares } of sites) {
    const own = counts.get(reading) ?? new Float64Array(NAMES.length * KINDS.length);
    counts.set(reading, own);
    for (const { kind } of kinds)
      if (kind >= 0)
        for (const { condition, share } of shares)
          if (share > 0.02) own[condition * KINDS.length + kind]! += 1;
  }
  return Array.from({ length: NAMES.length * KINDS.length }, (_, i) =>
    [...counts.values()].some((own) => own[i]! >= FEWEST),
  );
}

/** Adam on the logistic loss of the pairs' order. */
function fitted(sites: readonly Site[], species: FishSpecies): Points {
  const pairs = pairsOf(sites, species);
  const ridge = (RIDGE_PAIRS * READINGS.length) / pairs.length;
  const learned = learnable(sites);
  const size = NAMES.length * KINDS.length;
  const points = new Float64Array(size);
  const first = new Float64Array(size);
  const second = new Float64Array(size);
  for (let step = 1; step <= STEPS; step += 1) {
    const rate = RATE * (1 - (step - 1) / STEPS);
    const soft = Math.max(SOFT_TO, SOFT_FROM * (1 - step / (0.8 * STEPS)));
    const chosen = sites.map((site) => {
      const scores = scoresOf(site, points);
      if (site.join === 'mean')
        return { score: spotTotal(scores), weights: scores.map(() => 1 / scores.length) };
      const most = Math.max(...scores);
      const weights = scores.map((score) => Math.exp((score - most) / soft));
      const whole = weights.reduce((sum, weight) => sum + weight, 0);
      return { score: most + soft * Math.log(whole), weights: weights.map((weight) => weight / whole) };
    });
    const slope = new Float64Array(sites.length);
    for (const [a, b] of pairs) {
      const push = 1 / (1 + Math.exp(chosen[a]!.score - chosen[b]!.score)) / pairs.length;
      slope[a]! -= push;
      slope[b]! += push;
    }
    const gradient = points.map((value) => ridge * value);
    sites.forEach(({ kinds, shares }, i) => {
      kinds.forEach(({ kind }, k) => {
        if (kind < 0) return;
        const pull = slope[i]! * chosen[i]!.weights[k]!;
        for (const { condition, share } of shares) gradient[condition * KINDS.length + kind]! += pull * share;
      });
    });
    for (let p = 0; p < size; p += 1) {
      if (!learned[p]) continue;
      const g = gradient[p]!;
      first[p] = 0.9 * first[p]! + 0.1 * g;
      second[p] = 0.99 * second[p]! + 0.01 * g * g;
      const move = first[p]! / (1 - 0.9 ** step) / (Math.sqrt(second[p]! / (1 - 0.99 ** step)) + 1e-9);
      points[p]! -= rate * move;
      if (points[p]! > 0 && !mayRise(p)) points[p] = 0;
    }
  }
  return points.map((value) => (Math.abs(value) < LEAST ? 0 : Math.round(value * 10) / 10));
}

const scoreOf = (site: Site, points: Points): number =>
  site.join === 'mean' ? spotTotal(scoresOf(site, points)) : Math.max(...scoresOf(site, points));

const judged = (sites: readonly Site[], species: FishSpecies, points: Points): number =>
  shareOf(
    sites.map((site) => ({
      group: `${site.reading} ${site.event.group}`,
      block: `${site.event.pool} ${site.event.year}`,
      score: scoreOf(site, points),
      caught: site.event.caught[species],
    })),
  );

const of = (sites: readonly Site[], reading: string): Site[] =>
  sites.filter((site) => site.reading === reading);

/** Shares on years left out, weighed by pairs, for each reading. */
function unseen(sites: readonly Site[], species: FishSpecies, years: readonly number[]): Map<string, number> {
  const sums = new Map<string, { right: number; all: number }>();
  for (let fold = 0; fold < FOLDS; fold += 1) {
    const out = new Set(years.filter((_, i) => i % FOLDS === fold));
    const points = fitted(
      sites.filter(({ event }) => !out.has(event.year)),
      species,
    );
    for (const { name } of READINGS) {
      const kept = of(sites, name).filter(({ event }) => out.has(event.year));
      const all = pairsOf(kept, species).length;
      const sum = sums.get(name) ?? { right: 0, all: 0 };
      sums.set(name, { right: sum.right + all * judged(kept, species, points), all: sum.all + all });
    }
  }
  return new Map([...sums].map(([name, { right, all }]) => [name, right / all]));
}

function printRules(species: FishSpecies, points: Points): void {
  for (const [c, name] of NAMES.entries()) {
    const own = KINDS.flatMap((kind, k) => {
      const value = points[c * KINDS.length + k]!;
      return value === 0 ? [] : [`${kind}: ${value}`];
    });
    if (own.length > 0) console.log(`${species}.${name} { ${own.join(', ')} }`);
  }
}

const events = fishEvents();
const years = [...new Set(events.map(({ year }) => year))].sort();
const told = (['largemouth', 'smallmouth'] as const).filter(
  (species, _, all) => !all.some((name) => process.argv.includes(name)) || process.argv.includes(species),
);
for (const species of told) {
  const sites = sitesOf(events, species);
  const points = fitted(sites, species);
  if (process.argv.includes('--rules')) {
    console.log(`${species}: level ${levelOf(events, species).toFixed(1)}`);
    printRules(species, points);
    continue;
  }
  const left = unseen(sites, species, years);
  console.log(`${species}: without | on years left out | on those fitted`);
  for (const { name } of READINGS) {
    const own = of(sites, name);
    const without = points.map(() => 0);
    const figures = [judged(own, species, without), left.get(name)!, judged(own, species, points)];
    console.log(`  ${name.padEnd(42)} ${figures.map((value) => value.toFixed(3)).join('   ')}`);
  }
}
