import type { LureBook, LureClass } from '../../config/index.ts';
import { sinkRateMs } from '../../science/index.ts';
import { clearanceOf, type Cast } from './cast.ts';
import type { CountDown } from './types.ts';

/** Line above a falling lure, m: the first ten feet decide a count. */
const HANGING_M = 3.05;
/** Weight in water of line 0.33 mm thick, N/m, by material; nylon and braid nearly float. */
const LINE_WEIGHT = { fluorocarbon: 0.00065, nylon: 0.00012, braid: 0 } as const;

/**
 * Fall of a lure on a slack line, m/s: computed from its weight and drag, or as somebody measured it.
 *
 * @returns null for what floats, and for a class without either
 */
export function fallOf(
  lure: LureClass,
  weightG: number | undefined,
  material: keyof typeof LINE_WEIGHT,
  lineMm: number,
): number | null {
  if (lure.fallMs !== undefined) return lure.fallMs;
  if (lure.sink === undefined || weightG === undefined) return null;
  const massKg = weightG / 1000;
  const volumeM3 = 'bodyCm3' in lure.sink ? lure.sink.bodyCm3 * 1e-6 : massKg / lure.sink.densityKgM3;
  const found = sinkRateMs(
    { massKg, volumeM3, dragM2: lure.sink.dragCm2 * 1e-4 },
    { lengthM: HANGING_M, diameterM: lineMm / 1000, weightNPerM: LINE_WEIGHT[material] },
  );
  return found > 0 ? found : null;
}

const EVERY_M = 3.05;

/**
 * Count-down of a sinking lure: at most what brings it to its clearance above the bottom where it lands, then down the
 * slope as the bottom drops away, until its depth is reached.
 */
export function countDownOf(lure: LureClass, cast: Cast, fallMs: number, book: LureBook): CountDown {
  const clearM = clearanceOf(lure, book);
  const startDepthM = Math.max(0, Math.min(cast.runningDepthM, cast.castDepthM - clearM));
  const slope = (cast.boatDepthM - cast.castDepthM) / cast.castLengthM;
  const deeperM = cast.runningDepthM - startDepthM;
  const follows = deeperM > 0.05 && slope > 0;
  return {
    fallMs,
    countS: startDepthM / fallMs,
    startDepthM,
    moreEvery3mS: follows ? (EVERY_M * slope) / fallMs : 0,
    untilM: follows ? Math.min(cast.castLengthM, deeperM / slope) : 0,
  };
}
