/** The lake as a plane figure: metres east and north of an origin, water always left of an edge. */

/** Metres east and north of the origin. */
export type Spot = readonly [eastM: number, northM: number];

/** A closed line without its last point again. */
export type Ring = readonly Spot[];

export interface Outline {
  readonly latDeg: number;
  readonly lonDeg: number;
  /** Shores counter-clockwise, islands clockwise: the water lies left of every edge. */
  readonly rings: readonly Ring[];
  /** Of the water without its islands, as read, m2. */
  readonly areaM2: number;
  /** Points read, and those kept after simplification. */
  readonly pointsRead: number;
  readonly pointsKept: number;
}

/** Something wrong with an outline: what was found and how to mend it, one sentence each. */
export class ShapeError extends Error {
  override readonly name = 'ShapeError';
}
