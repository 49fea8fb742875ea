/** Fish are met a little into the layer, three feet; depths are told a foot above the limit (common practice, no source). */
const INTO_LAYER_M = 0.9144;
const ABOVE_LIMIT_M = 0.3048;

/**
 * Depth that no lure and no place goes below, m.
 *
 * @param known depth at which the oxygen ends and depth of the layer, m; left out where not known
 * @returns undefined where neither is known
 */
export function depthLimitM(known: {
  readonly oxygenM?: number | undefined;
  readonly layerM?: number | undefined;
}): number | undefined {
  const { oxygenM, layerM } = known;
  const limits = [
    ...(oxygenM === undefined ? [] : [oxygenM]),
    ...(layerM === undefined ? [] : [layerM + INTO_LAYER_M]),
  ];
  return limits.length === 0 ? undefined : Math.max(ABOVE_LIMIT_M * 2, Math.min(...limits) - ABOVE_LIMIT_M);
}

/** A place needs this much water above the limit to hold fish that a lure can reach, m. */
const LEAST_BAND_M = 0.3;

/** Whether a place begins above the limit: below it there is no water with oxygen. */
export const beginsAbove = (
  { depthM }: { readonly depthM: readonly [number, number] },
  limitM: number | undefined,
): boolean => limitM === undefined || depthM[0] <= limitM - LEAST_BAND_M;

/** A band of depths cut at the limit. */
export function cutAt(
  [top, bottom]: readonly [number, number],
  limitM: number | undefined,
): readonly [number, number] {
  if (limitM === undefined || bottom <= limitM) return [top, bottom];
  const to = Math.floor(limitM * 10) / 10;
  return [Math.min(top, Math.round((to - LEAST_BAND_M) * 10) / 10), to];
}
