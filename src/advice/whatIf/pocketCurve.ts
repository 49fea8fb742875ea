import { HOUR_MS } from '../../units/time/index.ts';
import type { PlanHour } from '../plan/hours.ts';
import { curveAt } from '../rules/curve.ts';

/** Taken for the middle of the day where the sun is not known, h. */
const USUAL_NOON_H = 12.5;

/**
 * Share of the day's highest warmth that a pocket warmed by the sun has, by hours from noon: a quarter is left at dawn
 * (FIELD D5: a shallow pocket on clear mild days, 4.5 K above the lake in the afternoon and 1.1 K at dawn; two-layer run,
 * uncalibrated), the most about three hours after noon, as the model of the mornings has it.
 */
const BY_SUN: readonly [number, number][] = [
  [-6, 0.25],
  [-4, 0.3],
  [-2, 0.5],
  [0, 0.75],
  [2.5, 1],
  [4, 1],
  [7, 0.6],
  [12, 0.35],
];
/** Under a cloud cover like this the sun warms no pocket by itself, percent, and from the other on as it can. */
const SUNLESS_PCT: readonly [number, number][] = [
  [40, 1],
  [90, 0],
];
/** After a night this far below the lake nothing of the day before is left at dawn, K. */
const CHILL_K: readonly [number, number][] = [
  [-10, 0],
  [-5, 1],
];

/** What is known of a pocket of which one figure was written, its warmest hour's. */
export interface PocketDay {
  /** Above the lake, K, at its best hour. */
  readonly bestK: number;
  /** What of it runoff has brought, K: that is there by night as well. */
  readonly rainK: number;
  readonly cloudPct: number | undefined;
  /** Coldest air of the night against the lake, K. */
  readonly nightMinusWaterK: number | undefined;
}

/**
 * The hours with what a pocket has of its best hour's warmth in each: runoff stays, the sun's share comes and goes.
 *
 * @param hours hours of one day, in order; those that know their pocket are left alone
 */
export function withPocketCurve(hours: readonly PlanHour[], pocket: PocketDay): PlanHour[] {
  const { bestK, rainK, cloudPct, nightMinusWaterK } = pocket;
  const sunny = cloudPct === undefined ? 1 : curveAt(SUNLESS_PCT, cloudPct);
  const kept = Math.min(bestK, Math.max(0, rainK));
  const sunK = (bestK - kept) * sunny;
  const still = bestK - sunK;
  const night = nightMinusWaterK === undefined ? 1 : curveAt(CHILL_K, nightMinusWaterK);
  const startMs = hours[0]?.fromMs ?? 0;
  const noonH = noonOf(hours, startMs);
  return hours.map((hour): PlanHour => {
    if (hour.pocketMinusMainC !== undefined) return hour;
    const fromNoonH = ((hour.fromMs + hour.toMs) / 2 - startMs) / HOUR_MS - noonH;
    const share = curveAt(BY_SUN, fromNoonH);
    // What is left at dawn goes in a cold night; what the sun brings anew does not.
    const left = fromNoonH < 0 ? share - 0.25 * (1 - night) * Math.min(1, -fromNoonH / 6) : share;
    return { ...hour, pocketMinusMainC: still + sunK * Math.max(0, left) };
  });
}

/** When the sun stands highest, h after the first hour's start. */
function noonOf(hours: readonly PlanHour[], startMs: number): number {
  let best: PlanHour | undefined;
  for (const hour of hours)
    if (hour.sunAltitudeDeg !== undefined && hour.sunAltitudeDeg > (best?.sunAltitudeDeg ?? -90)) best = hour;
  return best === undefined ? USUAL_NOON_H : ((best.fromMs + best.toMs) / 2 - startMs) / HOUR_MS;
}
