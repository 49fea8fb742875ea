/** Spans of time in words. */
import { HOUR_MS } from '../units/calendar.ts';
import { localHourAt } from '../units/localTime.ts';

const counted = (count: number, one: string): string => `${count} ${count === 1 ? one : `${one}s`}`;

/** A span in whole hours, from two days on in days. */
export function spanWords(ms: number): string {
  const hours = Math.round(ms / HOUR_MS);
  return hours < 48 ? counted(hours, 'hour') : counted(Math.round(hours / 24), 'day');
}

/** Age of the last reading that counted, in whole days. */
export function readingWords(ageDays: number): string {
  return ageDays === 0 ? 'read today' : `last reading ${counted(ageDays, 'day')} old`;
}

/** Local clock time of an instant, `06:00`. */
export function clockWords(atMs: number, zone: string): string {
  const minutes = Math.round(localHourAt(atMs, zone) * 60);
  const two = (value: number): string => String(value).padStart(2, '0');
  return `${two(Math.floor(minutes / 60))}:${two(minutes % 60)}`;
}
