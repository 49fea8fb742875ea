/** Ways by water between the lake's own places, for the plan's cost of moving. */
import type { AdviceOptions } from '../advice/index.ts';
import type { LakeConfig, LakeShape } from '../config/types.ts';
import { wayBetween } from '../shape/index.ts';

/** 20 mph: a bass boat on plane in moderate water (common practice, no source). */
const USUAL_BOAT_MS = 8.94;

/** Ways that were found, by the shape they lie in. */
const FOUND = new WeakMap<LakeShape, Map<string, number | undefined>>();

export function waysOf({ shape, boatMs }: LakeConfig): Pick<AdviceOptions, 'ways'> {
  if (shape === undefined) return {};
  const kept = FOUND.get(shape) ?? new Map<string, number | undefined>();
  FOUND.set(shape, kept);
  return {
    ways: {
      boatMs: boatMs ?? USUAL_BOAT_MS,
      wayM: (from, to) => {
        const key = JSON.stringify([from, to].sort());
        if (!kept.has(key)) kept.set(key, wayM(shape, from, to));
        return kept.get(key);
      },
    },
  };
}

function wayM({ outline, places }: LakeShape, from: string, to: string): number | undefined {
  const spot = (name: string) => places.find((place) => place.name === name)?.at;
  const [a, b] = [spot(from), spot(to)];
  if (a === undefined || b === undefined) return undefined;
  return wayBetween(outline, a, b)?.distanceM;
}
