import { item } from '../../units/index.ts';
import type { PocketError, PocketOptions } from './types.ts';

/** One way in which the truth may differ from the central run. */
export interface Variation {
  readonly rainPosition: number;
  readonly coolingShift: number;
  readonly curveNumberShift: number;
  readonly mouthFactor: number;
  readonly sunFactor: number;
  readonly depthFactor: number;
  readonly storm: boolean;
  readonly baseFlow: boolean;
}
export const CENTRAL: Variation = {
  rainPosition: 0.5,
  coolingShift: 0,
  curveNumberShift: 0,
  mouthFactor: 1,
  sunFactor: 1,
  depthFactor: 1,
  storm: true,
  baseFlow: true,
};

/** What is not known, from its lower to its upper bound. */
type Doubt = readonly [less: Partial<Variation>, more: Partial<Variation>];

/** What is not known, one thing at a time, each at about its 80 % bounds. Judged, not fitted: no pocket was measured. */
export const DOUBTS: Readonly<Record<PocketOptions['basis'], readonly Doubt[]>> = {
  configured: [
    [
      { rainPosition: 0, coolingShift: 0.2 },
      { rainPosition: 1, coolingShift: -0.2 },
    ],
    [{ curveNumberShift: -6 }, { curveNumberShift: 6 }],
    [{ mouthFactor: 0.5 }, { mouthFactor: 2 }],
    [{ sunFactor: 0.8 }, { sunFactor: 1.15 }],
  ],
  class: [
    [
      { rainPosition: 0, coolingShift: 0.35 },
      { rainPosition: 1, coolingShift: -0.35 },
    ],
    [{ curveNumberShift: -14 }, { curveNumberShift: 14 }],
    [{ mouthFactor: 0.3 }, { mouthFactor: 3 }],
    [{ sunFactor: 0.7 }, { sunFactor: 1.15 }],
    [{ depthFactor: 0.6 }, { depthFactor: 1.7 }],
  ],
};

/** Error that stays when everything above is right, 80 % half-width, K. */
export const FLOOR_K = { configured: 0.6, class: 1.2 } as const;

/** Half-widths of the 80 % interval of the surface temperature of hour `i`, K: the doubts added as squares, each side alone. */
export function halfWidthsK(error: PocketError, i: number): { belowK: number; aboveK: number } {
  let below = error.floorK ** 2;
  let above = below;
  for (const { less, more } of error.doubts) {
    for (const shift of [item(less.surfaceK, i), item(more.surfaceK, i)]) {
      if (shift < 0) below += shift * shift;
      else above += shift * shift;
    }
  }
  return { belowK: Math.sqrt(below), aboveK: Math.sqrt(above) };
}
