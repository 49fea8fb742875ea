import type { StreamParameters } from './air2stream.ts';
import type { RiverBase, RiverKind } from './types.ts';

/** Calibration days of the lowland Mentue, 2002 to 2009 (`bench/river-fit.ts`). */
const LOWLAND: StreamParameters = {
  a: [0.55946, 0.3913, 0.46344, 0.1317, 0.90546, 0.5873, 0.61785, 0.094442],
};

/** Calibration days of the Rhone at Sion, 1984 to 2004: fed by snow and glaciers and held back by dams. */
const ALPINE: StreamParameters = {
  a: [0.18524, 0.16019, 0.12417, 0.36564, 5.6258, 1.5401, 0.52841, 0.9208],
};

/** The fitted sets; no river was at hand that is wide, or regulated without being snow-fed. */
export const FITTED: Readonly<Record<'lowland' | 'alpine', StreamParameters>> = {
  lowland: LOWLAND,
  alpine: ALPINE,
};

/**
 * How far each free run is believed before the first reading (common practice, no source). A regulated river may
 * release the surface or the depth of its reservoir, so both are kept open and the interval spans them.
 */
export const KIND_BELIEF: Readonly<Record<RiverKind, Readonly<Record<RiverBase, number>>>> = {
  lowland: { lowland: 0.95, open: 0.02, alpine: 0.02, melt: 0.01 },
  wide: { lowland: 0.25, open: 0.7, alpine: 0.03, melt: 0.02 },
  'snow-fed': { lowland: 0.01, open: 0.01, alpine: 0.93, melt: 0.05 },
  regulated: { lowland: 0.25, open: 0.3, alpine: 0.35, melt: 0.1 },
};
