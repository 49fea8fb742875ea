/**
 * Shores with fewer points. Our own, since the library that was tried cuts at a tolerance and may leave shores that
 * cross: here the number of points is given, and a point goes back in wherever its loss would make two shores cross.
 */
import { crossingsOf } from './crossing.ts';
import { isInside, ringAreaM2 } from './plane.ts';
import type { Ring, Spot } from './types.ts';

/** Distance of a point from a stretch, m. */
function offM([ax, ay]: Spot, [bx, by]: Spot, [x, y]: Spot): number {
  const dx = bx - ax;
  const dy = by - ay;
  const length2 = dx * dx + dy * dy;
  const t = length2 === 0 ? 0 : Math.min(1, Math.max(0, ((x - ax) * dx + (y - ay) * dy) / length2));
  return Math.hypot(x - ax - t * dx, y - ay - t * dy);
}

/**
 * How far each point lies from the line that would stand without it, m.
 *
 * @see Douglas and Peucker (1973), Cartographica 10, 112: a point is as important as the deviation at which it is kept,
 *   and never more than the one whose line it belongs to
 */
function weights(ring: Ring): Float64Array {
  const found = new Float64Array(ring.length);
  const [first] = ring;
  if (first === undefined) return found;
  let far = 0;
  let most = -1;
  for (const [i, spot] of ring.entries()) {
    const away = Math.hypot(spot[0] - first[0], spot[1] - first[1]);
    if (away > most) [far, most] = [i, away];
  }
  found[0] = found[far] = Infinity;
  const stack: [number, number, number][] = [
    [0, far, Infinity],
    [far, ring.length, Infinity],
  ];
  for (let span = stack.pop(); span !== undefined; span = stack.pop()) {
    const [from, to, above] = span;
    const [a, b] = [ring[from], ring[to % ring.length]];
    if (a === undefined || b === undefined || to - from < 2) continue;
    let [at, off] = [from + 1, -1];
    for (let i = from + 1; i < to; i += 1) {
      const spot = ring[i];
      const away = spot === undefined ? 0 : offM(a, b, spot);
      if (away > off) {
        at = i;
        off = away;
      }
    }
    const weight = Math.min(above, off);
    found[at] = weight;
    stack.push([from, at, weight], [at, to, weight]);
  }
  return found;
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
  const kept = weighed.map((row) => [...row.keys()].filter((i) => (row[i] ?? 0) >= least));
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
