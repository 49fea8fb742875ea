import { idsOf } from './ids.ts';

/** Kinds of water, and what of them a model must know: whether a river runs through. */
export const WATERS = {
  'highland-reservoir': { river: false },
  'hill-land-reservoir': { river: false },
  'run-of-river': { river: true },
  tailwater: { river: true },
  'natural-lake': { river: false },
  /** Below 20 ha, dammed or dug. */
  pond: { river: false },
} as const;

export type WaterBody = keyof typeof WATERS;
export const WATER_BODIES = idsOf(WATERS);

/** How the river of a tailwater or a run-of-river pool answers to air and flow. */
export const RIVER_KINDS = ['lowland', 'wide', 'snow-fed', 'regulated'] as const;
export type RiverKind = (typeof RIVER_KINDS)[number];
