/** Where a stretch is cut for its light, and what is left that cannot be. */
export interface LightCuts {
  readonly cuts: readonly number[];
  /** Hours that are fished with the lure of another light, since they are too few for a block of their own. */
  readonly missedH: number;
}

/** The turns of the light within a stretch that leave a block on either side: there it is cut in two. */
export function cutsIn(
  turns: readonly number[],
  { from, to }: { readonly from: number; readonly to: number },
  hoursBetween: (from: number, to: number) => number,
  leastH: number,
): LightCuts {
  const cuts: number[] = [];
  let [last, missedH] = [from, 0];
  for (const at of turns) {
    if (at <= from || at >= to) continue;
    const shorter = Math.min(hoursBetween(last, at), hoursBetween(at, to));
    if (shorter < leastH - 1e-9) missedH += shorter;
    else {
      cuts.push(at);
      last = at;
    }
  }
  return { cuts, missedH };
}
