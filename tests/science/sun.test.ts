import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { dayLengthH, sunPosition, sunTimes } from '../../src/science/index.ts';
import { sunNear } from '../../src/science/sun.ts';
import { nameOf, rowsOf } from './rows.ts';

interface Site {
  readonly lat: number;
  readonly lon: number;
}

const HOUR = 3_600_000;
/** Local noon by the sun is near enough to noon by the clock for the day to be the right one. */
const noonMs = (date: string, lonDeg: number): number =>
  Date.parse(`${date}T12:00:00Z`) - (lonDeg / 15) * HOUR;

/** `HH:MM[:SS]` UTC of the date, with `+` of the day after. */
function instant(date: string, clock: string): number {
  const nextDay = clock.startsWith('+');
  const time = clock.replace('+', '');
  return Date.parse(`${date}T${time.length === 5 ? `${time}:00` : time}Z`) + (nextDay ? 24 * HOUR : 0);
}

function expectNear(atMs: number | null, expectedMs: number, seconds: number): void {
  expect(atMs).not.toBeNull();
  expect(Math.abs((atMs ?? 0) - expectedMs) / 1000).toBeLessThanOrEqual(seconds);
}

describe('sunrise, sunset and civil twilight agree with', () => {
  type Times = Record<'sunrise' | 'sunset', string> & Partial<Record<'civilDawn' | 'civilDusk', string>>;
  for (const row of rowsOf<Site & { readonly localDate: string }, Times>('sun', 'sunTimesUtc'))
    it(nameOf(row), () => {
      const { lat, lon, localDate } = row.inputs;
      const times = sunTimes(lat, lon, noonMs(localDate, lon));
      expectNear(times.riseMs, instant(localDate, row.expected.sunrise), row.tol);
      expectNear(times.setMs, instant(localDate, row.expected.sunset), row.tol);
      // The rest were also computed with ephem 4.1.4, which agrees to a second.
      if (row.expected.civilDawn) expectNear(times.dawnMs, instant(localDate, row.expected.civilDawn), 5);
      if (row.expected.civilDusk) expectNear(times.duskMs, instant(localDate, row.expected.civilDusk), 5);
    });
  for (const row of rowsOf<Site & { readonly date: string }, { rise: string; set: string }>(
    'sun',
    'sunRiseSetUtc',
  ))
    it(nameOf(row), () => {
      const { lat, lon, date } = row.inputs;
      const times = sunTimes(lat, lon, noonMs(date, lon));
      expectNear(times.riseMs, instant(date, row.expected.rise), row.tol);
      expectNear(times.setMs, instant(date, row.expected.set), row.tol);
    });

  it('the day the clocks change, with noon by the clock given an hour early', () => {
    const [row] = rowsOf<Site & { readonly localDate: string }, { sunrise: string }>(
      'sun',
      'sunTimesUtc',
    ).filter((r) => r.inputs.localDate === '2025-03-09');
    const { lat, lon, localDate } = row!.inputs;
    expectNear(
      sunTimes(lat, lon, Date.parse('2025-03-09T17:00Z')).riseMs,
      instant(localDate, row!.expected.sunrise),
      5,
    );
  });

  it('the polar day: nothing rises or sets at 70 N in June', () => {
    const times = sunTimes(70, 25, Date.parse('2025-06-21T10:00Z'));
    expect(times).toEqual({ dawnMs: null, riseMs: null, setMs: null, duskMs: null });
  });
});

describe('sun position agrees with', () => {
  type Position = { readonly elevationDeg: number; readonly azimuthDeg: number };
  for (const row of rowsOf<Site & { readonly utc: string }, Position>('sun', 'solarPosition'))
    it(nameOf(row), () => {
      // As each instant is worked out, and as a day's many instants are taken between its midnights.
      for (const position of [sunPosition, sunNear]) {
        const { lat, lon, utc } = row.inputs;
        const { altitudeDeg, azimuthDeg } = position(lat, lon, Date.parse(utc));
        expect(Math.abs(altitudeDeg - row.expected.elevationDeg)).toBeLessThanOrEqual(row.tol);
        expect(Math.abs(azimuthDeg - row.expected.azimuthDeg)).toBeLessThanOrEqual(row.tol);
      }
    });
});

describe('the sun taken between midnights', () => {
  it('stands within 0.0001 degrees of where it is, at any hour of six decades and any place with bass', () => {
    const degrees = (most: number): fc.Arbitrary<number> => fc.double({ min: -most, max: most, noNaN: true });
    const atMs = fc.integer({ min: Date.UTC(1990, 0), max: Date.UTC(2050, 0) });
    fc.assert(
      fc.property(degrees(66), degrees(180), atMs, (lat, lon, at) => {
        const is = sunPosition(lat, lon, at);
        const near = sunNear(lat, lon, at);
        expect(Math.abs(near.altitudeDeg - is.altitudeDeg)).toBeLessThan(1e-4);
        // Near the zenith a bearing turns faster than the sun moves.
        const apart = Math.abs(near.azimuthDeg - is.azimuthDeg);
        const turn = Math.min(apart, 360 - apart) * Math.cos((is.altitudeDeg * Math.PI) / 180);
        expect(turn).toBeLessThan(1e-4);
      }),
      { seed: 20261127, numRuns: 400 },
    );
  });

  it('goes on without a step where one day meets the next', () => {
    const midnight = Date.UTC(2026, 2, 7);
    const [before, after] = [sunNear(36, 100, midnight - 1), sunNear(36, 100, midnight)];
    expect(after.altitudeDeg).toBeCloseTo(before.altitudeDeg, 4);
    expect(after.azimuthDeg).toBeCloseTo(before.azimuthDeg, 4);
  });
});

describe('day length agrees with', () => {
  for (const row of rowsOf<{ readonly doy: number; readonly lat: number }, number>('radiation', 'dayLengthH'))
    it(nameOf(row), () => {
      expect(Math.abs(dayLengthH(row.inputs.lat, row.inputs.doy, 0) - row.expected)).toBeLessThanOrEqual(
        row.tol,
      );
    });

  it('rise to set of the almanac within six minutes, all year at 36 N', () => {
    for (let doy = 5; doy <= 365; doy += 15) {
      const noon = Date.UTC(2025, 0, doy, 17, 40);
      const { riseMs, setMs } = sunTimes(36, -84, noon);
      expect(Math.abs(dayLengthH(36, doy) - ((setMs ?? 0) - (riseMs ?? 0)) / HOUR)).toBeLessThan(6 / 60);
    }
  });
});
