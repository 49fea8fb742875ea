import type { PlanBlock } from '../advice/plan/index.ts';

/** Rounding of printed depths, m. */
const ROUNDING_M = 0.06;
/** A diving lure that runs as deep as the water under the boat is wound into the bottom, m. */
const UNDER_BOAT_M = 0.1;
/** Nothing touches for more than the whole way. */
const WHOLE_WAY = 1;

/**
 * What of a cast cannot be so: a lure below the bottom or dug into it under the boat, a count that carries it through the bottom where
 * it lands, a landing deeper than the boat, a share of contact outside the cast. Null when all can be.
 */
export function castFault({ cast, lure }: PlanBlock): string | null {
  const deepest = Math.max(cast.boatDepthM, cast.castDepthM);
  if (cast.runningDepthM > deepest + ROUNDING_M) return 'runs below the bottom';
  if (cast.family === 'diving' && cast.runningDepthM > cast.boatDepthM - UNDER_BOAT_M)
    return 'dives into the bottom under the boat';
  const floats = cast.family === 'surface';
  if (floats && cast.runningDepthM > ROUNDING_M) return 'a surface lure runs deep';
  if (cast.countS !== undefined && lure.fallMs !== null && cast.castLengthM > 0) {
    if (cast.countS * lure.fallMs > cast.castDepthM + ROUNDING_M) return 'is counted down through the bottom';
  }
  if (cast.contactShare < 0 || cast.contactShare > WHOLE_WAY) return 'touches for more than the cast';
  const from = cast.contactFromM ?? 0;
  const to = cast.contactToM ?? 0;
  if (from > to || to > cast.castLengthM + ROUNDING_M) return 'touches beyond the cast';
  return null;
}
