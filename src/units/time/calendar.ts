/** Calendar days without a zone: dates as text and as numbers. What needs a zone is in `localTime.ts`. */

export const HOUR_MS = 3_600_000;
export const DAY_MS = 24 * HOUR_MS;

/**
 * Days since 1970-01-01 of an ISO date; null when the text is no calendar date.
 *
 * @param date `YYYY-MM-DD`
 */
export function dayNumberOf(date: string): number | null {
  const ms = DATE.test(date) ? Date.parse(date) : Number.NaN;
  return Number.isFinite(ms) && isoDate(ms / DAY_MS) === date ? ms / DAY_MS : null;
}

/**
 * The same of a date that is known to be one.
 *
 * @throws RangeError when the text is no calendar date
 */
export function dayNumber(date: string): number {
  const day = dayNumberOf(date);
  if (day === null) throw new RangeError(`"${date}" is not a date of the form YYYY-MM-DD.`);
  return day;
}

const DATE = /^\d{4}-\d{2}-\d{2}$/;
const twoDigits = (value: number): string => (value < 10 ? `0${value}` : String(value));

/**
 * Date `YYYY-MM-DD` of a day number, of a fraction the day it lies in. Put together by hand: a morning asks some ten
 * thousand times, and `toISOString` writes the time of day as well.
 */
export function isoDate(day: number): string {
  const date = new Date(day * DAY_MS);
  const year = date.getUTCFullYear();
  if (!(year >= 1000 && year <= 9999)) return date.toISOString().slice(0, 10);
  return `${year}-${twoDigits(date.getUTCMonth() + 1)}-${twoDigits(date.getUTCDate())}`;
}

/** Day of the year of a day number, 1 to 366. */
export function dayOfYear(day: number): number {
  const year = new Date(day * DAY_MS).getUTCFullYear();
  return day - Date.UTC(year, 0, 1) / DAY_MS + 1;
}

/** @throws RangeError when the text is no calendar date */
export function addDays(date: string, days: number): string {
  return isoDate(dayNumber(date) + days);
}

/**
 * Dates from `first` to `last`, both included; none when `last` is before `first`.
 *
 * @throws RangeError when a text is no calendar date
 */
export function datesBetween(first: string, last: string): string[] {
  const from = dayNumber(first);
  return Array.from({ length: Math.max(0, dayNumber(last) - from + 1) }, (_, i) => isoDate(from + i));
}
