import { phaseMembership } from '../src/advice/phase.ts';
import { scorePlaces, type ScoredPlace } from '../src/advice/positions/score.ts';
import { knownOf, type Known } from '../src/advice/rules/known.ts';
import { understand } from '../src/advice/whatIf/index.ts';
import type { RuleBook } from '../src/config/rules.ts';
import type { FishEvent, FishSpecies } from './fish-data.ts';

/** The day of an event as the advice is told it: as a reader would write it into a conditions form. */
export function knownAt(event: FishEvent, species: FishSpecies): Known {
  const some = (name: string, value: number | null): Record<string, number> =>
    value === null ? {} : { [name]: value };
  const { conditions } = understand({
    units: 'metric',
    date: event.date,
    latitude: event.latDeg,
    species,
    waterBody: 'run-of-river',
    water: {
      ...some('main', event.waterC),
      ...some('change7d', event.change7dC),
      ...some('clarity', event.clarityM),
    },
    flow: some('current', event.currentMs),
  });
  return knownOf(conditions);
}

/** The kinds of place that a site is: one bank, and what lies on it. */
export interface Site {
  readonly bank: string;
  readonly covers: readonly string[];
}

/** How a site's kinds are read from its flags. */
export interface Mapping {
  readonly name: string;
  readonly siteOf: (event: FishEvent) => Site;
}

/** How the totals of a site's kinds make one score: the best of them, or their mean, as the program takes a spot. */
export const JOINS = ['best', 'mean'] as const;
export type Join = (typeof JOINS)[number];

const BACKWATER = ['BWC-S', 'BWC-O'];

const coversOf = (event: FishEvent): string[] => [
  ...(event.riprap ? ['riprap'] : []),
  ...(event.wood ? ['laydown'] : []),
  ...(event.flooded ? ['flooded_cover'] : []),
  ...(event.mouth ? ['inflow'] : []),
  ...((event.plants ?? 0) >= 1 ? ['grass_edge'] : []),
];

/** Backwater a pocket, every channel border a swing bank, the impounded shore a main-lake point. */
const simplest: Mapping = {
  name: 'simplest reading',
  siteOf: (event) => ({
    bank: BACKWATER.includes(event.stratum)
      ? 'pocket'
      : event.stratum === 'IMP-S'
        ? 'main_point'
        : 'channel_swing_bank',
    covers: [...coversOf(event), ...(event.stratum === 'MCB-W' && !event.riprap ? ['riprap'] : [])],
  }),
};

/** A side channel is an arm with a channel of its own, the main channel's border a ledge. */
const arms: Mapping = {
  name: 'side channel as creek arm',
  siteOf: (event) => ({
    bank:
      event.stratum === 'SCB'
        ? 'creek_arm'
        : event.stratum.startsWith('MCB')
          ? 'river_channel'
          : simplest.siteOf(event).bank,
    covers: simplest.siteOf(event).covers,
  }),
};

/** All that was written down of a site: side channels as arms, wing dams as seams, hard ground without riprap apart. */
const finest: Mapping = {
  name: 'finest reading',
  siteOf: (event) => {
    const { bank, covers } = simplest.siteOf(event);
    return {
      bank: event.stratum === 'SCB' ? 'creek_arm' : bank,
      covers: [
        ...covers,
        ...(event.wingDam || event.stratum === 'MCB-W' ? ['eddy_seam'] : []),
        ...(event.bottom === 4 && !event.riprap ? ['hard_spot'] : []),
        ...((event.plants ?? 0) >= 2 ? ['emergent'] : []),
      ],
    };
  },
};

/** Three readings of one site: how far a score depends on them is part of the answer. */
export const MAPPINGS: readonly Mapping[] = [finest, simplest, arms];

/** Contribution of every rule to the score of a site; they add up to it. */
export type Contributions = ReadonlyMap<string, number>;

/** Score of a site, rule by rule. */
export function scoreSite(site: Site, join: Join, places: ReadonlyMap<string, ScoredPlace>): Contributions {
  const own = [site.bank, ...site.covers].flatMap((id) => places.get(id) ?? []);
  const counted = join === 'mean' ? own : [own.reduce((a, b) => (b.total > a.total ? b : a))];
  const found = new Map<string, number>();
  for (const { evidence } of counted)
    for (const { rule, contribution } of evidence)
      found.set(rule, (found.get(rule) ?? 0) + contribution / counted.length);
  return found;
}

export const sumOf = (contributions: Contributions): number =>
  [...contributions.values()].reduce((sum, value) => sum + value, 0);

/** All kinds of place with their evidence on the day of an event. */
export function placesAt(
  known: Known,
  rules: Pick<RuleBook, 'phases' | 'positions'>,
): ReadonlyMap<string, ScoredPlace> {
  const scored = scorePlaces(known, phaseMembership(known, rules.phases), rules.positions);
  return new Map(scored.map((place) => [place.place, place]));
}
