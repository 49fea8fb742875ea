import Flatbush from 'flatbush';
import { flatOf, side } from './plane.ts';
import type { Ring, Spot } from './types.ts';

/** Edges that share a box of the index: neighbours along the shore lie together, and a box each costs more than it saves. */
const RUN = 8;

/**
 * Edges that cross another one, by their index among all edges; none where the shores only touch. An index of boxes
 * keeps a hundred thousand edges within a part of a second.
 *
 * @param most crossings after which it stops looking
 */
export function crossingsOf(rings: readonly Ring[], most = Infinity): [number, number][] {
  const flat = flatOf(rings);
  const count = flat.length / 4;
  const pairs: [number, number][] = [];
  if (count === 0) return pairs;
  const runs = Math.ceil(count / RUN);
  const boxes = new Flatbush(runs);
  const bounds = new Float64Array(4 * runs);
  for (let run = 0; run < runs; run += 1) {
    let [west, south, east, north] = [Infinity, Infinity, -Infinity, -Infinity];
    const end = Math.min(flat.length, 4 * RUN * (run + 1));
    for (let i = 4 * RUN * run; i < end; i += 2) {
      const x = flat[i] ?? NaN;
      const y = flat[i + 1] ?? NaN;
      if (x < west) west = x;
      if (x > east) east = x;
      if (y < south) south = y;
      if (y > north) north = y;
    }
    bounds.set([west, south, east, north], 4 * run);
    boxes.add(west, south, east, north);
  }
  boxes.finish();
  for (let run = 0; run < runs && pairs.length < most; run += 1) {
    const found: [number, number][] = [];
    const at = 4 * run;
    boxes.search(bounds[at] ?? 0, bounds[at + 1] ?? 0, bounds[at + 2] ?? 0, bounds[at + 3] ?? 0, (other) => {
      if (other >= run) between(flat, run, other, found);
      return false;
    });
    found.sort((p, q) => p[0] - q[0] || p[1] - q[1]);
    for (const pair of found) pairs.push(pair);
  }
  return pairs;
}

/** Crossings of the edges of one run with later ones of another or the same. */
function between(flat: Float64Array, run: number, other: number, found: [number, number][]): void {
  const count = flat.length / 4;
  const [end, otherEnd] = [Math.min(count, RUN * (run + 1)), Math.min(count, RUN * (other + 1))];
  for (let i = RUN * run; i < end; i += 1) {
    const ax = flat[4 * i] ?? 0;
    const ay = flat[4 * i + 1] ?? 0;
    const bx = flat[4 * i + 2] ?? 0;
    const by = flat[4 * i + 3] ?? 0;
    const [west, east, south, north] = [
      Math.min(ax, bx),
      Math.max(ax, bx),
      Math.min(ay, by),
      Math.max(ay, by),
    ];
    for (let j = Math.max(i + 1, RUN * other); j < otherEnd; j += 1) {
      const cx = flat[4 * j] ?? 0;
      const cy = flat[4 * j + 1] ?? 0;
      const dx = flat[4 * j + 2] ?? 0;
      const dy = flat[4 * j + 3] ?? 0;
      if ((cx > east && dx > east) || (cx < west && dx < west)) continue;
      if ((cy > north && dy > north) || (cy < south && dy < south)) continue;
      // As `crosses`, without four pairs of numbers for every two neighbours.
      const ofC = (bx - ax) * (cy - ay) - (by - ay) * (cx - ax);
      const ofD = (bx - ax) * (dy - ay) - (by - ay) * (dx - ax);
      if (!(ofC * ofD < 0)) continue;
      const ofA = (dx - cx) * (ay - cy) - (dy - cy) * (ax - cx);
      const ofB = (dx - cx) * (by - cy) - (dy - cy) * (bx - cx);
      if (ofA * ofB < 0) found.push([i, j]);
    }
  }
}

/** Where a shore crosses itself or another one; null where none does. */
export function crossingOf(rings: readonly Ring[]): Spot | null {
  const [pair] = crossingsOf(rings, 1);
  if (pair === undefined) return null;
  const flat = flatOf(rings);
  return [flat[4 * pair[0]] ?? NaN, flat[4 * pair[0] + 1] ?? NaN];
}

/** Whether two lines cross inside both. */
export function crosses(a: Spot, b: Spot, c: Spot, d: Spot): boolean {
  return side(a, b, c) * side(a, b, d) < 0 && side(c, d, a) * side(c, d, b) < 0;
}
