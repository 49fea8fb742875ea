import { Body, Equator, Horizon, Observer, SearchAltitude, SearchRiseSet } from 'astronomy-engine';
import { requireRange } from './range.ts';
import { CIVIL_TWILIGHT_DEG } from './twilight.ts';

const HOUR_MS = 3_600_000;
/** Rise is looked for from local midnight, set from local noon; 14 hours cover clocks that run ahead of the sun. */
const SPAN_DAYS = 14 / 24;

/** Answers kept: the hours of some weeks at one place, which a season's mornings ask for again and again. */
const KEPT = 4096;

/** The sky is the same whenever it is asked for: an answer is worked out once. */
function remembered<T extends object>(
  work: (latDeg: number, lonDeg: number, atMs: number) => T,
): (latDeg: number, lonDeg: number, atMs: number) => Readonly<T> {
  const answers = new Map<number, Readonly<T>>();
  let [atLat, atLon] = [Number.NaN, Number.NaN];
  return (latDeg, lonDeg, atMs) => {
    if (latDeg !== atLat || lonDeg !== atLon || answers.size >= KEPT) answers.clear();
    [atLat, atLon] = [latDeg, lonDeg];
    const found = answers.get(atMs) ?? work(latDeg, lonDeg, atMs);
    answers.set(atMs, found);
    return found;
  };
}

export interface SunPosition {
  readonly altitudeDeg: number;
  readonly azimuthDeg: number;
}

export interface SunTimes {
  /** Start of civil twilight: sun's centre 6 degrees below the horizon. */
  readonly dawnMs: number | null;
  /** Upper limb on the horizon, refraction included. */
  readonly riseMs: number | null;
  readonly setMs: number | null;
  readonly duskMs: number | null;
}

/**
 * Sunrise, sunset and civil twilight of one local day.
 *
 * @param latDeg           latitude, degrees north, -90 to 90
 * @param lonDeg           longitude, degrees east, -180 to 180
 * @param dateMsAtLocalNoon epoch milliseconds of 12:00 local clock time of the wanted day
 * @returns epoch milliseconds; null for an event that does not happen (polar day or night)
 * @throws RangeError outside the ranges
 * @see astronomy-engine 2.1, tested against published almanac values
 */
export const sunTimes = remembered((latDeg, lonDeg, dateMsAtLocalNoon): SunTimes => {
  const at = observer(latDeg, lonDeg);
  const midnight = new Date(dateMsAtLocalNoon - 12 * HOUR_MS);
  const noon = new Date(dateMsAtLocalNoon);
  const ms = (time: { date: Date } | null): number | null => (time ? time.date.getTime() : null);
  return {
    dawnMs: ms(SearchAltitude(Body.Sun, at, 1, midnight, SPAN_DAYS, CIVIL_TWILIGHT_DEG)),
    riseMs: ms(SearchRiseSet(Body.Sun, at, 1, midnight, SPAN_DAYS)),
    setMs: ms(SearchRiseSet(Body.Sun, at, -1, noon, SPAN_DAYS)),
    duskMs: ms(SearchAltitude(Body.Sun, at, -1, noon, SPAN_DAYS, CIVIL_TWILIGHT_DEG)),
  };
});

/**
 * Position of the sun's centre without refraction.
 *
 * @param latDeg latitude, degrees north, -90 to 90
 * @param lonDeg longitude, degrees east, -180 to 180
 * @param atMs   epoch milliseconds
 * @returns altitude above the horizon and azimuth clockwise from north, degrees
 * @throws RangeError outside the ranges
 */
export const sunPosition = remembered((latDeg, lonDeg, atMs): SunPosition => {
  const at = observer(latDeg, lonDeg);
  const date = new Date(atMs);
  const eq = Equator(Body.Sun, date, at, true, true);
  const horizon = Horizon(date, at, eq.ra, eq.dec);
  return { altitudeDeg: horizon.altitude, azimuthDeg: horizon.azimuth };
});

function observer(latDeg: number, lonDeg: number): Observer {
  requireRange('latDeg', latDeg, -90, 90);
  requireRange('lonDeg', lonDeg, -180, 180);
  return new Observer(latDeg, lonDeg, 0);
}
