/** Local days and hours of a zone: the one place where instants become dates, and dates instants. */
import { DateTime } from 'luxon';
import { addDays, HOUR_MS } from './calendar.ts';

/** Local date at an instant, `YYYY-MM-DD`. */
export function localDateAt(atMs: number, zone: string): string {
  return DateTime.fromMillis(atMs, { zone }).toISODate() ?? '';
}

/** Local decimal hour at an instant, 0 to below 24. */
export function localHourAt(atMs: number, zone: string): number {
  const at = DateTime.fromMillis(atMs, { zone });
  return at.hour + at.minute / 60;
}

/** First instant of a local date, epoch ms; the day lasts 23, 24 or 25 hours. */
export function startOfDayMs(date: string, zone: string): number {
  return DateTime.fromISO(date, { zone }).startOf('day').toMillis();
}

/** Length of a local date in hours: 23, 24 or 25. */
export function hoursOfDay(date: string, zone: string): number {
  return (startOfDayMs(addDays(date, 1), zone) - startOfDayMs(date, zone)) / HOUR_MS;
}

/**
 * Instant on another local date at which clocks show what they show at `atMs`, epoch ms; on the days of a clock change
 * that is not the same number of hours after midnight.
 */
export function sameClockTimeMs(atMs: number, date: string, zone: string): number {
  return instantOf(date, DateTime.fromMillis(atMs, { zone }).toFormat('HH:mm:ss.SSS'), zone);
}

/**
 * Instant of a local time on a local date, epoch ms. A time the spring change skips is taken as one hour later; of a
 * time the autumn change repeats, one of the two is taken.
 *
 * @param date `YYYY-MM-DD`
 * @param at   `HH:mm`, seconds may follow
 */
export function instantOf(date: string, at: string, zone: string): number {
  return DateTime.fromISO(`${date}T${at}`, { zone }).toMillis();
}
