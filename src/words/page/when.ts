/** Dates and hours in the words of the catalogue and the zone of the lake. */
import { DateTime } from 'luxon';
import type { Messages } from '../en/page.ts';

const at = (ms: number, zone: string): DateTime => DateTime.fromMillis(ms, { zone });

/** `Fri 6 Mar` of a local calendar date. */
export function dateWords(isoDate: string, m: Messages): string {
  return dayOf(DateTime.fromISO(isoDate, { zone: 'utc' }), m);
}

/** `Fri 6 Mar` of an instant. */
export const dateWordsAt = (ms: number, zone: string, m: Messages): string => dayOf(at(ms, zone), m);

const dayOf = (day: DateTime, m: Messages): string =>
  m.dayShort(m.weekdays[day.weekday - 1] ?? '', day.day, m.months[day.month - 1] ?? '');

/** Local clock time, `05:15`. */
export const clock = (ms: number, zone: string): string => at(ms, zone).toFormat('HH:mm');

/** `Fri 6 Mar 05:15`. */
export const momentWords = (ms: number, zone: string, m: Messages): string =>
  `${dayOf(at(ms, zone), m)} ${clock(ms, zone)}`;

/** Short name of the zone's offset at an instant: `CST`, `UTC+1`. */
export const zoneWords = (ms: number, zone: string): string =>
  at(ms, zone).setLocale('en-US').toFormat('ZZZZ');

/** A local hour of the day written as a clock: 13.5 -> `13:30`. */
export function hourWords(hour: number): string {
  const minutes = Math.round(hour * 60);
  return `${String(Math.floor(minutes / 60)).padStart(2, '0')}:${String(minutes % 60).padStart(2, '0')}`;
}
