import { saturationVapourHpa } from '../../science/index.ts';

/**
 * Lasting vapour deficit of the air, hPa, up to which the fitted models stand alone, and from which on the balance bounds
 * them fully. The lakes they were fitted on reached 10 in their driest month; deserts reach 40.
 */
const FITTED_HPA = 11;
const BOUND_HPA = 24;
/** Days that a deficit lasts before it counts in full. */
const LASTING_DAYS = 30;
/**
 * Where nothing tells of the dew point: this much below the air, K, and no higher than a month of humid summer brings;
 * months hotter than that are the drier the hotter they are, degC and K per K (monthly means of some twenty places between
 * the Gulf of Mexico and the Gulf of Persia, from memory; about 7 K either way).
 */
const UNKNOWN = { belowAirC: 4, humidC: 28, perC: 1.5 };
/**
 * In humid places the night cools to the dew point, in dry ones it stops above it (Allen et al. 1998, FAO Irrigation and
 * Drainage Paper 56, annex 6). The range of a day tells them apart: from, and K per K up to a most (from memory).
 */
const NIGHT = { rangeC: 12, perC: 3, mostC: 12 };

export interface Moisture {
  readonly dewC: number;
  /** What the dew point was taken from: the instrument, the night's lowest air, or nothing but the air itself. */
  readonly from: 'dew' | 'night' | 'air';
}

/**
 * Dew point of a day as well as it is known, degC.
 *
 * @param rangeC highest minus lowest air of the day, K; undefined where they are not known
 */
export function moistureOf(
  airC: number,
  dewC: number | undefined,
  night: { readonly minC: number; readonly rangeC: number } | undefined,
): Moisture {
  if (dewC !== undefined) return { dewC: Math.min(airC, dewC), from: 'dew' };
  const { belowAirC, humidC, perC } = UNKNOWN;
  const guessC = Math.min(airC, humidC) - belowAirC - perC * Math.max(0, airC - humidC);
  if (night === undefined) return { dewC: guessC, from: 'air' };
  const belowC = Math.min(NIGHT.mostC, Math.max(0, NIGHT.perC * (night.rangeC - NIGHT.rangeC)));
  return { dewC: Math.min(guessC, night.minC - belowC), from: 'night' };
}

/** Air temperature or dew point as far as the vapour formulas reach, degC. */
export const within = (airC: number): number => Math.min(60, Math.max(-60, airC));

/** How dry the air has been of late, and how little is known of it. */
export class LastingDryness {
  private deficitHpa = 0;
  private guessed = 0;
  private days = 0;

  learn(airC: number, { dewC, from }: Moisture): void {
    const share = 1 / Math.min(LASTING_DAYS, ++this.days);
    const deficit = saturationVapourHpa(within(airC)) - saturationVapourHpa(within(dewC));
    this.deficitHpa += share * (deficit - this.deficitHpa);
    this.guessed += share * ((from === 'dew' ? 0 : from === 'night' ? 0.5 : 1) - this.guessed);
  }

  /** Share of the balance's bound, 0 in the air of the fitted lakes to 1 in a desert's; smooth. */
  get boundShare(): number {
    const x = Math.min(1, Math.max(0, (this.deficitHpa - FITTED_HPA) / (BOUND_HPA - FITTED_HPA)));
    return x * x * (3 - 2 * x);
  }

  /** Share of the lasting days whose dew point was a guess: a half for the night's lowest air, 1 for none at all. */
  get guessedShare(): number {
    return this.guessed;
  }
}
