import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { bandPosition, levelChange, type LevelPoint } from '../../../src/water/level/index.ts';

const MINUTE = 60_000;
const HOUR = 60 * MINUTE;
const DAY = 24 * HOUR;
const FT = 0.3048;
const NOW = Date.UTC(2026, 2, 10, 11, 30);

/** Four days of a gauge, a value every quarter hour up to now, from a function of the hours before now (negative). */
const gauge = (levelM: (h: number) => number, hours = 96, stepMin = 15): LevelPoint[] =>
  Array.from({ length: Math.floor((hours * 60) / stepMin) + 1 }, (_, i) => {
    const atMs = NOW - hours * HOUR + i * stepMin * MINUTE;
    return { atMs, levelM: levelM((atMs - NOW) / HOUR) };
  });

/** Repeatable scatter between -1 and 1. */
const scatter = (i: number): number => {
  const x = Math.sin(i * 12.9898) * 43_758.5453;
  return 2 * (x - Math.floor(x)) - 1;
};

describe('level change', () => {
  it('717.20 to 718.70 ft in 36 h is a rise of 1.00 ft a day (computed)', () => {
    const points = gauge((h) => (718.7 + (1.5 * h) / 36) * FT);
    for (const span of [6, 24, 72]) {
      const change = levelChange(points, NOW, span)!;
      expect(change.rateMPerH * 24).toBeCloseTo(FT, 6);
      expect(change.changeM).toBeCloseTo((FT * span) / 24, 6);
      expect(change.significant).toBe(true);
    }
  });

  it('0.40 ft down in 12 h is a fall of 0.80 ft a day (computed)', () => {
    expect(
      levelChange(
        gauge((h) => 100 - (0.4 * FT * h) / 12),
        NOW,
        12,
      )!.rateMPerH * 24,
    ).toBeCloseTo(-0.8 * FT, 6);
  });

  it('does not depend on the datum or the order of the points', () => {
    const rise = gauge((h) => 200 + 0.01 * h);
    const other = rise.map((p) => ({ ...p, levelM: p.levelM - 150 })).reverse();
    expect(levelChange(other, NOW, 24)!.changeM).toBeCloseTo(levelChange(rise, NOW, 24)!.changeM, 9);
    // Where a gauge speaks by the hour the window is three of its values, in whatever order they come.
    const hourly = gauge((h) => 50 + 0.02 * scatter(Math.round(h)), 96, 60);
    expect(levelChange([...hourly].reverse(), NOW, 24)).toEqual(levelChange(hourly, NOW, 24));
    expect(levelChange([hourly.at(-1)!], NOW, 24)).toBeNull();
  });

  it('a flood that began three hours ago shows over 6 and over 72 hours', () => {
    const points = gauge((h) => 50 + Math.max(0, (h + 3) * 0.2));
    expect(levelChange(points, NOW, 6)).toMatchObject({ significant: true });
    expect(levelChange(points, NOW, 6)!.changeM).toBeGreaterThan(0.4);
    expect(levelChange(points, NOW, 72)).toMatchObject({ significant: true });
  });

  it('wind set-up and seiche of 3 cm are noise, not a rise', () => {
    for (let phase = 0; phase < 6; phase++) {
      const points = gauge((h) => 50 + 0.03 * Math.sin(((h + phase) / 5.3) * 2 * Math.PI));
      for (const span of [6, 24, 72]) {
        expect(levelChange(points, NOW, span), `phase ${phase}, ${span} h`).toMatchObject({
          significant: false,
        });
      }
    }
  });

  it('a sensor that scatters by 2 cm is noise, and its scatter is what noiseM says', () => {
    const points = gauge((h) => 50 + 0.02 * scatter(Math.round(h * 4)));
    for (const span of [6, 24, 72]) {
      const change = levelChange(points, NOW, span)!;
      expect(change.significant).toBe(false);
      expect(change.noiseM).toBeGreaterThan(0.01);
      expect(change.noiseM).toBeLessThan(0.06);
    }
  });

  it('a swing that comes back each day hides no rise and makes none', () => {
    fc.assert(
      fc.property(
        fc.double({ min: -2, max: 2, noNaN: true }),
        fc.double({ min: 0, max: 2, noNaN: true }),
        fc.integer({ min: 0, max: 23 }),
        fc.constantFrom(15, 60),
        (risenM, swingM, phaseH, step) => {
          const points = gauge(
            (h) => 50 + (risenM * h) / 24 + swingM * Math.cos(((h + phaseH) / 24) * 2 * Math.PI),
            96,
            step,
          );
          const change = levelChange(points, NOW, 24)!;
          expect(change.changeM).toBeCloseTo(risenM, 2);
          expect(change.noiseM).toBeLessThan(0.06);
        },
      ),
      { numRuns: 60 },
    );
  });

  it('a rise that ended is over: flat for the last six hours and more is no rate', () => {
    const points = gauge((h) => 50 + 0.128 * Math.min(0, h + 10.5) + 0.005 * scatter(Math.round(h * 4)));
    expect(levelChange(points, NOW, 6)).toMatchObject({ significant: false });
    expect(levelChange(points, NOW, 6)!.noiseM).toBeLessThan(0.03);
    expect(levelChange(points, NOW, 24)!.changeM).toBeCloseTo(1.73, 1);
  });

  it('a pool that follows a tide of 0.7 m is told as it moves', () => {
    const points = gauge((h) => 50 + 0.36 * Math.cos((h / 12.42) * 2 * Math.PI));
    expect(levelChange(points, NOW, 6)!.changeM).toBeCloseTo(0.72, 1);
    expect(levelChange(points, NOW, 6)!.noiseM).toBeLessThan(0.15);
  });

  it('gauges that speak every two or three hours are judged by their own step', () => {
    for (const step of [120, 180]) {
      const change = levelChange(
        gauge((h) => 50 + (0.3 * h) / 24 + 0.005 * scatter(Math.round(h)), 96, step),
        NOW,
        24,
      )!;
      expect(change.significant).toBe(true);
    }
  });

  it('a rise of 20 cm a day is seen through both', () => {
    const points = gauge(
      (h) => 50 + (0.2 * h) / 24 + 0.02 * Math.sin((h / 5) * 2 * Math.PI) + 0.01 * scatter(Math.round(h * 4)),
    );
    const change = levelChange(points, NOW, 24)!;
    expect(change.significant).toBe(true);
    expect(change.changeM).toBeGreaterThan(0.15);
    expect(change.changeM).toBeLessThan(0.25);
  });

  it('one wild value at either end is not a flood', () => {
    const points = gauge(() => 50);
    const spiked = points.map((p, i) =>
      i === points.length - 1 || p.atMs === NOW - 24 * HOUR ? { ...p, levelM: 53 } : p,
    );
    expect(levelChange(spiked, NOW, 24)).toMatchObject({ changeM: 0, significant: false });
  });

  it('gaps in between are tolerated; a missing end is not', () => {
    const points = gauge((h) => 50 + 0.01 * h);
    const gap = points.filter((p) => p.atMs < NOW - 20 * HOUR || p.atMs > NOW - 3 * HOUR);
    expect(levelChange(gap, NOW, 24)!.changeM).toBeCloseTo(0.24, 6);
    expect(
      levelChange(
        points.filter((p) => p.atMs < NOW - 4 * HOUR),
        NOW,
        24,
      ),
    ).toBeNull();
    expect(
      levelChange(
        points.filter((p) => p.atMs > NOW - 20 * HOUR),
        NOW,
        24,
      ),
    ).toBeNull();
    expect(levelChange([], NOW, 24)).toBeNull();
  });

  it('works on hourly gauges too, and looks at nothing later than asked', () => {
    const points = gauge((h) => 50 + 0.02 * h, 96, 60);
    expect(levelChange(points, NOW, 6)!.changeM).toBeCloseTo(0.12, 6);
    expect(levelChange(points, NOW - 12 * HOUR, 24)!.changeM).toBeCloseTo(0.48, 6);
    const broken = points.map((p) => (p.atMs > NOW - 12 * HOUR ? { ...p, levelM: 900 } : p));
    expect(levelChange(broken, NOW - 12 * HOUR, 24)!.changeM).toBeCloseTo(0.48, 6);
  });

  it('refuses a span it is not made for', () => {
    expect(() => levelChange([], NOW, 0)).toThrow(/spanH/);
  });

  it('any linear rise comes back exactly, whatever the step of the gauge', () => {
    const rate = fc.double({ min: -0.05, max: 0.05, noNaN: true });
    fc.assert(
      fc.property(rate, fc.constantFrom(6, 24, 72), fc.constantFrom(5, 15, 30, 60), (perH, span, step) => {
        const change = levelChange(
          gauge((h) => 70 + perH * h, 96, step),
          NOW,
          span,
        )!;
        expect(change.changeM).toBeCloseTo(perH * span, 8);
        expect(change.significant).toBe(Math.abs(change.changeM) > change.noiseM);
      }),
      { numRuns: 30 },
    );
  });
});

describe('position in the year’s band', () => {
  const year = Array.from({ length: 365 }, (_, day) => ({
    atMs: NOW - day * DAY,
    levelM: 200 + 3 * Math.cos((day / 365) * 2 * Math.PI),
  }));

  it('is 0 at the lowest and 1 at the highest level of the year, and beyond them outside', () => {
    expect(bandPosition(year, NOW, 197).share).toBeCloseTo(0, 2);
    expect(bandPosition(year, NOW, 203).share).toBeCloseTo(1, 2);
    expect(bandPosition(year, NOW, 204.5).share).toBeGreaterThan(1.2);
  });

  it('is unknown with half a year or less, while normal pool still tells', () => {
    expect(bandPosition(year.slice(0, 100), NOW, 200, 201)).toEqual({
      lowM: null,
      highM: null,
      share: null,
      vsNormalM: -1,
      days: 100,
    });
    expect(bandPosition(year, NOW, 200).vsNormalM).toBeNull();
  });

  it('one spike of the sensor among a day’s values does not become the year’s flood', () => {
    const many = year.flatMap((p) =>
      Array.from({ length: 24 }, (_, h) => ({ ...p, atMs: p.atMs - h * HOUR })),
    );
    const spiked = many.map((p, i) => (i === 2000 ? { ...p, levelM: 230 } : p));
    expect(bandPosition(spiked, NOW, 200).highM).toBeLessThan(204);
  });
});
