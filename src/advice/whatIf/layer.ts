import type { Thermocline } from '../../science/index.ts';
import { layerEstimate, type Conditions } from '../../signals/index.ts';
import type { WaterBody } from '../../vocabulary/index.ts';

/**
 * A middling water of each kind, for who gives none of its size: mean depth, m, and area, km2, with the factor by which
 * the latter may be off either way. Running water is not layered. Common practice, no source.
 */
const MIDDLING: Partial<Record<WaterBody, { readonly meanDepthM: number; readonly areaKm2: number }>> = {
  'highland-reservoir': { meanDepthM: 12, areaKm2: 25 },
  'hill-land-reservoir': { meanDepthM: 7, areaKm2: 25 },
  'natural-lake': { meanDepthM: 7, areaKm2: 2 },
  pond: { meanDepthM: 2.5, areaKm2: 0.03 },
};
const AREA_OFF_TIMES = 8;
/** A bottom with this much oxygen lies below no layer, mg/L (common practice, no source). */
const MIXED_MGL = 5;

/**
 * Where warm and cold water likely meet on a written day whose form does not say it, as a morning estimates it: from the
 * kind of water and the open water along the wind where that is given, in summer warmth alone.
 *
 * @returns null where the water runs, is too cool for it, or has oxygen at the bottom
 */
export function likelyLayer({ waterBody, signals }: Conditions): Thermocline | null {
  const lake = MIDDLING[waterBody];
  const oxygen = signals.bottomOxygenMgL?.value;
  if (lake === undefined || (oxygen !== undefined && oxygen >= MIXED_MGL)) return null;
  const of = (areaKm2: number): Thermocline | null =>
    layerEstimate(
      {
        waterBody,
        ...lake,
        areaKm2,
        ...(signals.fetchM === undefined ? {} : { fetchM: signals.fetchM.value }),
      },
      signals.waterC?.value,
    );
  const middle = of(lake.areaKm2);
  if (middle === null || signals.fetchM !== undefined) return middle;
  const [small, large] = [of(lake.areaKm2 / AREA_OFF_TIMES), of(lake.areaKm2 * AREA_OFF_TIMES)];
  return {
    depthM: middle.depthM,
    lowM: small?.lowM ?? middle.lowM,
    highM: large?.highM ?? middle.highM,
  };
}
