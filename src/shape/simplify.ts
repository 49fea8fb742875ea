/**
 * Shores with fewer points. Our own, since the library that was tried cuts at a tolerance and may leave shores that
 * cross: here the number of points is given, and a point goes back in wherever its loss would make two shores cross.
 */
import { crossingsOf } from './crossing.ts';
import { flatOf, isInside, ringAreaM2 } from './plane.ts';
import type { Ring } from './types.ts';

/**
 * How far each point lies from the line that would stand without it, m.
 *
 * @see Douglas and Peucker (1973), Cartographica 10, 112: a point is as important as the deviation at which it is kept,
 *   and never more than the one whose line it belongs to
 */
function weights(ring: Ring): Float64Array {
  const found = new Float64Array(ring.length);
  const flat = flatOf([ring]);
  const [x0, y0] = [flat[0] ?? 0, flat[1] ?? 0];
  let [far, most] = [0, -1];
  for (let i = 0; i < ring.length; i += 1) {
    const away = Math.hypot((flat[4 * i] ?? 0) - x0, (flat[4 * i + 1] ?? 0) - y0);
    if (away > most) {
      far = i;
      most = away;
    }
  }
  if (ring.length > 0) found[0] = found[far] = Infinity;
  const stack = [0, far, Infinity, far, ring.length, Infinity];
  while (stack.length > 0) {
    const above = stack.pop() ?? 0;
    const to = stack.pop() ?? 0;
    const from = stack.pop() ?? 0;
    if (to - from < 2) continue;
    const { at, off } = farthest(flat, from, to, to % ring.length);
    const weight = Math.min(above, off);
    found[at] = weight;
    stack.push(from, at, weight, at, to, weight);
  }
  return found;
}

/** The point between two others that lies farthest from their stretch, m. */
function farthest(flat: Float64Array, from: number, to: number, end: number): { at: number; off: number } {
  const ax = flat[4 * from] ?? 0;
  const ay = flat[4 * from + 1] ?? 0;
  const dx = (flat[4 * end] ?? 0) - ax;
  const dy = (flat[4 * end + 1] ?? 0) - ay;
  const length2 = dx * dx + dy * dy;
  let at = from + 1;
  let off2 = -1;
  for (let i = from + 1; i < to; i += 1) {
    const px = (flat[4 * i] ?? 0) - ax;
    const py = (flat[4 * i + 1] ?? 0) - ay;
    let t = length2 === 0 ? 0 : (px * dx + py * dy) / length2;
    if (t < 0) t = 0;
    else if (t > 1) t = 1;
    const ex = px - t * dx;
    const ey = py - t * dy;
    const away2 = ex * ex + ey * ey;
    if (away2 > off2) {
      at = i;
      off2 = away2;
    }
  }
  return { at, off: Math.sqrt(off2) };
}

/**
 * Shores with about so many points: the most important of all rings together, and those that keep shores apart.
 *
 * @param most points that are kept, but for the ones that shores would cross without
 */
export function simplified(rings: readonly Ring[], most: number): readonly Ring[] {
  const count = rings.reduce((sum, ring) => sum + ring.length, 0);
  if (count <= most) return rings;
  const weighed = rings.map(weights);
  const order = new Float64Array(count);
  let filled = 0;
  for (const row of weighed) {
    order.set(row, filled);
    filled += row.length;
  }
  order.sort();
  const least = order[count - most] ?? 0;
  // An island or a bay of which a line is left is gone.
  const kept = weighed.map((row) => atLeast(row, least));
  const shown = kept.map((points) => points.length >= 3);
  const drawn = (): Ring[] =>
    rings.flatMap((ring, r) =>
      shown[r] === true ? [(kept[r] ?? []).flatMap((i) => (ring[i] === undefined ? [] : [ring[i]]))] : [],
    );
  for (;;) {
    const now = drawn();
    const crossing = crossingsOf(now);
    if (crossing.length === 0) return withoutStranded(now);
    const edges = new Set(crossing.flat());
    let [added, at] = [0, 0];
    rings.forEach((ring, r) => {
      const points = kept[r];
      if (shown[r] !== true || points === undefined) return;
      const more = points.flatMap((from, i) => {
        if (!edges.has(at + i)) return [];
        const to = points[i + 1] ?? ring.length;
        const between = heaviest(weighed[r], from, to);
        return between === null ? [] : [between];
      });
      at += points.length;
      added += more.length;
      points.push(...more);
      points.sort((a, b) => a - b);
    });
    if (added === 0) return rings;
  }
}

function atLeast(row: Float64Array, least: number): number[] {
  const found: number[] = [];
  for (let i = 0; i < row.length; i += 1) if ((row[i] ?? 0) >= least) found.push(i);
  return found;
}

function heaviest(weight: Float64Array | undefined, from: number, to: number): number | null {
  let best: number | null = null;
  for (let i = from + 1; i < to; i += 1) {
    if (best === null || (weight?.[i] ?? 0) > (weight?.[best] ?? 0)) best = i;
  }
  return best;
}

/** Without islands that a simpler shore leaves on dry land: they would turn water and land about. */
function withoutStranded(rings: readonly Ring[]): readonly Ring[] {
  const shores = rings.filter((ring) => ringAreaM2(ring) > 0);
  return rings.filter((ring) => ringAreaM2(ring) > 0 || (ring[0] !== undefined && isInside(shores, ring[0])));
}
