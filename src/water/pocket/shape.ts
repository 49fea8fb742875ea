export type LandCover = 'wooded' | 'mixed' | 'pasture' | 'urban';

/** A pocket (cove) of the lake and the land that drains into it. */
export interface PocketShape {
  readonly areaM2: number;
  readonly meanDepthM: number;
  readonly watershedKm2: number;
  /** Curve number for average antecedent moisture. */
  readonly curveNumber: number;
  readonly landCover: LandCover;
  readonly mouthWidthM: number;
  readonly channelLengthM: number;
  /** Mean slope of the watershed, m/m. */
  readonly slope: number;
  readonly latDeg: number;
}

export interface CoverTraits {
  /** Share of storm flow that takes the slow way through topsoil and litter. A stated guess. */
  readonly slowShare: number;
  /** Suspended load of runoff at 1 mm/h of runoff, mg/L. A stated guess. */
  readonly sedimentMgL: number;
  /** Share of the open-water wind that reaches the pocket. A stated guess. */
  readonly windShare: number;
}

/**
 * What the land does to the water that runs over it, beside the storm's own share of it (`science/stormMixing.ts`). No
 * published table was found; every figure is a guess.
 */
export const COVER: Readonly<Record<LandCover, CoverTraits>> = {
  wooded: { slowShare: 0.6, sedimentMgL: 40, windShare: 0.7 },
  mixed: { slowShare: 0.5, sedimentMgL: 80, windShare: 0.75 },
  pasture: { slowShare: 0.4, sedimentMgL: 110, windShare: 0.9 },
  urban: { slowShare: 0.1, sedimentMgL: 150, windShare: 0.8 },
};

/**
 * Coarse shape for a pocket whose own watershed and depth nobody configured.
 *
 * @param areaGuess   `small`: the back of a pocket, 0.6 ha below 0.6 km2; `medium`: a pocket of 4 ha below 4 km2
 * @param meanDepthM  mean depth where known, m; otherwise from the bank, between 0.8 and 4 m
 * @param lakeBankDeg bank angle of the lake, degrees, default 8
 * @param latDeg      latitude, degrees north, default 36
 * @returns shape of the class; pass it on with `basis: 'class'` so that the interval is wide
 */
export function classPocket(
  areaGuess: 'small' | 'medium',
  meanDepthM?: number,
  lakeBankDeg = 8,
  latDeg = 36,
): PocketShape {
  const small = areaGuess === 'small';
  const areaM2 = small ? 6000 : 40_000;
  // The floor of a pocket is flatter than the lake's banks; a twelfth of its width times the bank's tangent.
  const fromBank = (Math.tan((lakeBankDeg * Math.PI) / 180) * Math.sqrt(areaM2)) / 12;
  return {
    areaM2,
    meanDepthM: meanDepthM ?? Math.min(4, Math.max(0.8, fromBank)),
    watershedKm2: small ? 0.6 : 4,
    curveNumber: 68,
    landCover: 'mixed',
    mouthWidthM: small ? 30 : 60,
    channelLengthM: small ? 1100 : 3000,
    slope: 0.05,
    latDeg,
  };
}
