import { CIVIL_TWILIGHT_DEG, dayLengthH, declinationRad, sunsetHourAngle } from '../../science/index.ts';
import { dayNumber, dayOfYear } from '../../units/time/index.ts';
import { minutesOf } from './clock.ts';
import type { WhatIfForm } from './schema.ts';

const RAD = Math.PI / 180;
const NOON = 720;
/** Taken when no latitude is given: the middle of the reservoir country the rules were written for. */
const USUAL_LATITUDE = 35;
/** An equinox: taken for the height of the sun when rise and set are given without a date. */
const EQUINOX = 80;
const RISE_DEG = -0.833;

/** Light of a written day; minutes are local, after midnight. */
export interface Sunlight {
  readonly dawn: number;
  readonly dusk: number;
  /** Altitude of the sun, degrees, at a minute of the day. */
  readonly altitudeDeg: (minute: number) => number;
}

/** Whether a form gives a moment from which noon is known by its clock. */
export const saysWhenNoonIs = ({ sun }: Pick<WhatIfForm, 'sun'>): boolean =>
  sun?.noon !== undefined ||
  (sun?.rise !== undefined && sun.set !== undefined) ||
  (sun?.dawn !== undefined && sun.dusk !== undefined);

/**
 * The light of a day from the sun's times, where they are given, else from date, latitude and noon. Null where neither
 * is known: nothing may then be said of the light.
 */
export function sunlightOf({ sun, date }: WhatIfForm, latDeg: number | undefined): Sunlight | null {
  const at = (time: string | undefined): number | undefined =>
    time === undefined ? undefined : minutesOf(time);
  const [dawn, rise, set, dusk] = [at(sun?.dawn), at(sun?.rise), at(sun?.set), at(sun?.dusk)];
  const times = rise !== undefined && set !== undefined;
  const civil = dawn !== undefined && dusk !== undefined;
  if (date === undefined && !times && !civil) return null;
  const lat = latDeg ?? USUAL_LATITUDE;
  const day = date === undefined ? EQUINOX : Math.min(365, dayOfYear(dayNumber(date)));
  const noon = at(sun?.noon) ?? (times ? (rise + set) / 2 : civil ? (dawn + dusk) / 2 : NOON);
  const half = (horizonDeg: number): number => (dayLengthH(lat, day, horizonDeg) * 60) / 2;
  // Given times stretch the day's own course, so that the sun stands on the horizon when they say so.
  const halfRise = half(RISE_DEG);
  const halfCivil = half(CIVIL_TWILIGHT_DEG);
  const stretch =
    times && halfRise > 0
      ? (set - rise) / 2 / halfRise
      : civil && halfCivil > 0
        ? (dusk - dawn) / 2 / halfCivil
        : 1;
  const declination = declinationRad(day);
  const perMinute = sunsetHourAngle(lat, day, RISE_DEG) / Math.max(1, halfRise);
  return {
    dawn: dawn ?? noon - halfCivil * stretch,
    dusk: dusk ?? noon + halfCivil * stretch,
    altitudeDeg: (minute) => {
      const angle = ((minute - noon) / stretch) * perMinute;
      const sine =
        Math.sin(lat * RAD) * Math.sin(declination) +
        Math.cos(lat * RAD) * Math.cos(declination) * Math.cos(angle);
      return Math.asin(Math.max(-1, Math.min(1, sine))) / RAD;
    },
  };
}
