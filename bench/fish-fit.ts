import { loadRules } from '../src/config/rules.ts';
import { fishEvents, type FishEvent, type FishSpecies } from './fish-data.ts';
import { grouped, shareOf } from './fish-rank.ts';
import { knownAt, MAPPINGS, placesAt, type Mapping } from './fish-site.ts';

/**
 * Points that the catches ask for, by condition and kind of place, on top of the rules without those of the group
 * `river-survey`; judged on years left out. The rules of that group in `config/rules/positions.yaml` come from here.
 *
 * `npx tsx bench/fish-fit.ts`
 */
const CONDITIONS: Readonly<Record<string, (event: FishEvent) => number>> = {
  always: () => 1,
  cold: ({ waterC }) => between(waterC, 16, 12),
  hot: ({ waterC }) => between(waterC, 23, 27),
  slack: ({ currentMs }) => between(currentMs, 0.2, 0.05),
  fast: ({ currentMs }) => between(currentMs, 0.2, 0.5),
  clear: ({ clarityM }) => between(clarityM, 0.5, 0.9),
  muddy: ({ clarityM }) => between(clarityM, 0.4, 0.2),
};
const KINDS = [
  'pocket',
  'main_point',
  'channel_swing_bank',
  'riprap',
  'laydown',
  'flooded_cover',
  'grass_edge',
  'creek_arm',
  'eddy_seam',
  'hard_spot',
  'emergent',
] as const;
/** Pulls every point towards nothing: what the catches do not ask for stays 0. */
const RIDGE = 0.002;
const STEPS = 160;
const RATE = 0.05;
/** Points below it are left out: a rule that moves nothing is no rule. */
const LEAST = 0.25;
const FOLDS = 4;
const GROUP = 'river-survey';

/** 0 at `from`, 1 at `to`, straight between; 0 where the number is not known. */
function between(value: number | null, from: number, to: number): number {
  return value === null ? 0 : Math.min(1, Math.max(0, (value - from) / (to - from)));
}

interface Site {
  readonly event: FishEvent;
  readonly reading: string;
  /** Total of each kind of place it is, by the rules as they are. */
  readonly kinds: readonly { readonly kind: string; readonly total: number }[];
  readonly shares: readonly number[];
}
type Points = Map<string, number>;
const NAMES = Object.keys(CONDITIONS);
const key = (condition: string, kind: string): string => `${condition} ${kind}`;

const shipped = loadRules();
const rules = {
  ...shipped,
  positions: {
    ...shipped.positions,
    modifiers: shipped.positions.modifiers.filter(({ group }) => group !== GROUP),
  },
};
/** The finest and the simplest reading of a site: points that hold under one alone would be points of the reading. */
const READINGS = MAPPINGS.slice(0, 2);

function sitesOf(events: readonly FishEvent[], species: FishSpecies): Site[] {
  const days = events.map((event) => placesAt(knownAt(event, species), rules));
  return READINGS.flatMap(({ name, siteOf }) =>
    events.map((event, index) => siteAs(event, days[index] ?? new Map(), name, siteOf)),
  );
}

function siteAs(
  event: FishEvent,
  places: ReturnType<typeof placesAt>,
  reading: string,
  siteOf: Mapping['siteOf'],
): Site {
  const { bank, covers } = siteOf(event);
  return {
    event,
    reading,
    kinds: [bank, ...covers].flatMap((kind) => {
      const place = places.get(kind);
      return place === undefined ? [] : [{ kind, total: place.total }];
    }),
    shares: NAMES.map((name) => CONDITIONS[name]?.(event) ?? 0),
  };
}

/** The best kind of a site, and its total with the points. */
function bestOf(site: Site, points: Points): { kind: string; score: number } {
  let best = { kind: '', score: -Infinity };
  for (const { kind, total } of site.kinds) {
    let score = total;
    NAMES.forEach((name, i) => (score += (site.shares[i] ?? 0) * (points.get(key(name, kind)) ?? 0)));
    if (score > best.score) best = { kind, score };
  }
  return best;
}

/** Pairs of one pool, year and period of which the first caught more. */
function pairsOf(sites: readonly Site[], species: FishSpecies): [number, number][] {
  const indices = sites.map((_, i) => i);
  const groups = grouped(indices, (i) => `${sites[i]?.reading} ${sites[i]?.event.group}`);
  return [...groups.values()].flatMap((group) =>
    group.flatMap((a) =>
      group.flatMap((b): [number, number][] =>
        (sites[a]?.event.caught[species] ?? 0) > (sites[b]?.event.caught[species] ?? 0) ? [[a, b]] : [],
      ),
    ),
  );
}

/** Adam on the logistic loss of the pairs' order. */
function fitted(sites: readonly Site[], species: FishSpecies): Points {
  const pairs = pairsOf(sites, species);
  const points: Points = new Map(NAMES.flatMap((name) => KINDS.map((kind) => [key(name, kind), 0] as const)));
  const first = new Map<string, number>();
  const second = new Map<string, number>();
  for (let step = 1; step <= STEPS; step += 1) {
    const best = sites.map((site) => bestOf(site, points));
    const slope = sites.map(() => 0);
    for (const [a, b] of pairs) {
      const lead = (best[a]?.score ?? 0) - (best[b]?.score ?? 0);
      const push = 1 / (1 + Math.exp(lead)) / pairs.length;
      slope[a] = (slope[a] ?? 0) - push;
      slope[b] = (slope[b] ?? 0) + push;
    }
    const gradient = new Map<string, number>();
    sites.forEach(({ shares }, i) => {
      NAMES.forEach((name, c) => {
        const at = key(name, best[i]?.kind ?? '');
        gradient.set(at, (gradient.get(at) ?? 0) + (slope[i] ?? 0) * (shares[c] ?? 0));
      });
    });
    for (const [at, value] of points) {
      const g = (gradient.get(at) ?? 0) + RIDGE * value;
      const m = 0.9 * (first.get(at) ?? 0) + 0.1 * g;
      const v = 0.999 * (second.get(at) ?? 0) + 0.001 * g * g;
      first.set(at, m);
      second.set(at, v);
      points.set(at, value - (RATE * (m / (1 - 0.9 ** step))) / (Math.sqrt(v / (1 - 0.999 ** step)) + 1e-9));
    }
  }
  return points;
}

const rounded = (points: Points): Points =>
  new Map(
    [...points].flatMap(([at, value]) =>
      Math.abs(value) < LEAST ? [] : [[at, Math.round(value * 10) / 10]],
    ),
  );

const judged = (sites: readonly Site[], species: FishSpecies, points: Points): number =>
  shareOf(
    sites.map((site) => ({
      group: `${site.reading} ${site.event.group}`,
      block: `${site.event.pool} ${site.event.year}`,
      score: bestOf(site, points).score,
      caught: site.event.caught[species],
    })),
  );

const events = fishEvents();
const years = [...new Set(events.map(({ year }) => year))].sort();
for (const species of ['largemouth', 'smallmouth'] as const) {
  const sites = sitesOf(events, species);
  const unseen: number[] = [];
  const weights: number[] = [];
  for (let fold = 0; fold < FOLDS; fold += 1) {
    const out = new Set(years.filter((_, i) => i % FOLDS === fold));
    const points = rounded(
      fitted(
        sites.filter(({ event }) => !out.has(event.year)),
        species,
      ),
    );
    const kept = sites.filter(({ event }) => out.has(event.year));
    unseen.push(judged(kept, species, points));
    weights.push(pairsOf(kept, species).length);
  }
  const all = weights.reduce((sum, n) => sum + n, 0);
  const mean = unseen.reduce((sum, value, i) => sum + (value * (weights[i] ?? 0)) / all, 0);
  const points = rounded(fitted(sites, species));
  for (const { name } of READINGS) {
    const own = sites.filter(({ reading }) => reading === name);
    console.log(`${species}, ${name}: ${judged(own, species, points).toFixed(3)} on those fitted`);
  }
  console.log(
    `\n${species}: ${judged(sites, species, new Map()).toFixed(3)} without, ${mean.toFixed(3)} on years left out (${unseen.map((value) => value.toFixed(3)).join(' ')}), ${judged(sites, species, points).toFixed(3)} on those fitted`,
  );
  for (const name of NAMES) {
    const own = KINDS.flatMap((kind) => {
      const value = points.get(key(name, kind));
      return value === undefined ? [] : [`${kind}: ${value}`];
    });
    if (own.length > 0) console.log(`  ${name.padEnd(8)} { ${own.join(', ')} }`);
  }
}
