import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  afloat,
  bothWaysAlong,
  DIRECTIONS,
  distanceM,
  fetchesM,
  fetchOf,
  isInside,
  nearestBank,
  opensDeg,
  outlineOf,
  waysBetween,
  type Outline,
  type Spot,
  type Way,
} from '../../src/shape/index.ts';
import { betweenDeg } from '../../src/units/index.ts';
import { sees, waterways } from '../../src/shape/way.ts';

/** Of a place on land just off its bank, as all its fetches are. */
const fetchM = (lake: Outline, spot: Spot, fromDeg: number): number =>
  bothWaysAlong(lake, fromDeg)(afloat(lake, spot))[0];
const wayBetween = (lake: Outline, from: Spot, to: Spot): Way | null =>
  waysBetween(lake, [to, from])[1]?.[0] ?? null;

const rectangle = (width: number, height: number): Spot[] => [
  [0, 0],
  [width, 0],
  [width, height],
  [0, height],
];
/** An L: 1,000 m along the south and along the west, 200 m wide. */
const L: Spot[] = [
  [0, 0],
  [1000, 0],
  [1000, 200],
  [200, 200],
  [200, 1000],
  [0, 1000],
];
const circle = Array.from({ length: 360 }, (_, i): Spot => {
  const angle = (i * Math.PI) / 180;
  return [500 * Math.cos(angle), 500 * Math.sin(angle)];
});

describe('fetch is the straight line of open water upwind', () => {
  it('in a rectangle: the distance to the side the wind comes from', () => {
    const lake = outlineOf([rectangle(3000, 1000)]);
    const spot: Spot = [500, 400];
    expect(fetchM(lake, spot, 0)).toBeCloseTo(600, 6);
    expect(fetchM(lake, spot, 90)).toBeCloseTo(2500, 6);
    expect(fetchM(lake, spot, 180)).toBeCloseTo(400, 6);
    expect(fetchM(lake, spot, 270)).toBeCloseTo(500, 6);
    expect(fetchM(lake, spot, 45)).toBeCloseTo(600 * Math.SQRT2, 6);
  });
  it('in a circle: the radius from its middle, the diameter from its rim', () => {
    const lake = outlineOf([circle]);
    for (const fetch of fetchesM(lake, [0, 0])) expect(fetch).toBeCloseTo(500, 0);
    expect(fetchM(lake, [499.9, 0], 270)).toBeCloseTo(1000, 0);
  });
  it('ends at an island in the way', () => {
    const island: Spot[] = [
      [400, 400],
      [600, 400],
      [600, 600],
      [400, 600],
    ];
    const lake = outlineOf([rectangle(1000, 1000), island]);
    expect(fetchM(lake, [100, 500], 90)).toBeCloseTo(300, 6);
    expect(fetchM(lake, [100, 100], 90)).toBeCloseTo(900, 6);
    expect(lake.areaM2).toBeCloseTo(1_000_000 - 40_000, 3);
  });
  it('is not the mean over a fan: the narrow arm of an L sees its own length', () => {
    expect(fetchM(outlineOf([L]), [100, 100], 90)).toBeCloseTo(900, 6);
    expect(fetchM(outlineOf([L]), [100, 100], 0)).toBeCloseTo(900, 6);
  });
  it('of a place on land is that just off its bank', () => {
    expect(fetchM(outlineOf([rectangle(3000, 1000)]), [1500, -50], 0)).toBeCloseTo(997, 0);
  });
});

describe('a bank looks from the land to the water', () => {
  const lake = outlineOf([rectangle(1000, 1000)]);
  it.each([
    ['south', [500, 20], 0],
    ['north', [500, 990], 180],
    ['west', [10, 500], 90],
    ['east', [1010, 500], 270],
  ] as const)('the %s bank of a square', (_, spot, faces) => {
    const bank = nearestBank(lake, spot);
    expect(betweenDeg(bank.facesDeg, faces)).toBeLessThan(0.01);
  });
  it('and the shore of an island looks outwards', () => {
    const island: Spot[] = [
      [400, 400],
      [600, 400],
      [600, 600],
      [400, 600],
    ];
    const bank = nearestBank(outlineOf([rectangle(1000, 1000), island]), [500, 620]);
    expect(betweenDeg(bank.facesDeg, 0)).toBeLessThan(0.01);
    expect(bank.distanceM).toBeCloseTo(20, 6);
  });
  it('a bay is open to the side its water lies on', () => {
    const bay: Spot[] = [
      [0, 0],
      [2000, 0],
      [2000, 1000],
      [1100, 1000],
      [1100, 1200],
      [1000, 1200],
      [1000, 1000],
      [0, 1000],
    ];
    expect(betweenDeg(opensDeg(fetchesM(outlineOf([bay]), [1050, 1150])) ?? 0, 180)).toBeLessThan(15);
  });
});

describe('the way by water is the shortest that stays in it', () => {
  it('a straight line where nothing is in the way', () => {
    expect(wayBetween(outlineOf([rectangle(1000, 1000)]), [100, 100], [400, 500])?.distanceM).toBeCloseTo(
      500,
      6,
    );
  });
  it('around the inner corner of an L', () => {
    const way = wayBetween(outlineOf([L]), [900, 100], [100, 900]);
    expect(way?.distanceM).toBeCloseTo(2 * Math.hypot(700, 100), 6);
    expect(way?.through).toHaveLength(3);
  });
  it('around an island by its nearer side', () => {
    const island: Spot[] = [
      [400, 300],
      [600, 300],
      [600, 600],
      [400, 600],
    ];
    const way = wayBetween(outlineOf([rectangle(1000, 1000), island]), [200, 500], [800, 500]);
    expect(way?.distanceM).toBeCloseTo(2 * Math.hypot(200, 100) + 200, 6);
  });
  it('none between two waters that nothing joins', () => {
    const other: Spot[] = rectangle(100, 100).map(([x, y]): Spot => [x + 2000, y]);
    expect(wayBetween(outlineOf([rectangle(1000, 1000), other]), [500, 500], [2050, 50])).toBeNull();
  });
});

/** A shore of so many points around the origin, each at its own distance: never crosses itself, bays as deep as you like. */
const star = fc
  .array(fc.double({ min: 150, max: 1500, noNaN: true }), { minLength: 5, maxLength: 40 })
  .map((radii) =>
    radii.map((radius, i): Spot => {
      const angle = (2 * Math.PI * i) / radii.length;
      return [radius * Math.cos(angle), radius * Math.sin(angle)];
    }),
  );
const turned = (spot: Spot, deg: number): Spot => {
  const a = (deg * Math.PI) / 180;
  // With the sun, as bearings turn.
  return [spot[0] * Math.cos(a) + spot[1] * Math.sin(a), spot[1] * Math.cos(a) - spot[0] * Math.sin(a)];
};
const moved = ([x, y]: Spot, [dx, dy]: Spot): Spot => [x + dx, y + dy];

describe('whatever the shape of the lake', () => {
  const shift = fc.tuple(fc.integer({ min: -5000, max: 5000 }), fc.integer({ min: -5000, max: 5000 }));
  const seed = { seed: 19, numRuns: 150 };

  it('moving and turning it changes neither area nor fetch', () => {
    fc.assert(
      fc.property(star, shift, fc.integer({ min: 0, max: 35 }), (ring, by, steps) => {
        const there = outlineOf([ring.map((spot) => moved(turned(spot, steps * 10), by))]);
        const here = outlineOf([ring]);
        expect(there.areaM2 / here.areaM2).toBeCloseTo(1, 6);
        const fetches = fetchesM(here, [3, 7]);
        const after = fetchesM(there, moved(turned([3, 7], steps * 10), by));
        fetches.forEach((fetch, i) => {
          // A line through a corner may fall on either side of it.
          if (Math.abs((after[(i + steps) % DIRECTIONS] ?? 0) - fetch) > 1e-3)
            expect(ring.some((spot) => side(spot, i * 10) < 1e-3)).toBe(true);
        });
      }),
      seed,
    );
  });
  const side = ([x, y]: Spot, deg: number): number => {
    const a = (deg * Math.PI) / 180;
    return Math.abs((x - 3) * Math.cos(a) - (y - 7) * Math.sin(a));
  };

  it('all fetches of a spot are those of each direction, on the water, on land and on the shore itself', () => {
    const off = fc.double({ min: -1800, max: 1800, noNaN: true });
    fc.assert(
      fc.property(star, off, off, fc.nat(), (ring, east, north, corner) => {
        const lake = outlineOf([ring]);
        const onShore = ring[corner % ring.length] ?? [east, north];
        for (const spot of [[east, north], onShore] as const) {
          const each = Array.from({ length: DIRECTIONS }, (_, i) =>
            bothWaysAlong(lake, i * 10)(afloat(lake, spot)),
          );
          fetchesM(lake, spot).forEach((fetch, i) => {
            expect(fetch).toBeCloseTo(each[i]?.[0] ?? NaN, 6);
            // Downwind is upwind of the wind from the other side.
            expect(each[(i + 18) % DIRECTIONS]?.[1]).toBeCloseTo(fetch, 6);
          });
        }
      }),
      seed,
    );
  });

  it('fetch in the water is positive, and no longer than the lake', () => {
    fc.assert(
      fc.property(star, fc.double({ min: -140, max: 140, noNaN: true }), (ring, at) => {
        const lake = outlineOf([ring]);
        const spot: Spot = [at / 2, at / 3];
        fc.pre(isInside(lake.rings, spot));
        for (const fetch of fetchesM(lake, spot)) {
          expect(fetch).toBeGreaterThan(0);
          expect(fetch).toBeLessThanOrEqual(3000);
        }
        expect(fetchOf(fetchesM(lake, spot), 722)).toBeCloseTo(fetchM(lake, spot, 0), 9);
      }),
      seed,
    );
  });

  it('the way by water stays inside, is no shorter than the straight line, and the same both ways', () => {
    fc.assert(
      fc.property(star, fc.nat(), fc.nat(), (ring, p, q) => {
        const lake = outlineOf([ring]);
        const at = (n: number): Spot => {
          const [x, y] = ring[n % ring.length] ?? [0, 0];
          return [x * 0.9, y * 0.9];
        };
        const [a, b] = [at(p), at(q)];
        const way = wayBetween(lake, a, b);
        const back = wayBetween(lake, b, a);
        expect(way).not.toBeNull();
        if (way === null) return;
        expect(way.distanceM).toBeGreaterThanOrEqual(distanceM(a, b) - 1e-6);
        expect(back?.distanceM).toBeCloseTo(way.distanceM, 6);
        way.through.slice(1).forEach((to, i) => {
          const from = way.through[i] ?? to;
          expect(sees(waterways(lake).rings, from, to)).toBe(true);
          for (const t of [0.25, 0.5, 0.75]) {
            const on: Spot = [from[0] + t * (to[0] - from[0]), from[1] + t * (to[1] - from[1])];
            expect(isInside(lake.rings, on) || nearestBank(lake, on).distanceM < 1e-3).toBe(true);
          }
        });
      }),
      seed,
    );
  });
});
