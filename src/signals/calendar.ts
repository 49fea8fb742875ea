/** Local calendar days of the lake's zone: the one place where hours become dates. */
import { DateTime } from 'luxon';

export const HOUR_MS = 3_600_000;
export const DAY_MS = 86_400_000;

export function localDate(atMs: number, zone: string): string {
  return DateTime.fromMillis(atMs, { zone }).toISODate() ?? '';
}

export function localHour(atMs: number, zone: string): number {
  const at = DateTime.fromMillis(atMs, { zone });
  return at.hour + at.minute / 60;
}

/** First instant of a local date; the day lasts 23, 24 or 25 hours. */
export function startOfDayMs(date: string, zone: string): number {
  return DateTime.fromISO(date, { zone }).startOf('day').toMillis();
}

export function addDays(date: string, days: number): string {
  return DateTime.fromISO(date, { zone: 'utc' }).plus({ days }).toISODate() ?? '';
}

export function dayOfYear(date: string): number {
  return DateTime.fromISO(date, { zone: 'utc' }).ordinal;
}

/** Local dates from `first` to `last`, both included. */
export function datesBetween(first: string, last: string): string[] {
  const dates: string[] = [];
  for (let date = first; date <= last; date = addDays(date, 1)) dates.push(date);
  return dates;
}

/** Length of a local date in hours: 23, 24 or 25. */
export function hoursOfDay(date: string, zone: string): number {
  return (startOfDayMs(addDays(date, 1), zone) - startOfDayMs(date, zone)) / HOUR_MS;
}
