/**
 * A cove: what the outline of a lake shows of a pocket, before anything is known of its inflow. Where it opens, how wide,
 * and how much water lies behind its mouth.
 */
import { afloat } from './bank.ts';
import { bothWaysAlong } from './fetch.ts';
import { towards } from './plane.ts';
import type { Outline, Spot } from './types.ts';

/** Cuts across the pocket, from its back to where its open water ends. */
const CUTS = 120;
/** A cut that is this much wider than the one before, in m and in times of it, lies on the lake (common practice, no source). */
const OPENS_M = 25;
const OPENS_TIMES = 1.5;
/** A cut closer than this to the end of the open water has no lake behind it, as a share of the axis. */
const END_SHARE = 0.97;

/** The two numbers that a configured pocket may take from the outline. */
export interface Cove {
  readonly mouthWidthM: number;
  readonly areaM2: number;
}

/**
 * The pocket around a spot: cuts across its axis from the back towards open water, up to the first that is suddenly much
 * wider. A pocket that winds has no straight axis and is not found.
 *
 * @param spot     in the pocket, m; on land it is taken just off the nearest bank
 * @param facesDeg bearing to which it is open
 * @returns null where no mouth is found before the open water ends
 */
export function coveOf(outline: Pick<Outline, 'rings'>, spot: Spot, facesDeg: number): Cove | null {
  const middle = afloat(outline, spot);
  const [ahead, behind] = bothWaysAlong(outline, facesDeg)(middle);
  if (ahead + behind <= 0) return null;
  const [east, north] = towards(facesDeg);
  const step = (ahead + behind) / CUTS;
  const across = bothWaysAlong(outline, facesDeg + 90);
  let areaM2 = 0;
  let before: number | undefined;
  for (let n = 0; n < CUTS; n += 1) {
    const far = -behind + (n + 0.5) * step;
    const at: Spot = [middle[0] + far * east, middle[1] + far * north];
    // Between the shores before and behind the spot, hence in the water.
    const [right, left] = across(at);
    const width = right + left;
    if (far > 0 && before !== undefined && width - before > OPENS_M && width > OPENS_TIMES * before)
      return far < END_SHARE * ahead ? { mouthWidthM: before, areaM2 } : null;
    areaM2 += width * step;
    before = width;
  }
  return null;
}
