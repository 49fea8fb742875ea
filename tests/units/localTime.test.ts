/** Dates and instants of a zone, held against a calendar library: ours are a short way to the same answers. */
import fc from 'fast-check';
import { DateTime } from 'luxon';
import { describe, expect, it } from 'vitest';
import { datesBetween, dayNumber, isoDate } from '../../src/units/time/calendar.ts';
import {
  instantOf,
  localDateAt,
  localHourAt,
  sameClockTimeMs,
  startOfDayMs,
} from '../../src/units/time/localTime.ts';

/** Half hours, a change at midnight, one of half an hour, one in Ramadan, and an island that left out a day. */
const ZONES = [
  'UTC',
  'America/Chicago',
  'Europe/London',
  'Asia/Kathmandu',
  'America/Sao_Paulo',
  'Australia/Lord_Howe',
  'Africa/Casablanca',
  'Pacific/Apia',
];
const DAY = 24 * 3_600_000;
const from = Date.parse('2009-01-01T00:00:00Z');
const to = Date.parse('2031-01-01T00:00:00Z');
const instant = fc.integer({ min: from / 60_000, max: to / 60_000 }).map((minute) => minute * 60_000);
const zone = fc.constantFrom(...ZONES);
const clock = fc
  .integer({ min: 0, max: 1439 })
  .map((m) => `${String(Math.floor(m / 60)).padStart(2, '0')}:${String(m % 60).padStart(2, '0')}`);
const runs = { numRuns: 1500 };

describe('local time', () => {
  it('has the date, the hour and the beginning of the day that the calendar library has', () => {
    fc.assert(
      fc.property(instant, zone, (atMs, name) => {
        const there = DateTime.fromMillis(atMs, { zone: name });
        const date = there.toISODate() ?? '';
        expect(localDateAt(atMs, name)).toBe(date);
        expect(localHourAt(atMs, name)).toBeCloseTo(there.hour + there.minute / 60, 9);
        expect(startOfDayMs(date, name)).toBe(there.startOf('day').toMillis());
      }),
      runs,
    );
  });

  it('has the instant of a local time that the calendar library has, also around a change of the clocks', () => {
    fc.assert(
      fc.property(instant, zone, clock, (atMs, name, at) => {
        const date = isoDate(Math.floor(atMs / DAY));
        expect(instantOf(date, at, name)).toBe(DateTime.fromISO(`${date}T${at}`, { zone: name }).toMillis());
      }),
      runs,
    );
    for (const [date, name] of [
      ['2026-03-08', 'America/Chicago'],
      ['2026-11-01', 'America/Chicago'],
      ['2011-12-30', 'Pacific/Apia'],
      ['2018-11-04', 'America/Sao_Paulo'],
    ] as const)
      for (let minute = 0; minute < 1440; minute += 15) {
        const at = `${String(Math.floor(minute / 60)).padStart(2, '0')}:${String(minute % 60).padStart(2, '0')}`;
        expect(instantOf(date, at, name), `${date} ${at} ${name}`).toBe(
          DateTime.fromISO(`${date}T${at}`, { zone: name }).toMillis(),
        );
      }
  });

  it('shows on another date the clock of this one', () => {
    fc.assert(
      fc.property(instant, instant, zone, (atMs, other, name) => {
        const date = localDateAt(other, name);
        const at = DateTime.fromMillis(atMs, { zone: name }).toFormat('HH:mm:ss.SSS');
        expect(sameClockTimeMs(atMs, date, name)).toBe(
          DateTime.fromISO(`${date}T${at}`, { zone: name }).toMillis(),
        );
      }),
      runs,
    );
  });

  it('is no number for a date that does not exist', () => {
    expect(instantOf('2026-02-30', '06:00', 'UTC')).toBeNaN();
    expect(instantOf('no date', '06:00', 'UTC')).toBeNaN();
  });
});

describe('calendar days', () => {
  it('are those of the calendar library, there and back', () => {
    fc.assert(
      fc.property(fc.integer({ min: -300_000, max: 700_000 }), (day) => {
        const date = DateTime.fromMillis(day * DAY, { zone: 'utc' }).toISODate() ?? '';
        expect(isoDate(day)).toBe(date);
        expect(dayNumber(date)).toBe(day);
      }),
      runs,
    );
    expect(datesBetween('2024-02-27', '2024-03-02')).toEqual([
      '2024-02-27',
      '2024-02-28',
      '2024-02-29',
      '2024-03-01',
      '2024-03-02',
    ]);
  });

  it('are refused where there is no such day', () => {
    for (const date of ['2026-02-30', '2026-13-01', '2025-02-29', '20260301', '2026-3-1', ''])
      expect(() => dayNumber(date), date).toThrow(/is not a date of the form/);
  });
});
