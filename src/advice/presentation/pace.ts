import type { LureBook, LureClass } from '../../config/rulesLures.ts';
import { along } from './curves.ts';
import type { PaceWater } from './water.ts';

export interface Pace {
  readonly speedMs: number;
  readonly lowMs: number;
  readonly highMs: number;
}

/** Speed of the lure through the water at the temperature, with what that may be off by, m/s. */
export function paceOf(lure: LureClass, water: PaceWater, book: LureBook): Pace {
  const { speedSpread } = book.settings;
  const speedMs = along(lure.speed, water.waterC - water.paceColderC);
  return {
    speedMs,
    lowMs: along(lure.speed, water.lowC - water.paceColderC) * (1 - speedSpread),
    highMs: along(lure.speed, water.highC) * (1 + speedSpread),
  };
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

/** Pause, dwell or hold at the temperature, s; 0 for a class that is never stopped. */
export function pauseOf(lure: LureClass, water: PaceWater): number {
  return lure.rest === undefined ? 0 : along(lure.rest, water.waterC - water.paceColderC);
}
