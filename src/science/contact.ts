export interface ContactCast {
  /** Greatest depth the lure reaches on this cast, m. */
  readonly runningDepthM: number;
  /** Depth gained per metre of retrieve while it dives freely. */
  readonly diveSlope: number;
  /** Length in front of the boat over which the line pulls the lure up again, m. */
  readonly riseLengthM: number;
  readonly castLengthM: number;
  /** Depth under the boat and where the lure lands, m. */
  readonly boatDepthM: number;
  readonly castDepthM: number;
}

export interface Contact {
  /** Share of the retrieve on the bottom, 0 to 1. */
  readonly share: number;
  /** Metres from the landing point where contact begins and ends; null when there is none. */
  readonly fromM: number | null;
  readonly toM: number | null;
}

const NEVER: Contact = { share: 0, fromM: null, toM: null };

/**
 * Where a diving lure touches a planar bottom on the way back: free dive until it meets the bottom, contact until the
 * bottom drops below its reach or the line lifts it near the boat. The bank's steepness does not enter: it only sets
 * the angle of the cast (see `castAngleDeg`).
 *
 * @param cast lengths in m, positive; depths in m, not negative; boat at least as deep as the landing point
 * @returns share and limits of bottom contact
 * @throws RangeError for lengths or slopes that are not positive
 * @see closed form of the planar geometry; agrees with stepping along the retrieve
 * @example // 1.83-m lure, 22.9-m cast from 2.29 m to 0.76 m: 0.45 of the retrieve
 */
export function bottomContact(cast: ContactCast): Contact {
  const { runningDepthM: reach, diveSlope, riseLengthM, castLengthM: length, boatDepthM, castDepthM } = cast;
  if (!(reach > 0 && diveSlope > 0 && riseLengthM > 0 && length > 0 && castDepthM >= 0)) {
    throw new RangeError('contact needs positive lengths and slopes and a landing depth of 0 or more');
  }
  const bottomSlope = (boatDepthM - castDepthM) / length;
  if (diveSlope <= bottomSlope) return NEVER;
  const fromM = castDepthM / (diveSlope - bottomSlope);
  // Beyond this point the bottom is deeper than the lure runs; a level bottom within reach never gets there.
  const outOfReachM = bottomSlope > 0 ? (reach - castDepthM) / bottomSlope : castDepthM <= reach ? length : 0;
  const liftSlope = reach / riseLengthM;
  const liftedM = (liftSlope * length - castDepthM) / (liftSlope + bottomSlope);
  const toM = Math.min(outOfReachM, liftedM, length);
  return toM > fromM ? { share: (toM - fromM) / length, fromM, toM } : NEVER;
}

/**
 * Angle between the cast and the shoreline that lays the lure from the boat's depth to the landing depth.
 *
 * @param bankDeg     steepness of the bank, degrees from the horizontal, above 0 and below 90
 * @param castLengthM length of the cast, m, positive
 * @param dropM       boat depth minus landing depth, m, not negative
 * @returns degrees, 0 parallel to the bank, 90 straight at it; null when the bank is too flat for that drop
 * @throws RangeError outside the stated ranges
 * @see asin(drop / (tan(bank) x length))
 * @example castAngleDeg(30, 22.86, 1.676) // 7.3
 */
export function castAngleDeg(bankDeg: number, castLengthM: number, dropM: number): number | null {
  if (!(bankDeg > 0 && bankDeg < 90 && castLengthM > 0 && dropM >= 0)) {
    throw new RangeError(
      'a cast angle needs a bank between 0 and 90 degrees, a cast and a drop of 0 or more',
    );
  }
  const sine = dropM / (Math.tan((bankDeg * Math.PI) / 180) * castLengthM);
  // A drop that just fills the slope may overshoot 1 by rounding.
  return sine > 1 + 1e-9 ? null : (Math.asin(Math.min(1, sine)) * 180) / Math.PI;
}
