/**
 * Invented outings with a known truth: readers who differ, days that differ, outings that scatter more than counts do.
 * Nothing here is a real catch.
 */
import type { LearnRow } from '../src/outings/index.ts';
import { gammaQuantile } from '../src/science/index.ts';

/** Uniform numbers in (0, 1) from a seed (mulberry32): the same seed gives the same outings. */
export function chance(seed: number): () => number {
  let state = seed >>> 0;
  return () => {
    state = (state + 0x6d2b79f5) >>> 0;
    let t = Math.imul(state ^ (state >>> 15), 1 | state);
    t = (t + Math.imul(t ^ (t >>> 7), 61 | t)) ^ t;
    return (((t ^ (t >>> 14)) >>> 0) + 0.5) / 4294967296;
  };
}

export const normalOf = (next: () => number): number =>
  Math.sqrt(-2 * Math.log(next())) * Math.cos(2 * Math.PI * next());

/** A factor with mean 1 and a squared spread. */
export const factorOf = (next: () => number, squaredSpread: number): number =>
  squaredSpread === 0 ? 1 : gammaQuantile(1 / squaredSpread, next()) * squaredSpread;

/** Poisson count by the product of uniform numbers (Knuth). */
export function countOf(next: () => number, mean: number): number {
  const end = Math.exp(-mean);
  let product = next();
  let count = 0;
  while (product > end) {
    product *= next();
    count++;
  }
  return count;
}

/** A season of a club whose truth is known. */
export interface Season {
  readonly outings: number;
  readonly readers: number;
  /** Fish an hour of a usual place with a usual reader. */
  readonly perHour: number;
  /** Factor of the catch that goes with a point of the shipped rules: 1 where they are worth nothing. */
  readonly ratioOfAPoint: number;
  /** Logarithm of the rate that a rule has wrong, by rule; rules left out are right. */
  readonly wrong: Readonly<Record<string, number>>;
}

/** Six kinds of place with a base each, and three rules of the day that speak for some of them. */
const PLACES = ['bluff', 'dock', 'flat', 'point', 'riprap', 'timber'];
const BASE = [1.5, 0.5, -0.5, 1, 0, 0.5];
const DAY_RULES = [
  { rule: 'wind', points: [1, 0, 0, 1.5, 1, 0] },
  { rule: 'stain', points: [-1, 0.5, 0.5, 0, 1, 0.5] },
  { rule: 'warming', points: [0, 1, 1.5, 0, 0.5, 0.5] },
];
export const SEASON_RULES = [...PLACES.map((place) => `base.${place}`), ...DAY_RULES.map(({ rule }) => rule)];

/**
 * Outings of a season. Readers go where the shipped rules send them more often than elsewhere, differ by skill, and have
 * luck that is not Poisson's.
 */
export function seasonOf(season: Season, seed: number): LearnRow[] {
  const next = chance(seed);
  const skills = Array.from({ length: season.readers }, () => factorOf(next, 0.25));
  return Array.from({ length: season.outings }, (): LearnRow => {
    const reader = Math.floor(next() ** 1.3 * season.readers);
    const day = DAY_RULES.map(() => (next() < 0.5 ? 0 : next()));
    const pointsAt = (place: number): number =>
      DAY_RULES.reduce((sum, { points }, k) => sum + (points[place] ?? 0) * (day[k] ?? 0), BASE[place] ?? 0);
    const pulls = PLACES.map((_, place) => Math.exp(0.4 * pointsAt(place)));
    let left = next() * pulls.reduce((sum, one) => sum + one, 0);
    let place = 0;
    while (place < PLACES.length - 1 && left > (pulls[place] ?? 0)) {
      left -= pulls[place] ?? 0;
      place++;
    }
    const parts = [
      { rule: `base.${PLACES[place] ?? ''}`, share: 1 },
      ...DAY_RULES.flatMap(({ rule, points }, k) => {
        const strongest = points.reduce((most, one) => (Math.abs(one) > Math.abs(most) ? one : most), 0);
        const share = ((points[place] ?? 0) / strongest) * (day[k] ?? 0);
        return share === 0 ? [] : [{ rule, share }];
      }),
    ];
    const wrong = parts.reduce((sum, { rule, share }) => sum + (season.wrong[rule] ?? 0) * share, 0);
    const points = pointsAt(place);
    const hours = 2 + 5 * next();
    const rate = season.perHour * Math.exp(Math.log(season.ratioOfAPoint) * points + wrong);
    const mean = hours * rate * (skills[reader] ?? 1) * factorOf(next, 0.5);
    return { fish: countOf(next, mean), hours, reader: `reader${reader}`, points, parts };
  });
}
