import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  correctByReadings,
  simulatePocket,
  type PocketReading,
  type PocketRun,
} from '../../../src/water/pocket/index.ts';
import { handmade, START_MS } from './handmade.ts';
import { anyShape, anyWeather, HOUR } from './weather.ts';

const real = (min: number, max: number): fc.Arbitrary<number> => fc.double({ min, max, noNaN: true });
const anyBasis = fc.constantFrom('configured' as const, 'class' as const);

/** A run of any pocket in any weather, and readings at any instants of it that differ from it by what is given. */
const anyTaken: fc.Arbitrary<{ run: PocketRun; readings: PocketReading[] }> = fc
  .tuple(anyShape, anyWeather, anyBasis)
  .map(([shape, hours, basis]) => simulatePocket(shape, hours, { basis, stepsPerHour: 3 }))
  .chain((run) =>
    fc
      .array(
        fc.record({
          hour: fc.integer({ min: 0, max: run.hours.length - 1 }),
          minutesBefore: fc.integer({ min: 0, max: 59 }),
          offK: real(-6, 6),
          depthM: real(0, 3),
          sdC: real(0.1, 2),
        }),
        { minLength: 1, maxLength: 4 },
      )
      .map((takes) => ({
        run,
        readings: takes.map(({ hour, minutesBefore, offK, depthM, sdC }) => ({
          atMs: (run.hours[hour]?.atMs ?? NaN) - minutesBefore * 60_000,
          waterC: Math.max(0, (run.hours[hour]?.surfaceC ?? NaN) + offK),
          depthM,
          sdC,
        })),
      })),
  );

describe('readings in a pocket', () => {
  it('change nothing when there is none', () => {
    fc.assert(
      fc.property(anyShape, anyWeather, (shape, hours) => {
        const run = simulatePocket(shape, hours, { basis: 'configured', stepsPerHour: 3 });
        const got = correctByReadings(run, []);
        expect(got.run).toBe(run);
        expect(got.used).toEqual([]);
        expect(got.refused).toEqual([]);
      }),
      { numRuns: 5 },
    );
  });

  it('change no hour that ended before the first of them, and each is either used or refused', () => {
    fc.assert(
      fc.property(anyTaken, ({ run, readings }) => {
        const { run: after, used, refused } = correctByReadings(run, readings);
        expect(used.length + refused.length).toBe(readings.length);
        const first = Math.min(...used.map(({ atMs }) => atMs));
        for (const [i, hour] of after.hours.entries()) if (hour.atMs < first) expect(hour).toBe(run.hours[i]);
      }),
      { numRuns: 40 },
    );
  });

  it('count the same in any order, and later ones do not change what the earlier made of the hours between', () => {
    fc.assert(
      fc.property(anyTaken, ({ run, readings }) => {
        const sorted = [...readings].sort((a, b) => a.atMs - b.atMs);
        fc.pre(new Set(sorted.map(({ atMs }) => atMs)).size === sorted.length);
        const all = correctByReadings(run, sorted).run;
        expect(correctByReadings(run, [...sorted].reverse()).run.hours).toEqual(all.hours);
        const last = sorted.at(-1)!;
        const without = correctByReadings(run, sorted.slice(0, -1)).run;
        for (const [i, hour] of all.hours.entries())
          if (hour.atMs < last.atMs) expect(hour).toEqual(without.hours[i]);
      }),
      { numRuns: 40 },
    );
  });

  it('never make the interval wider, on either side', () => {
    fc.assert(
      fc.property(anyTaken, ({ run, readings }) => {
        const { run: after } = correctByReadings(run, readings);
        for (const [i, hour] of after.hours.entries()) {
          const was = run.hours[i]!;
          expect(hour.highC - hour.surfaceC).toBeLessThanOrEqual(was.highC - was.surfaceC + 1e-9);
          // Where the run's lower end was cut off at freezing, its width is not known here.
          if (was.lowC > 0)
            expect(hour.surfaceC - hour.lowC).toBeLessThanOrEqual(was.surfaceC - was.lowC + 1e-9);
          expect(hour.lowC).toBeGreaterThanOrEqual(0);
        }
      }),
      { numRuns: 40 },
    );
  });

  it('move the hour they were taken in towards them, and not past them', () => {
    fc.assert(
      fc.property(anyTaken, ({ run, readings }) => {
        const [first] = readings;
        const i = run.hours.findIndex(({ atMs }) => atMs >= first!.atMs);
        const was = run.hours[i]!;
        const atTheEnd = { ...first!, atMs: was.atMs, depthM: 0 };
        const { run: after, refused } = correctByReadings(run, [atTheEnd]);
        if (refused.length > 0) return;
        const misfit = atTheEnd.waterC - was.surfaceC;
        const moved = after.hours[i]!.surfaceC - was.surfaceC;
        expect(Math.abs(moved)).toBeLessThanOrEqual(Math.abs(misfit) + 1e-9);
        expect(moved * misfit).toBeGreaterThanOrEqual(0);
      }),
      { numRuns: 60 },
    );
  });

  it('move the difference from the lake as they move the temperature, and leave the storm as it was', () => {
    fc.assert(
      fc.property(anyTaken, ({ run, readings }) => {
        const { run: after } = correctByReadings(run, readings);
        for (const [i, hour] of after.hours.entries()) {
          const was = run.hours[i]!;
          expect(hour.minusMainC - was.minusMainC).toBeCloseTo(hour.surfaceC - was.surfaceC, 9);
          expect(hour.meanMinusMainC - was.meanMinusMainC).toBeCloseTo(hour.meanC - was.meanC, 9);
        }
        expect([after.buoyancy, after.halfLifeH, after.runoffMm, after.books]).toEqual([
          run.buoyancy,
          run.halfLifeH,
          run.runoffMm,
          run.books,
        ]);
      }),
      { numRuns: 25 },
    );
  });

  it('fade hour by hour, whatever the pocket keeps, and never below the lasting part', () => {
    fc.assert(
      fc.property(fc.array(real(0, 1), { minLength: 5, maxLength: 60 }), real(-2, 2), (keep, offK) => {
        const run = handmade(keep.length, { keep });
        const reading = { atMs: START_MS + 2 * HOUR, waterC: 10 + offK, depthM: 0.1, sdC: 0.5 };
        const moved = correctByReadings(run, [reading]).run.hours.map(({ surfaceC }) => surfaceC - 10);
        // Lasting and fading variance are equal before the first reading, so half of the first move lasts.
        const lasts = (moved[1] ?? NaN) / 2;
        for (let i = 2; i < moved.length; i++) {
          expect(Math.abs(moved[i] ?? NaN)).toBeLessThanOrEqual(Math.abs(moved[i - 1] ?? NaN) + 1e-12);
          expect(Math.abs(moved[i] ?? NaN)).toBeGreaterThanOrEqual(Math.abs(lasts) - 1e-12);
        }
      }),
      { numRuns: 60 },
    );
  });
});
