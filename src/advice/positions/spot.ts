/** A real place of the lake: its kind, and what else it is at once. */
export interface OwnPoint {
  readonly name: string;
  readonly place: string;
  readonly also?: readonly string[];
  readonly bankDeg?: number;
}

export const kindsOfPoint = ({ place, also = [] }: OwnPoint): string[] => [...new Set([place, ...also])];

/**
 * Points of one spot that is several kinds of place at once, wood in a pocket for example: their mean. Who fishes a spot
 * fishes all of it, so the best kind on it does not count for the whole; on sampled sites the mean ordered catches of
 * years left out better than the best kind did (`bench/fish-fit.ts`).
 *
 * @param totals points of the kinds of place that the spot is; at least one
 */
export const spotTotal = (totals: readonly number[]): number =>
  totals.reduce((sum, total) => sum + total, 0) / totals.length;

/**
 * The best of the lake's own places of a kind, judged by all that each of them is; of equals the first.
 *
 * @param totalOf points of a kind of place, or nothing where it is not ranked
 */
export function bestPoint(
  points: readonly OwnPoint[],
  kind: string,
  totalOf: (kind: string) => number | undefined,
): OwnPoint | undefined {
  let best: { readonly point: OwnPoint; readonly total: number } | undefined;
  for (const point of points) {
    const kinds = kindsOfPoint(point);
    if (!kinds.includes(kind)) continue;
    const total = spotTotal(kinds.flatMap((own) => totalOf(own) ?? []));
    if (best === undefined || total > best.total) best = { point, total };
  }
  return best?.point;
}
