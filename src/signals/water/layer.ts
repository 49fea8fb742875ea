/** Where warm and cold water meet, estimated for a lake whose configuration does not say it. */
import type { LakeConfig } from '../../config/index.ts';
import { thermoclineM, type Thermocline } from '../../science/index.ts';
import type { WaterBody } from '../types.ts';

/** Surface from which a lake of some depth is layered: summer and early fall, degC (common practice, no source). */
const LAYERED_C = 24;
/** Shallower lakes are stirred to the bottom, m of mean depth; ponds lie sheltered. Common practice, no source. */
const LEAST_DEPTH_M = 5;
const LEAST_POND_M = 2;
/** A lake is about twice as deep as in the mean; the layer needs water below it. Common practice, no source. */
const DEEPEST_OF_MEAN = 2;
/** Longest open water by the root of the area, and how far that is off either way. Common practice, no source. */
const LENGTH_OF_AREA = 1.5;
const LENGTH_OFF = 1.35;
const SHORTEST_M = 50;
const LONGEST_M = 300_000;

const RUNNING: readonly WaterBody[] = ['tailwater', 'run-of-river'];

/** What of a lake its layering is told by. */
export type Layered = Pick<
  LakeConfig,
  'waterBody' | 'meanDepthM' | 'areaKm2' | 'fetchM' | 'layer' | 'oxygenDepthM'
>;

/**
 * @param waterC main lake at the surface, degC; undefined where not known
 * @returns null where the configuration names a layer or a depth of oxygen itself, where the water runs, or where nothing
 *   says that it is layered
 */
export function layerEstimate(lake: Layered, waterC: number | undefined): Thermocline | null {
  const { waterBody, meanDepthM } = lake;
  if (lake.layer !== undefined || lake.oxygenDepthM !== undefined || RUNNING.includes(waterBody)) return null;
  if (waterC === undefined || waterC < LAYERED_C || waterC > 40) return null;
  if (meanDepthM < (waterBody === 'pond' ? LEAST_POND_M : LEAST_DEPTH_M)) return null;
  const found = ofLength(lake, waterC);
  return found.depthM < DEEPEST_OF_MEAN * meanDepthM ? found : null;
}

function ofLength({ fetchM, areaKm2 }: Layered, waterC: number): Thermocline {
  const within = (lengthM: number): number => Math.min(LONGEST_M, Math.max(SHORTEST_M, lengthM));
  if (fetchM !== undefined) return thermoclineM(within(fetchM), waterC);
  const guessM = LENGTH_OF_AREA * Math.sqrt(areaKm2 * 1e6);
  return {
    depthM: thermoclineM(within(guessM), waterC).depthM,
    lowM: thermoclineM(within(guessM / LENGTH_OFF), waterC).lowM,
    highM: thermoclineM(within(guessM * LENGTH_OFF), waterC).highM,
  };
}
