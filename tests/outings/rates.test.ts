/** Fish per hour with an interval that holds what it says. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { chance, countOf, factorOf, normalOf } from '../../bench/outing-sim.ts';
import { compareOutings, FEWEST, ratesOf, type Catch } from '../../src/outings/index.ts';
import { gammaCdf, gammaQuantile } from '../../src/science/index.ts';
import type { Outing } from '../../src/record/index.ts';
import { entry } from './kit.ts';

describe('the gamma distribution', () => {
  // Critical values of chi-square as tables print them (NIST/SEMATECH e-Handbook 1.3.6.7.4, from memory): a chi-square
  // of n degrees of freedom is twice a gamma of shape n/2.
  it.each([
    [1, 0.9, 2.706],
    [10, 0.9, 15.987],
    [10, 0.1, 4.865],
    [30, 0.9, 40.256],
    [100, 0.95, 124.342],
    [100, 0.05, 77.929],
  ])('chi-square of %i degrees at %f is %f', (degrees, share, value) => {
    expect(2 * gammaQuantile(degrees / 2, share)).toBeCloseTo(value, 2);
  });

  it('of a whole shape is the tail of a Poisson count', () => {
    // P(Gamma(n) <= x) = P(Poisson(x) >= n): summed by hand.
    for (const [n, x] of [
      [1, 0.3],
      [4, 2.5],
      [12, 20],
    ] as const) {
      let term = Math.exp(-x);
      let below = 0;
      for (let k = 0; k < n; k++) {
        below += term;
        term *= x / (k + 1);
      }
      expect(gammaCdf(n, x)).toBeCloseTo(1 - below, 10);
    }
  });

  it('refuses what is no shape and no share', () => {
    expect(() => gammaCdf(0, 1)).toThrow(RangeError);
    expect(() => gammaQuantile(1, 1)).toThrow(RangeError);
  });
});

interface Scenario {
  readonly name: string;
  readonly groups: number;
  readonly readers: number;
  readonly outings: number;
  readonly perHour: number;
  /** Squared spread of the logarithm of the groups' rates, and of the factors of readers and outings. */
  readonly spread: { readonly group: number; readonly reader: number; readonly outing: number };
}

function simulate(scenario: Scenario, seed: number): { rows: Catch[]; truth: Map<string, number> } {
  const next = chance(seed);
  const rates = Array.from(
    { length: scenario.groups },
    () => scenario.perHour * Math.exp(normalOf(next) * Math.sqrt(scenario.spread.group)),
  );
  const skills = Array.from({ length: scenario.readers }, () => factorOf(next, scenario.spread.reader));
  const rows = Array.from({ length: scenario.outings }, (): Catch => {
    const group = Math.floor(next() ** 1.5 * scenario.groups);
    const reader = Math.floor(next() * scenario.readers);
    const hours = 1 + 7 * next();
    const mean = hours * (rates[group] ?? 0) * (skills[reader] ?? 0) * factorOf(next, scenario.spread.outing);
    return { fish: countOf(next, mean), hours, reader: String(reader), group: String(group) };
  });
  const skill = skills.reduce((sum, one) => sum + one, 0) / skills.length;
  return { rows, truth: new Map(rates.map((rate, group) => [String(group), rate * skill])) };
}

describe('the 80 % interval of a rate', () => {
  const usual = { groups: 6, readers: 10, outings: 120, perHour: 0.5 };
  it.each<Scenario>([
    { ...usual, name: 'a club of ten', spread: { group: 0.1, reader: 0.25, outing: 0.6 } },
    { ...usual, name: 'places that differ much', spread: { group: 0.25, reader: 0.25, outing: 0.6 } },
    {
      ...usual,
      name: 'one reader alone',
      readers: 1,
      outings: 60,
      spread: { group: 0.25, reader: 0, outing: 0.6 },
    },
    {
      ...usual,
      name: 'a lake of blank days',
      perHour: 0.1,
      outings: 150,
      spread: { group: 0.25, reader: 0.25, outing: 1 },
    },
    {
      ...usual,
      name: 'wild luck',
      groups: 8,
      readers: 15,
      outings: 300,
      spread: { group: 0.5, reader: 0.4, outing: 1.5 },
    },
  ])('holds the truth in 75 to 85 of 100 cases: $name', (scenario) => {
    let inside = 0;
    let all = 0;
    for (let run = 0; run < 300; run++) {
      const { rows, truth } = simulate(scenario, run * 7919 + 13);
      for (const { group, low, high, n } of ratesOf(rows)) {
        if (n < FEWEST.outings) continue;
        const rate = truth.get(group) ?? NaN;
        all += 1;
        if (rate >= low && rate <= high) inside += 1;
      }
    }
    expect(all).toBeGreaterThan(500);
    expect(inside / all).toBeGreaterThanOrEqual(0.75);
    expect(inside / all).toBeLessThanOrEqual(0.85);
  });
});

describe('rates', () => {
  const row = (group: string, fish: number, hours = 4, reader = 'ann'): Catch => ({
    group,
    fish,
    hours,
    reader,
  });

  it('are drawn towards the lake where a group has few outings', () => {
    const many = Array.from({ length: 60 }, (_, i) => row('bluff', i % 2));
    const [, few] = ratesOf([...many, row('dock', 6), row('dock', 6)]);
    expect(few?.perHour).toBeLessThan(12 / 8);
    expect(few?.perHour).toBeGreaterThan(0.125);
  });

  it('of blank days alone are low, and neither zero nor nothing', () => {
    const [rate] = ratesOf(Array.from({ length: 12 }, () => row('bluff', 0)));
    expect(rate?.low).toBeGreaterThan(0);
    expect(rate?.high).toBeLessThan(0.1);
  });

  it('do not call a place good because a good angler fishes there', () => {
    // Cass catches four times as much as the others wherever she is, and is mostly at the docks.
    const next = chance(5);
    const rows = Array.from({ length: 400 }, (_, i): Catch => {
      const reader = i % 4 === 0 ? 'cass' : `other${i % 5}`;
      const atDock = next() < (reader === 'cass' ? 0.85 : 0.15);
      return row(atDock ? 'dock' : 'bluff', countOf(next, reader === 'cass' ? 4 : 1), 4, reader);
    });
    const perHour = (group: string): number =>
      ratesOf(rows).find((rate) => rate.group === group)?.perHour ?? NaN;
    const raw = (group: string): number => {
      const own = rows.filter((one) => one.group === group);
      return own.reduce((sum, { fish }) => sum + fish, 0) / own.reduce((sum, { hours }) => sum + hours, 0);
    };
    expect(raw('dock') / raw('bluff')).toBeGreaterThan(1.8);
    expect(perHour('dock') / perHour('bluff')).toBeLessThan(1.25);
  });

  it('are finite and in order whatever is told', () => {
    const rows = fc.array(
      fc.record({
        fish: fc.nat(300),
        hours: fc.double({ min: 0.1, max: 18, noNaN: true }),
        reader: fc.constantFrom('a', 'b', 'c'),
        group: fc.constantFrom('x', 'y', 'z'),
      }),
      { maxLength: 40 },
    );
    fc.assert(
      fc.property(rows, (all) => {
        for (const { low, perHour, high } of ratesOf(all)) {
          expect(low).toBeGreaterThan(0);
          expect(perHour).toBeGreaterThan(low);
          expect(high).toBeGreaterThan(perHour);
          expect(high).toBeLessThan(Infinity);
        }
      }),
      { numRuns: 200 },
    );
  });
});

describe('what outings say', () => {
  const many = (n: number, readers: number, shared = true): Outing[] =>
    Array.from({ length: n }, (_, i) => ({
      ...entry({ fish: String(i % 3), bites: '', biggest: '' }, `reader${i % readers}`).outing,
      id: String(i),
      shared,
    }));

  it('is nothing below five readers or 30 outings, and nothing of those who do not share', () => {
    expect(compareOutings(many(30, 5), 'shared', new Map()).enough).toBe(true);
    expect(compareOutings(many(29, 5), 'shared', new Map())).toMatchObject({
      enough: false,
      whole: null,
      comparisons: [],
    });
    expect(compareOutings(many(60, 4), 'shared', new Map()).enough).toBe(false);
    expect(compareOutings(many(60, 6, false), 'shared', new Map())).toMatchObject({ n: 0, enough: false });
  });

  it('of oneself asks for ten, shared or not', () => {
    expect(compareOutings(many(10, 1, false), 'own', new Map()).enough).toBe(true);
    expect(compareOutings(many(9, 1, false), 'own', new Map()).enough).toBe(false);
  });

  it('is too little of a group with few outings or one angler', () => {
    const others = many(9, 3).map((one): Outing => ({
      ...one,
      places: [{ kind: 'bluff' }],
      id: `b${one.id}`,
    }));
    const alone = many(12, 1).map((one): Outing => ({
      ...one,
      places: [{ kind: 'dock' }],
      id: `d${one.id}`,
    }));
    const { comparisons } = compareOutings([...many(40, 6), ...others, ...alone], 'shared', new Map());
    const places = comparisons.find(({ aspect }) => aspect === 'place')?.groups ?? [];
    expect(Object.fromEntries(places.map(({ group, enough }) => [group, enough]))).toEqual({
      main_point: true,
      bluff: false,
      dock: false,
    });
  });

  it("says whether the plan was followed by the places of that day, or by the reader's own word", () => {
    const planned = new Map([['2026-03-05', ['bluff', 'main_point']]]);
    const own = many(10, 1);
    const word = many(10, 1).map((one): Outing => ({ ...one, id: `w${one.id}`, plan: 'elsewhere' }));
    const both = many(3, 1).map((one): Outing => ({
      ...one,
      id: `x${one.id}`,
      places: [{ kind: 'bluff' }, { kind: 'dock' }],
    }));
    const found = compareOutings([...own, ...word, ...both], 'own', planned).comparisons[0];
    expect(found?.groups.map(({ group, n }) => [group, n])).toEqual([
      ['elsewhere', 10],
      ['followed', 10],
    ]);
    expect(found?.silent).toBe(3);
  });
});
