import Flatbush from 'flatbush';
import { edgesOf, side } from './plane.ts';
import type { Ring, Spot } from './types.ts';

/**
 * Edges that cross another one, by their index among all edges; none where the shores only touch. An index of boxes
 * keeps a hundred thousand edges within a part of a second.
 *
 * @param most crossings after which it stops looking
 */
export function crossingsOf(rings: readonly Ring[], most = Infinity): [number, number][] {
  const edges = edgesOf(rings);
  const pairs: [number, number][] = [];
  if (edges.length === 0) return pairs;
  const boxes = new Flatbush(edges.length);
  for (const [a, b] of edges)
    boxes.add(Math.min(a[0], b[0]), Math.min(a[1], b[1]), Math.max(a[0], b[0]), Math.max(a[1], b[1]));
  boxes.finish();
  for (const [i, [a, b]] of edges.entries()) {
    boxes.search(
      Math.min(a[0], b[0]),
      Math.min(a[1], b[1]),
      Math.max(a[0], b[0]),
      Math.max(a[1], b[1]),
      (j) => {
        const other = j > i ? edges[j] : undefined;
        if (other !== undefined && crosses(a, b, other[0], other[1])) pairs.push([i, j]);
        return false;
      },
    );
    if (pairs.length >= most) break;
  }
  return pairs;
}

/** Where a shore crosses itself or another one; null where none does. */
export function crossingOf(rings: readonly Ring[]): Spot | null {
  const [pair] = crossingsOf(rings, 1);
  return pair === undefined ? null : (edgesOf(rings)[pair[0]]?.[0] ?? null);
}

/** Whether two lines cross inside both. */
export function crosses(a: Spot, b: Spot, c: Spot, d: Spot): boolean {
  return side(a, b, c) * side(a, b, d) < 0 && side(c, d, a) * side(c, d, b) < 0;
}
