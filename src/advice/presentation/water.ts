import type { LureBook, LurePlace } from '../../config/index.ts';
import type { Conditions } from '../../signals/index.ts';
import { secchiFromTurbidityM } from '../../science/index.ts';
import { clamp, ramp } from './curves.ts';

/** Temperature that sets the pace at one place, and how far it may be off. */
export interface PaceWater {
  /** Taken off for the pace alone, K: behind a front fish move as in colder water. */
  readonly paceColderC: number;
  readonly waterC: number;
  readonly lowC: number;
  readonly highC: number;
  readonly basis: 'known' | 'air' | 'unknown';
}

/**
 * Temperature a fish at the place is likely to have been living in: the main lake's, blended with the pocket's where
 * fish may have just moved in. Unknown water is guessed from the week's air with a wide range, or a cautious default.
 */
export function paceWater(conditions: Conditions, place: LurePlace, book: LureBook): PaceWater {
  const { waterC: main, pocketC: pocket, airMean7dC: air } = conditions.signals;
  const paceColderC = frontColder(conditions, book);
  const known = main?.value ?? (place.pocketShare > 0 ? pocket?.value : undefined);
  if (known !== undefined) {
    const blended = pocket === undefined ? known : known + place.pocketShare * (pocket.value - known);
    return { waterC: blended, lowC: blended, highC: blended, basis: 'known', paceColderC };
  }
  if (air !== undefined) {
    const guess = clamp(air.value, 3, 30);
    const spread = book.settings.guessSpreadC;
    return {
      waterC: guess,
      lowC: Math.max(1, guess - spread),
      highC: guess + spread,
      basis: 'air',
      paceColderC,
    };
  }
  const { use, from, to } = book.settings.unknownWaterC;
  return {
    waterC: use,
    lowC: from,
    highC: to,
    basis: 'unknown',
    paceColderC,
  };
}

/** After a hard drop of the air under a clearing sky fish take the pace of colder water, K. */
function frontColder(conditions: Conditions, book: LureBook): number {
  const { frontColderC, frontDropC, frontSkyPct } = book.settings;
  const drop = conditions.signals.airDrop24hC?.value ?? 0;
  const cloud = conditions.signals.cloudPct?.value;
  const clear = cloud === undefined ? 0 : ramp(cloud, frontSkyPct[1], frontSkyPct[0]);
  return frontColderC * ramp(drop, frontDropC * 0.3, frontDropC) * clear;
}

/** Secchi depth, m, measured or from turbidity; undefined when neither is known. */
export function clarityOf(conditions: Conditions): number | undefined {
  const { clarityM, turbidityFnu } = conditions.signals;
  if (clarityM !== undefined) return clarityM.value;
  if (turbidityFnu === undefined) return undefined;
  return secchiFromTurbidityM(clamp(turbidityFnu.value, 0.5, 4000));
}

/** Current that runs over the place, m/s: that of the stream where the place lies in it, none elsewhere. */
export function currentAt(conditions: Conditions, place: LurePlace): number {
  return place.inCurrent ? (conditions.signals.currentMs?.value ?? 0) : 0;
}

/** Steepness of the bank at the place, degrees. */
export function bankOf(conditions: Conditions, place: LurePlace, own: number | undefined): number {
  if (own !== undefined) return clamp(own, 0.5, 89);
  const lake = conditions.signals.bankDeg?.value;
  if (lake === undefined || place.bankFrom === 'kind') return place.bankDeg;
  return clamp(place.bankFrom === 'steeper' ? Math.max(lake, place.bankDeg) : lake, 0.5, 89);
}
