import { describe, expect, it } from 'vitest';
import { dayLengthH, sunPosition, sunTimes } from '../../src/science/index.ts';
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
      const { altitudeDeg, azimuthDeg } = sunPosition(
        row.inputs.lat,
        row.inputs.lon,
        Date.parse(row.inputs.utc),
      );
      expect(Math.abs(altitudeDeg - row.expected.elevationDeg)).toBeLessThanOrEqual(row.tol);
      expect(Math.abs(azimuthDeg - row.expected.azimuthDeg)).toBeLessThanOrEqual(row.tol);
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
