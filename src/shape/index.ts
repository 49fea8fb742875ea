/** The lake as a plane figure: outline, area, fetch, banks, ways by water. Pure. */
export { afloat, nearestBank, type Bank } from './bank.ts';
export { coveOf, type Cove } from './cove.ts';
export { bothWaysAlong, DIRECTIONS, fetchesM, fetchOf, opensDeg } from './fetch.ts';
export { distanceM, edgesOf, isInside, spotOf, towards } from './plane.ts';
export { outlineOf, readOutline } from './read.ts';
export { simplified } from './simplify.ts';
export { ShapeError, type Outline, type Ring, type Spot } from './types.ts';
export { waysBetween, type Way } from './way.ts';
