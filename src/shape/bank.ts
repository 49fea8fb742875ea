/** The shore near a spot: how far, where, and which way it looks. */
import { bearingOf, distanceM, edgesOf, isInside, nearestOn, towards } from './plane.ts';
import type { Outline, Spot } from './types.ts';

export interface Bank {
  /** From the spot to the shore, m. */
  readonly distanceM: number;
  readonly at: Spot;
  /** Bearing from the land to the water in front of it, degrees: the bank on the north side looks south. */
  readonly facesDeg: number;
}

/** Shore that decides which way a bank looks, m around its nearest spot. */
const AROUND_M = 60;

/** The nearest bank of a spot, on land or water. @throws RangeError for an outline without a shore */
export function nearestBank({ rings }: Pick<Outline, 'rings'>, spot: Spot): Bank {
  let best: { at: Spot; distanceM: number } | undefined;
  const edges = edgesOf(rings);
  for (const edge of edges) {
    const found = nearestOn(edge, spot);
    if (best === undefined || found.distanceM < best.distanceM) best = found;
  }
  if (best === undefined) throw new RangeError('an outline without a shore has no bank');
  let [east, north] = [0, 0];
  for (const edge of edges) {
    const near = nearestOn(edge, best.at).distanceM;
    if (near > AROUND_M) continue;
    const weight = 1 - near / (AROUND_M + 1);
    const length = Math.min(2 * AROUND_M, distanceM(edge[0], edge[1]));
    const full = distanceM(edge[0], edge[1]) || 1;
    // The water lies left of an edge.
    east -= (weight * length * (edge[1][1] - edge[0][1])) / full;
    north += (weight * length * (edge[1][0] - edge[0][0])) / full;
  }
  return { ...best, facesDeg: bearingOf([east, north]) };
}

/** Metres off the shore at which a place on the bank is afloat. */
const OFF_M = 3;

/** A spot in the water: itself, or just off the nearest bank for a place on land. */
export function afloat(outline: Pick<Outline, 'rings'>, spot: Spot): Spot {
  if (isInside(outline.rings, spot)) return spot;
  const { at, facesDeg } = nearestBank(outline, spot);
  for (const off of [OFF_M, 1, 0.3, 0.05]) {
    for (const turn of [0, 30, -30, 60, -60, 90, -90, 135, -135, 180]) {
      const [east, north] = towards(facesDeg + turn);
      const tried: Spot = [at[0] + off * east, at[1] + off * north];
      if (isInside(outline.rings, tried)) return tried;
    }
  }
  return at;
}
