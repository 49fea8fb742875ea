const MS_PER_DAY = 86_400_000;

/**
 * Days since 1970-01-01 of an ISO date.
 *
 * @param date `YYYY-MM-DD`
 * @throws RangeError when the text is no calendar date
 */
export function dayNumber(date: string): number {
  const ms = /^\d{4}-\d{2}-\d{2}$/.test(date) ? Date.parse(`${date}T00:00:00Z`) : Number.NaN;
  if (!Number.isFinite(ms) || isoDate(ms / MS_PER_DAY) !== date) {
    throw new RangeError(`"${date}" is not a date of the form YYYY-MM-DD.`);
  }
  return ms / MS_PER_DAY;
}

export function isoDate(day: number): string {
  return new Date(day * MS_PER_DAY).toISOString().slice(0, 10);
}

/** Day of the year, 1 to 366. */
export function dayOfYear(day: number): number {
  const year = new Date(day * MS_PER_DAY).getUTCFullYear();
  return day - Date.UTC(year, 0, 1) / MS_PER_DAY + 1;
}
