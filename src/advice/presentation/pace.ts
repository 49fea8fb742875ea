import type { LureBook, LureClass, LureSettings } from '../../config/index.ts';
import { along, ramp } from './curves.ts';
import type { PaceWater } from './water.ts';

export interface Pace {
  readonly speedMs: number;
  readonly lowMs: number;
  readonly highMs: number;
}

/**
 * Speed of the lure through the water at the temperature, with what that may be off by, m/s.
 *
 * @param share of the pace by day in water one sees into: see `darkShare`
 */
export function paceOf(lure: LureClass, water: PaceWater, share: number, book: LureBook): Pace {
  const { speedSpread } = book.settings;
  const at = (waterC: number): number => share * along(lure.speed, waterC);
  return {
    speedMs: at(water.waterC - water.paceColderC),
    lowMs: at(water.lowC - water.paceColderC) * (1 - speedSpread),
    highMs: at(water.highC) * (1 + speedSpread),
  };
}

/** Share of its day's pace at which a lure is wound where it is hard to see: in the dark and in mud. */
export function darkShare(
  { family }: LureClass,
  night: boolean,
  clarityM: number | undefined,
  { darkPace, mudM }: LureSettings,
): number {
  // A diving lure that is slower runs shallower, and a lure on the bottom is slow enough.
  if (family !== 'sinking' && family !== 'surface') return 1;
  const mud = clarityM === undefined ? 0 : 1 - ramp(clarityM, ...mudM);
  return 1 - (1 - darkPace) * (night ? 1 : mud);
}

/** Below this depth a taut line decides how deep a lure stays, m (5 ft). */
const DECIDES_M = 1.5;

/**
 * Speed at which a sinking lure still holds its depth half-way in: wound faster, a taut line lifts it.
 *
 * @param fallMs   fall on a slack line, m/s
 * @param castM    length of the cast, m
 * @param depthM   depth it is to hold, m
 * @see vertical pull of a straight line against weight in water; the share for the line's own drag is judgement
 */
export function holdSpeedMs(
  lure: LureClass,
  fallMs: number,
  castM: number,
  depthM: number,
  book: LureBook,
): number {
  const { holdShare, rodTipM } = book.settings;
  return holdShare * lure.hold * fallMs * Math.sqrt(castM / 2 / (depthM + rodTipM));
}

/** The pace, no faster than what keeps a sinking lure at its depth. */
export function heldPace(
  pace: Pace,
  lure: LureClass,
  fallMs: number | null,
  castM: number,
  depthM: number,
  book: LureBook,
): Pace {
  if (fallMs === null || depthM <= DECIDES_M) return pace;
  const most = holdSpeedMs(lure, fallMs, castM, depthM, book);
  if (pace.speedMs <= most) return pace;
  return { speedMs: most, lowMs: Math.min(pace.lowMs, most), highMs: most };
}

/** Where the line lifts a sinking lure: over how much of the way in front of the boat, and how deep it still is there. */
export interface Lift {
  readonly lengthM: number;
  readonly atBoatM: number;
}

/**
 * Where a taut line begins to lift a sinking lure on the way in: at the distance at which its pace is as fast as what
 * holds it (see `holdSpeedMs`), which lies on a straight line as deep as the rod's tip is high above the boat.
 *
 * @param fallMs fall on a slack line, m/s; null: not known
 */
export function liftOf(
  speedMs: number,
  lure: LureClass,
  fallMs: number | null,
  depthM: number,
  book: LureBook,
): Lift {
  // In water in which the line does not decide, it lifts as it does a lure on the bottom: under about 45 degrees.
  if (fallMs === null || depthM <= DECIDES_M) return { lengthM: depthM, atBoatM: 0 };
  const { holdShare, rodTipM } = book.settings;
  const perMetre = (speedMs / (holdShare * lure.hold * fallMs)) ** 2;
  return { lengthM: perMetre * (depthM + rodTipM), atBoatM: -rodTipM };
}

/** Pause, dwell or hold at the temperature, s, longer at a share of the pace; 0 for a class that is never stopped. */
export function pauseOf(lure: LureClass, water: PaceWater, share = 1): number {
  return lure.rest === undefined ? 0 : along(lure.rest, water.waterC - water.paceColderC) / share;
}
