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
