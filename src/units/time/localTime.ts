/** Local days and hours of a zone: the one place where instants become dates, and dates instants. */
import { DateTime, type Zone } from 'luxon';
import { DAY_MS, dayNumber, HOUR_MS, isoDate } from './calendar.ts';

const MINUTE_MS = 60_000;
/** UTC days whose offset is kept a zone; forty years and more. */
const MOST_DAYS = 16_000;

/** Offset of a zone from UTC. A year of hourly rows asks thousands of times, and a calendar library answers slowly. */
class ZoneOffset {
  private readonly zone: Zone;
  /** By UTC day, where the clocks stay as they are all day; NaN where they are changed. */
  private readonly ofDay = new Map<number, number>();

  constructor(name: string) {
    this.zone = DateTime.fromMillis(0, { zone: name }).zone;
  }

  /** @returns ms to add to an instant for its local clock; NaN for an unknown zone */
  at(atMs: number): number {
    const day = Math.floor(atMs / DAY_MS);
    let offset = this.ofDay.get(day);
    if (offset === undefined) {
      const [first, last] = [this.zone.offset(day * DAY_MS), this.zone.offset((day + 1) * DAY_MS)];
      offset = first === last ? first * MINUTE_MS : Number.NaN;
      if (this.ofDay.size >= MOST_DAYS) this.ofDay.clear();
      this.ofDay.set(day, offset);
    }
    return Number.isNaN(offset) ? this.zone.offset(atMs) * MINUTE_MS : offset;
  }
}

const zones = new Map<string, ZoneOffset>();

function offsetMs(atMs: number, zone: string): number {
  let known = zones.get(zone);
  if (known === undefined) zones.set(zone, (known = new ZoneOffset(zone)));
  return known.at(atMs);
}

/** Local date at an instant as days since 1970-01-01; NaN for an unknown zone. */
export function localDayAt(atMs: number, zone: string): number {
  return Math.floor((atMs + offsetMs(atMs, zone)) / DAY_MS);
}

/** Local date at an instant, `YYYY-MM-DD`. */
export function localDateAt(atMs: number, zone: string): string {
  const day = localDayAt(atMs, zone);
  return Number.isFinite(day) ? isoDate(day) : '';
}

/** Local decimal hour at an instant, 0 to below 24, in whole minutes. */
export function localHourAt(atMs: number, zone: string): number {
  const local = atMs + offsetMs(atMs, zone);
  const minutes = Math.floor(local / MINUTE_MS) - Math.floor(local / DAY_MS) * 1440;
  return Math.floor(minutes / 60) + (minutes % 60) / 60;
}

/**
 * Instant at which clocks show a local time, given as if it were UTC; null near a change of the clocks, where a calendar
 * library must say.
 */
function plainInstant(localMs: number, zone: string): number | null {
  const offset = offsetMs(localMs - offsetMs(localMs, zone), zone);
  const atMs = localMs - offset;
  const isPlain = [-3, 0, 3].every((hours) => offsetMs(atMs + hours * HOUR_MS, zone) === offset);
  return isPlain ? atMs : null;
}

/** First instant of a local date, epoch ms; the day lasts 23, 24 or 25 hours. */
export function startOfDayMs(date: string, zone: string): number {
  // Where clocks are changed near midnight, the day may begin later or its midnight come twice.
  return (
    plainInstant(dayNumber(date) * DAY_MS, zone) ?? DateTime.fromISO(date, { zone }).startOf('day').toMillis()
  );
}

/**
 * Instant on another local date at which clocks show what they show at `atMs`, epoch ms; on the days of a clock change
 * that is not the same number of hours after midnight.
 */
export function sameClockTimeMs(atMs: number, date: string, zone: string): number {
  const local = atMs + offsetMs(atMs, zone);
  const clockMs = local - Math.floor(local / DAY_MS) * DAY_MS;
  return (
    plainInstant(dayNumber(date) * DAY_MS + clockMs, zone) ??
    instantOf(date, DateTime.fromMillis(atMs, { zone }).toFormat('HH:mm:ss.SSS'), zone)
  );
}

/**
 * Instant of a local time on a local date, epoch ms. A time the spring change skips is taken as one hour later; of a
 * time the autumn change repeats, one of the two is taken.
 *
 * @param date `YYYY-MM-DD`
 * @param at   `HH:mm`, seconds may follow
 */
export function instantOf(date: string, at: string, zone: string): number {
  const clock = /^([01]\d|2[0-3]):([0-5]\d)$/.exec(at);
  const midnight = Date.parse(date);
  // A date that does not exist is the library's to answer.
  const plain =
    clock !== null && Number.isFinite(midnight) && isoDate(midnight / DAY_MS) === date
      ? plainInstant(midnight + (Number(clock[1]) * 60 + Number(clock[2])) * MINUTE_MS, zone)
      : null;
  return plain ?? DateTime.fromISO(`${date}T${at}`, { zone }).toMillis();
}
