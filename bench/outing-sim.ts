/**
 * Invented outings with a known truth: readers who differ, days that differ, outings that scatter more than counts do.
 * Nothing here is a real catch.
 */
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
