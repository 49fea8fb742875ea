import type { LureBook, LurePlace } from '../../config/rulesLures.ts';
import { secchiFromTurbidityM } from '../../science/secchi.ts';
import type { Conditions } from '../../signals/types.ts';
import { quantity } from '../../units/index.ts';
import { clamp } from './curves.ts';

/** Temperature that sets the pace at one place, and how far it may be off. */
export interface PaceWater {
  readonly waterC: number;
  readonly lowC: number;
  readonly highC: number;
  readonly basis: 'known' | 'air' | 'unknown';
  /** One sentence when it is not a known temperature of this water. */
  readonly words?: string;
}

/**
 * Temperature a fish at the place is likely to have been living in: the main lake's, blended with the pocket's where
 * fish may have just moved in. Unknown water is guessed from the week's air with a wide range, or a cautious default.
 */
export function paceWater(conditions: Conditions, place: LurePlace, book: LureBook): PaceWater {
  const { waterC: main, pocketC: pocket, airMean7dC: air } = conditions.signals;
  const known = main?.value ?? (place.pocketShare > 0 ? pocket?.value : undefined);
  if (known !== undefined) {
    const blended = pocket === undefined ? known : known + place.pocketShare * (pocket.value - known);
    return { waterC: blended, lowC: blended, highC: blended, basis: 'known' };
  }
  if (air !== undefined) {
    const guess = clamp(air.value, 3, 30);
    const spread = book.settings.guessSpreadC;
    return {
      waterC: guess,
      lowC: Math.max(1, guess - spread),
      highC: guess + spread,
      basis: 'air',
      words: `Water temperature is unknown; near ${quantity('temperature', guess)} is a guess from the week's air. Measure it and adjust.`,
    };
  }
  const { use, from, to } = book.settings.unknownWaterC;
  return {
    waterC: use,
    lowC: from,
    highC: to,
    basis: 'unknown',
    words: 'Water temperature is unknown: start slow, then speed up until something answers.',
  };
}

/** Secchi depth, m, measured or from turbidity; undefined when neither is known. */
export function clarityOf(conditions: Conditions): number | undefined {
  const { clarityM, turbidityFnu } = conditions.signals;
  if (clarityM !== undefined) return clarityM.value;
  if (turbidityFnu === undefined) return undefined;
  return secchiFromTurbidityM(clamp(turbidityFnu.value, 0.5, 4000));
}

/** Steepness of the bank at the place, degrees. */
export function bankOf(conditions: Conditions, place: LurePlace, own: number | undefined): number {
  if (own !== undefined) return clamp(own, 0.5, 89);
  const lake = conditions.signals.bankDeg?.value;
  if (lake === undefined || place.bankFrom === 'kind') return place.bankDeg;
  return clamp(place.bankFrom === 'steeper' ? Math.max(lake, place.bankDeg) : lake, 0.5, 89);
}
