/** Ways by water between the lake's own places, for the plan's cost of moving. */
import type { AdviceOptions } from '../advice/index.ts';
import type { LakeConfig } from '../config/index.ts';

/** 20 mph: a bass boat on plane in moderate water (common practice, no source). */
const USUAL_BOAT_MS = 8.94;

export function waysOf({ shape, boatMs }: LakeConfig): Pick<AdviceOptions, 'ways'> {
  if (shape === undefined) return {};
  const at = (wanted: string): number => shape.places.findIndex(({ name }) => name === wanted);
  return {
    ways: {
      boatMs: boatMs ?? USUAL_BOAT_MS,
      wayM: (from, to) => shape.waysM[at(from)]?.[at(to)] ?? undefined,
    },
  };
}
