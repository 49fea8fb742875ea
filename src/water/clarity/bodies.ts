export interface ClarityTraits {
  /** Secchi depth after weeks without runoff, m. */
  readonly baseM: number;
  /** Attenuation (as 1/Secchi) each millimetre of runoff adds, 1/m. */
  readonly perMm: number;
  /** Days in which the added load falls to 37 %. */
  readonly decayDays: number;
}

const HILL_LAND: ClarityTraits = { baseM: 1.3, perMm: 0.15, decayDays: 8 };

/**
 * What runoff does to the main arm of each kind of water. Every figure is a stated guess: no transferable law was
 * found, so the result is a class with a wide range and never more than low confidence.
 */
const BODIES: Readonly<Record<string, ClarityTraits>> = {
  'highland-reservoir': { baseM: 2.5, perMm: 0.08, decayDays: 6 },
  'hill-land-reservoir': HILL_LAND,
  'run-of-river': { baseM: 0.8, perMm: 0.2, decayDays: 4 },
  tailwater: { baseM: 1.8, perMm: 0.06, decayDays: 3 },
  'natural-lake': { baseM: 2.2, perMm: 0.05, decayDays: 10 },
};

/** Traits of a kind of water; an unknown kind counts as hill-land, in the middle of the range. */
export function traitsOf(waterBody: string): ClarityTraits {
  return BODIES[waterBody] ?? HILL_LAND;
}
