/** Geometry of the plane that the rest of the room stands on. Metres, bearings in degrees clockwise from north. */
import type { Outline, Ring, Spot } from './types.ts';

const RAD = Math.PI / 180;

/** Metres of a degree of latitude on a sphere of the mean radius of GRS80 (6 371 008.8 m). */
const DEGREE_M = RAD * 6_371_008.8;

/** A position as metres from the origin of an outline; a lake is small enough for a plane (0.1 % at 100 km). */
export function spotOf(origin: Pick<Outline, 'latDeg' | 'lonDeg'>, latDeg: number, lonDeg: number): Spot {
  return [
    (lonDeg - origin.lonDeg) * DEGREE_M * Math.cos(origin.latDeg * RAD),
    (latDeg - origin.latDeg) * DEGREE_M,
  ];
}

export const distanceM = (a: Spot, b: Spot): number => Math.hypot(b[0] - a[0], b[1] - a[1]);

/** Unit step towards a bearing. */
export const towards = (deg: number): Spot => [Math.sin(deg * RAD), Math.cos(deg * RAD)];

/** Bearing of a step, 0 to 360. */
export const bearingOf = ([east, north]: Spot): number => (Math.atan2(east, north) / RAD + 360) % 360;

/** Twice the signed area of a triangle: positive where c lies left of a to b. */
export const side = (a: Spot, b: Spot, c: Spot): number =>
  (b[0] - a[0]) * (c[1] - a[1]) - (b[1] - a[1]) * (c[0] - a[0]);

/** Signed area, m2: positive counter-clockwise. */
export function ringAreaM2(ring: Ring): number {
  let twice = 0;
  let before = ring.at(-1);
  for (let i = 0; i < ring.length; i += 1) {
    const spot = ring[i];
    if (before !== undefined && spot !== undefined) twice += before[0] * spot[1] - spot[0] * before[1];
    before = spot;
  }
  return twice / 2;
}

/** An edge of the shore; water lies to its left. */
export type Edge = readonly [Spot, Spot];

const EDGES = new WeakMap<readonly Ring[], readonly Edge[]>();

/** Every edge of all rings, made once for each outline. */
export function edgesOf(rings: readonly Ring[]): readonly Edge[] {
  const kept = EDGES.get(rings);
  if (kept !== undefined) return kept;
  const edges = rings.flatMap((ring) =>
    ring.map((spot, i): Edge => [spot, ring[(i + 1) % ring.length] ?? spot]),
  );
  EDGES.set(rings, edges);
  return edges;
}

const FLAT = new WeakMap<readonly Ring[], Float64Array>();

/** Ends of all edges in one row of numbers, four for each, in the order of {@link edgesOf}; made once for each outline. */
export function flatOf(rings: readonly Ring[]): Float64Array {
  const kept = FLAT.get(rings);
  if (kept !== undefined) return kept;
  const flat = new Float64Array(4 * rings.reduce((sum, ring) => sum + ring.length, 0));
  let at = 0;
  for (const ring of rings) {
    for (let i = 0; i < ring.length; i += 1) {
      const a = ring[i];
      const b = ring[i + 1 < ring.length ? i + 1 : 0];
      flat[at] = a?.[0] ?? NaN;
      flat[at + 1] = a?.[1] ?? NaN;
      flat[at + 2] = b?.[0] ?? NaN;
      flat[at + 3] = b?.[1] ?? NaN;
      at += 4;
    }
  }
  FLAT.set(rings, flat);
  return flat;
}

/** Whether a spot lies in the water (even number of shores to the east: on land). */
export function isInside(rings: readonly Ring[], [x, y]: Spot): boolean {
  const flat = flatOf(rings);
  let inside = false;
  for (let i = 0; i < flat.length; i += 4) {
    const ay = flat[i + 1] ?? 0;
    const by = flat[i + 3] ?? 0;
    if (ay > y === by > y) continue;
    const ax = flat[i] ?? 0;
    if (x < (((flat[i + 2] ?? 0) - ax) * (y - ay)) / (by - ay) + ax) inside = !inside;
  }
  return inside;
}

/** Nearest spot of an edge, and how far it is. */
export function nearestOn([a, b]: Edge, spot: Spot): { readonly at: Spot; readonly distanceM: number } {
  const [dx, dy] = [b[0] - a[0], b[1] - a[1]];
  const length2 = dx * dx + dy * dy;
  const t =
    length2 === 0 ? 0 : Math.min(1, Math.max(0, ((spot[0] - a[0]) * dx + (spot[1] - a[1]) * dy) / length2));
  const at: Spot = [a[0] + t * dx, a[1] + t * dy];
  return { at, distanceM: distanceM(at, spot) };
}
