/** Sun that hills and trees keep from a pocket, by its energy balance. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  dewPointC,
  evaporationWm2,
  longwaveUpWm2,
  sensibleWm2,
  WATER_HEAT_CAPACITY,
} from '../../../src/science/index.ts';
import {
  shadedHours,
  simulatePocket,
  type PocketHour,
  type PocketShape,
} from '../../../src/water/pocket/index.ts';

const HOUR_MS = 3_600_000;
const SITE = { latDeg: 36, lonDeg: -86.4 };
/** Midnight at the lake, 4 March 2026: six clear days, air as warm as the lake. */
const START = Date.parse('2026-03-04T06:00:00Z');
const clearDays = (days: number): PocketHour[] =>
  Array.from({ length: days * 24 }, (_, i) => ({
    atMs: START + (i + 1) * HOUR_MS,
    airC: 10,
    humidityPct: 60,
    rainMm: 0,
    windMs: 2,
    shortwaveWm2: Math.max(0, 750 * Math.sin(((i % 24) + 0.5 - 6) * (Math.PI / 12))),
    cloudPct: 0,
    lakeC: 10,
  }));
/** Nothing runs in and nothing goes out through its mouth: what the surface gains is what it keeps. */
const CLOSED: PocketShape = {
  areaM2: 6000,
  meanDepthM: 1.5,
  watershedKm2: 0,
  curveNumber: 70,
  landCover: 'pasture',
  mouthWidthM: 0,
  channelLengthM: 500,
  slope: 0.02,
  latDeg: 36,
};
/** Hills of 35 degrees in three of four directions, open to one side. */
const openTo = (eighth: number): number[] =>
  Array.from({ length: 8 }, (_, i) => (Math.min((i - eighth + 8) % 8, (eighth - i + 8) % 8) <= 1 ? 0 : 35));
const SOUTH = openTo(4);
const NORTH = openTo(0);
const run = (hours: readonly PocketHour[]) =>
  simulatePocket(CLOSED, hours, { basis: 'configured', stepsPerHour: 60 });

describe('a pocket behind hills', () => {
  const open = clearDays(6);
  const south = shadedHours(open, { ...SITE, horizonDeg: SOUTH });
  const north = shadedHours(open, { ...SITE, horizonDeg: NORTH });
  const sumWm2h = (hours: readonly PocketHour[]): number => hours.reduce((sum, h) => sum + h.shortwaveWm2, 0);

  it('that looks south has more sun than one that looks north, and less than open water', () => {
    expect(sumWm2h(south)).toBeLessThan(sumWm2h(open));
    expect(sumWm2h(north)).toBeLessThan(0.85 * sumWm2h(south));
  });

  it('that looks south warms sooner: it is ahead of the one that looks north from the first afternoon on', () => {
    const [s, n] = [run(south), run(north)];
    const at = (r: typeof s, day: number): number => r.hours[day * 24 + 14]?.surfaceC ?? NaN;
    expect(at(s, 0)).toBeGreaterThan(at(n, 0));
    expect(at(s, 5) - at(n, 5)).toBeGreaterThan(0.5);
    expect(at(run(open), 5)).toBeGreaterThan(at(s, 5));
  });

  it('loses in heat the sun that was kept from it, less what colder water gives off less', () => {
    // Energy balance of a closed pocket: d(heat) = A * (absorbed sun - loss). The sky's own radiation is the same for
    // both, so the difference of two runs is A * (difference of absorbed sun - difference of loss).
    const [o, n] = [run(open), run(north)];
    const windShare = 0.9;
    const lossWm2 = (waterC: number, hour: PocketHour): number =>
      longwaveUpWm2(waterC) +
      evaporationWm2(
        waterC,
        dewPointC(hour.airC, hour.humidityPct),
        hour.windMs * windShare * 0.2 ** (1 / 7),
      ) +
      sensibleWm2(waterC, hour.airC, hour.windMs * windShare * 0.2 ** (1 / 7));
    let [sunJ, lossJ] = [0, 0];
    open.forEach((hour, i) => {
      sunJ += 3600 * CLOSED.areaM2 * 0.93 * (hour.shortwaveWm2 - (north[i]?.shortwaveWm2 ?? 0));
      const mean = (r: typeof o): number =>
        ((r.hours[i - 1]?.surfaceC ?? 10) + (r.hours[i]?.surfaceC ?? 10)) / 2;
      lossJ += 3600 * CLOSED.areaM2 * (lossWm2(mean(o), hour) - lossWm2(mean(n), hour));
    });
    const keptJ = o.books.heatEndJ - n.books.heatEndJ;
    expect(sunJ).toBeGreaterThan(0);
    expect(lossJ).toBeGreaterThan(0);
    expect(keptJ / (sunJ - lossJ)).toBeGreaterThan(0.95);
    expect(keptJ / (sunJ - lossJ)).toBeLessThan(1.05);
    // And both runs close their own books: nothing but the surface moves heat.
    for (const { books } of [o, n])
      expect(books.heatEndJ - books.heatStartJ).toBeCloseTo(books.heatSurfaceJ, -3);
    expect(keptJ).toBeGreaterThan(0.1 * WATER_HEAT_CAPACITY * CLOSED.areaM2 * CLOSED.meanDepthM);
  });

  it('states what the shade does to each hour', () => {
    const { effects, hours } = simulatePocket(CLOSED, north, { basis: 'configured', openHours: open });
    const plain = simulatePocket(CLOSED, open, { basis: 'configured' });
    const last = hours.length - 1;
    expect(effects.shade?.surfaceK[last]).toBeLessThan(-0.3);
    const apart = (hours[last]?.surfaceC ?? 0) - (plain.hours[last]?.surfaceC ?? 0);
    expect(Math.abs((effects.shade?.surfaceK[last] ?? 0) - apart)).toBeLessThan(0.1);
    expect(plain.effects.shade).toBeUndefined();
  });

  it('never gains sun, whatever stands around it', () => {
    fc.assert(
      fc.property(
        fc.array(fc.double({ min: 0, max: 70, noNaN: true }), { minLength: 1, maxLength: 16 }),
        (horizonDeg) => {
          const shaded = shadedHours(open.slice(0, 48), { ...SITE, horizonDeg });
          shaded.forEach((hour, i) => {
            expect(hour.shortwaveWm2).toBeLessThanOrEqual(open[i]?.shortwaveWm2 ?? 0);
            expect(hour.shortwaveWm2).toBeGreaterThanOrEqual(0);
          });
        },
      ),
      { seed: 19, numRuns: 60 },
    );
  });
});
