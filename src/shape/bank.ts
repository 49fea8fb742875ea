/** The shore near a spot: how far, where, and which way it looks. */
import { bearingOf, distanceM, flatOf, isInside, nearestOn, towards, type Edge } from './plane.ts';
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
  const flat = flatOf(rings);
  let [best, least2] = [-1, Infinity];
  for (let i = 0; i < flat.length; i += 4) {
    const away2 = away2M(flat, i, spot);
    if (away2 < least2) [best, least2] = [i, away2];
  }
  if (best < 0) throw new RangeError('an outline without a shore has no bank');
  const at = nearestOn(edgeAt(flat, best), spot);
  let [east, north] = [0, 0];
  for (let i = 0; i < flat.length; i += 4) {
    if (away2M(flat, i, at.at) > AROUND_M ** 2) continue;
    const [from, to] = edgeAt(flat, i);
    const near = nearestOn([from, to], at.at).distanceM;
    const weight = 1 - near / (AROUND_M + 1);
    const length = Math.min(2 * AROUND_M, distanceM(from, to));
    const full = distanceM(from, to) || 1;
    // The water lies left of an edge.
    east -= (weight * length * (to[1] - from[1])) / full;
    north += (weight * length * (to[0] - from[0])) / full;
  }
  return { ...at, facesDeg: bearingOf([east, north]) };
}

const edgeAt = (flat: Float64Array, i: number): Edge => [
  [flat[i] ?? NaN, flat[i + 1] ?? NaN],
  [flat[i + 2] ?? NaN, flat[i + 3] ?? NaN],
];

/** Square of the distance to an edge, m2: the shores of a lake are asked thousands of times, without an object each. */
function away2M(flat: Float64Array, i: number, spot: Spot): number {
  const ax = flat[i] ?? NaN;
  const ay = flat[i + 1] ?? NaN;
  const dx = (flat[i + 2] ?? NaN) - ax;
  const dy = (flat[i + 3] ?? NaN) - ay;
  const px = spot[0] - ax;
  const py = spot[1] - ay;
  const length2 = dx * dx + dy * dy;
  let t = length2 === 0 ? 0 : (px * dx + py * dy) / length2;
  if (t < 0) t = 0;
  else if (t > 1) t = 1;
  const ex = px - t * dx;
  const ey = py - t * dy;
  return ex * ex + ey * ey;
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
