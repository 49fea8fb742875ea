import { afloat } from './bank.ts';
import { bearingOf, flatOf, towards } from './plane.ts';
import type { Outline, Spot } from './types.ts';

/** Directions in which fetch is measured: every 10 degrees, from north with the sun. */
export const DIRECTIONS = 36;
const STEP_DEG = 360 / DIRECTIONS;

/** A shore that a spot lies on is not ahead of it, m. */
const TOUCH_M = 1e-9;

/** Open water upwind and downwind of a spot in the water, m to the first shore either way; 0 where there is none. */
export type BothWays = (spot: Spot) => readonly [upwindM: number, downwindM: number];

/**
 * Straight lines of open water along one wind, for many spots: the shores are turned into it once.
 *
 * @param fromDeg where the wind comes from, degrees clockwise from north
 * @see U.S. Army Corps of Engineers, Coastal Engineering Manual, EM 1110-2-1100, part II chapter 2: fetches are straight
 *   lines along the wind, not means over a fan
 */
export function bothWaysAlong({ rings }: Pick<Outline, 'rings'>, fromDeg: number): BothWays {
  const [east, north] = towards(fromDeg);
  const flat = flatOf(rings);
  /** Ends of the edges by how far they lie along the wind and across it. */
  const along = new Float64Array(flat.length / 2);
  const across = new Float64Array(flat.length / 2);
  for (let i = 0; i < along.length; i += 1) {
    const [x, y] = [flat[2 * i] ?? NaN, flat[2 * i + 1] ?? NaN];
    along[i] = x * east + y * north;
    across[i] = x * north - y * east;
  }
  return ([x, y]) => {
    const [here, line] = [x * east + y * north, x * north - y * east];
    let [up, down] = [Infinity, -Infinity];
    for (let i = 0; i < across.length; i += 2) {
      // Only an edge that crosses the line of the wind can end it.
      const a = (across[i] ?? NaN) - line;
      const b = (across[i + 1] ?? NaN) - line;
      if (a > 0 === b > 0) continue;
      const from = along[i] ?? NaN;
      const far = from + (a / (a - b)) * ((along[i + 1] ?? NaN) - from) - here;
      if (far > TOUCH_M && far < up) up = far;
      else if (far < -TOUCH_M && far > down) down = far;
    }
    return [Number.isFinite(up) ? up : 0, Number.isFinite(down) ? -down : 0];
  };
}

/** Directions of the 36, as their easting and northing. */
const SINES = Float64Array.from({ length: DIRECTIONS }, (_, i) => towards(i * STEP_DEG)[0]);
const COSINES = Float64Array.from({ length: DIRECTIONS }, (_, i) => towards(i * STEP_DEG)[1]);
/** So that rounding loses no direction, in steps. */
const MARGIN = 1e-6;

/** Bearing of a step, in steps of the 36 directions, -18 to 18. */
const turnOf = (east: number, north: number): number =>
  (Math.atan2(east, north) / (2 * Math.PI)) * DIRECTIONS;

/**
 * How far along a direction an edge is met, from the origin, m; NaN where the direction passes it.
 *
 * @param dx easting of the direction, a unit step
 */
function meets(ax: number, ay: number, bx: number, by: number, dx: number, dy: number): number {
  // Heights of both ends above the line of the wind; only an edge that crosses it can end it.
  const ha = ax * dy - ay * dx;
  const hb = bx * dy - by * dx;
  if (ha > 0 === hb > 0) return NaN;
  const t = ha / (ha - hb);
  return (ax + t * (bx - ax)) * dx + (ay + t * (by - ay)) * dy;
}

/** Fetch of a spot in 36 directions, m, from north with the sun. */
export function fetchesM(outline: Pick<Outline, 'rings'>, spot: Spot): number[] {
  const [x, y] = afloat(outline, spot);
  const flat = flatOf(outline.rings);
  const least = new Float64Array(DIRECTIONS).fill(Infinity);
  let [lastX, lastY, lastTurn] = [NaN, NaN, 0];
  for (let i = 0; i < flat.length; i += 4) {
    const ax = (flat[i] ?? 0) - x;
    const ay = (flat[i + 1] ?? 0) - y;
    const bx = (flat[i + 2] ?? 0) - x;
    const by = (flat[i + 3] ?? 0) - y;
    // Only directions between those of its two ends can meet an edge: most edges are met by none.
    const turnA = ax === lastX && ay === lastY ? lastTurn : turnOf(ax, ay);
    const turnB = turnOf(bx, by);
    lastX = bx;
    lastY = by;
    lastTurn = turnB;
    const gap = turnB - turnA;
    const between = gap - DIRECTIONS * Math.round(gap / DIRECTIONS);
    // Seen from a spot close beside it, an edge fills half of the horizon, and its ends tell little.
    const isClose = Math.abs(between) > 0.45 * DIRECTIONS;
    const from = isClose ? 0 : Math.ceil(Math.min(turnA, turnA + between) - MARGIN);
    const to = isClose ? DIRECTIONS - 1 : Math.floor(Math.max(turnA, turnA + between) + MARGIN);
    for (let n = from; n <= to; n += 1) {
      const at = (n + 2 * DIRECTIONS) % DIRECTIONS;
      const far = meets(ax, ay, bx, by, SINES[at] ?? 0, COSINES[at] ?? 0);
      if (far > 0 && far < (least[at] ?? 0)) least[at] = far;
    }
  }
  return Array.from(least, (far) => (Number.isFinite(far) ? far : 0));
}

/** Fetch of the direction nearest to the wind's, m. */
export const fetchOf = (fetches: readonly number[], fromDeg: number): number =>
  fetches[Math.round((((fromDeg % 360) + 360) % 360) / STEP_DEG) % DIRECTIONS] ?? 0;

/** The side to which a spot is open: the mean of its fetches as steps; null where it is open to all sides alike. */
export function opensDeg(fetches: readonly number[]): number | null {
  let [east, north, all] = [0, 0, 0];
  for (const [i, fetch] of fetches.entries()) {
    const [e, n] = towards(i * STEP_DEG);
    east += fetch * e;
    north += fetch * n;
    all += fetch;
  }
  return Math.hypot(east, north) < 0.15 * all ? null : bearingOf([east, north]);
}
