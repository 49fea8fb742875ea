import {
  Body,
  Equator,
  EquatorFromVector,
  GeoVector,
  Horizon,
  MakeTime,
  Observer,
  RotateVector,
  Rotation_EQJ_EQD,
  SearchAltitude,
  SearchRiseSet,
  SiderealTime,
} from 'astronomy-engine';
import { requireRange } from './range.ts';
import { CIVIL_TWILIGHT_DEG } from './twilight.ts';

const HOUR_MS = 3_600_000;
const DAY_MS = 24 * HOUR_MS;
const RAD = Math.PI / 180;
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

/** Equatorial horizontal parallax of the sun at its mean distance, degrees. */
const PARALLAX_DEG = 8.794 / 3600;

/** The sun of one midnight (UTC) as the centre of the earth sees it, degrees. */
interface Midnight {
  /** Its hour angle at Greenwich beyond that of the mean sun: the equation of time. */
  readonly aheadDeg: number;
  readonly declinationDeg: number;
  readonly parallaxDeg: number;
}

const MIDNIGHTS = new Map<number, Midnight>();

function midnight(day: number): Midnight {
  const kept = MIDNIGHTS.get(day);
  if (kept !== undefined) return kept;
  const time = MakeTime(new Date(day * DAY_MS));
  const ofDate = RotateVector(Rotation_EQJ_EQD(time), GeoVector(Body.Sun, time, true));
  const { ra, dec, dist } = EquatorFromVector(ofDate);
  const turned = 15 * (SiderealTime(time) - ra);
  const made = {
    // Within half a turn of the mean sun, which stands opposite to Greenwich at midnight.
    aheadDeg: turned - 180 - 360 * Math.round((turned - 180) / 360),
    declinationDeg: dec,
    parallaxDeg: PARALLAX_DEG / dist,
  };
  if (MIDNIGHTS.size >= KEPT) MIDNIGHTS.clear();
  MIDNIGHTS.set(day, made);
  return made;
}

/** The cubic through four days' values, at a share of the way from the second to the third (Lagrange). */
function cubic(of: readonly [number, number, number, number], share: number): number {
  const [a, b, c, d] = of;
  const [s, more, less, far] = [share, share + 1, share - 1, share - 2];
  return (
    (-a * s * less * far) / 6 +
    (b * more * less * far) / 2 -
    (c * more * s * far) / 2 +
    (d * more * s * less) / 6
  );
}

/**
 * Position of the sun's centre without refraction, right to 0.0001 degrees, for who asks for many instants of a day: its
 * place among the stars is worked out once a day and taken between.
 *
 * @param latDeg latitude, degrees north, -90 to 90
 * @param lonDeg longitude, degrees east, -180 to 180
 * @param atMs   epoch milliseconds
 * @returns altitude above the horizon and azimuth clockwise from north, degrees
 */
export function sunNear(latDeg: number, lonDeg: number, atMs: number): SunPosition {
  const day = Math.floor(atMs / DAY_MS);
  const share = atMs / DAY_MS - day;
  const [a, b, c, d] = [midnight(day - 1), midnight(day), midnight(day + 1), midnight(day + 2)];
  const ahead = cubic([a.aheadDeg, b.aheadDeg, c.aheadDeg, d.aheadDeg], share);
  const declination =
    RAD * cubic([a.declinationDeg, b.declinationDeg, c.declinationDeg, d.declinationDeg], share);
  const hourAngle = RAD * (360 * share - 180 + lonDeg + ahead);
  const latitude = RAD * latDeg;
  const [sinLat, cosLat] = [Math.sin(latitude), Math.cos(latitude)];
  const [sinDec, cosDec] = [Math.sin(declination), Math.cos(declination)];
  const [sinHour, cosHour] = [Math.sin(hourAngle), Math.cos(hourAngle)];
  const top = Math.min(1, Math.max(-1, sinLat * sinDec + cosLat * cosDec * cosHour));
  const azimuth = Math.atan2(-cosDec * sinHour, sinDec * cosLat - cosDec * cosHour * sinLat) / RAD;
  return {
    altitudeDeg: Math.asin(top) / RAD - b.parallaxDeg * Math.sqrt(1 - top * top),
    azimuthDeg: (azimuth + 360) % 360,
  };
}

function observer(latDeg: number, lonDeg: number): Observer {
  requireRange('latDeg', latDeg, -90, 90);
  requireRange('lonDeg', lonDeg, -180, 180);
  return new Observer(latDeg, lonDeg, 0);
}
