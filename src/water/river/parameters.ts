import type { StreamParameters } from './air2stream.ts';
import type { CreekParameters } from './creek.ts';
import type { RiverBase, RiverKind } from './types.ts';

/** Calibration days of the lowland Mentue, 2002 to 2009 (`bench/river-fit.ts`). */
const LOWLAND: StreamParameters = {
  a: [0.55946, 0.3913, 0.46344, 0.1317, 0.90546, 0.5873, 0.61785, 0.094442],
};

/** Mean air of the Mentue's calibration days, frost counted as 0, degC. */
export const LOWLAND_AIR_C = 10.2;

/** Calibration days of the Rhone at Sion, 1984 to 2004: fed by snow and glaciers and held back by dams. */
const ALPINE: StreamParameters = {
  a: [0.18524, 0.16019, 0.12417, 0.36564, 5.6258, 1.5401, 0.52841, 0.9208],
};

/** The fitted sets; no river was at hand that is wide, or regulated without being snow-fed. */
export const FITTED: Readonly<Record<'lowland' | 'alpine', StreamParameters>> = {
  lowland: LOWLAND,
  alpine: ALPINE,
};

/** All creeks at hand together, each counting the same (`bench/creek-fit.ts`). */
export const CREEK: CreekParameters = {
  offsetC: -0.05,
  perMeanC: 0.18,
  day: 0.349,
  week: 0.452,
  month: -0.021,
};

/** A creek that springs keep near the year's mean: the least swing among the creeks at hand. */
export const SPRING: CreekParameters = { offsetC: 0, perMeanC: 0, day: 0.31, week: 0.08, month: 0.05 };

/**
 * How far each free run is believed before the first reading. A regulated river may release the surface or the depth
 * of its reservoir, so both are kept open and the interval spans them.
 */
const KIND_BELIEF: Readonly<Record<RiverKind, Readonly<Record<RiverBase, number>>>> = {
  lowland: { creek: 0.32, spring: 0.08, lowland: 0.52, open: 0.04, alpine: 0.02, melt: 0.02 },
  wide: { creek: 0.04, spring: 0.01, lowland: 0.08, open: 0.85, alpine: 0.01, melt: 0.01 },
  'snow-fed': { creek: 0, spring: 0, lowland: 0.01, open: 0.01, alpine: 0.93, melt: 0.05 },
  regulated: { creek: 0, spring: 0, lowland: 0.25, open: 0.3, alpine: 0.35, melt: 0.1 },
};

/** Watershed at which a river is as much open water as creek, km2, and the factor of ten that makes it nearly one (guess). */
const WIDE_FROM_KM2 = 3000;

/**
 * Belief in each free run before the first reading. A lowland river with a large watershed is more and more taken for
 * open water; the other kinds say themselves what the water is.
 */
export function beliefIn(
  kind: RiverKind,
  watershedKm2: number | undefined,
): Readonly<Record<RiverBase, number>> {
  const own = KIND_BELIEF[kind];
  if (kind !== 'lowland' || watershedKm2 === undefined) return own;
  const wide = 1 / (1 + (WIDE_FROM_KM2 / watershedKm2) ** 2);
  const mixed = Object.entries(own).map(([base, share]) => [
    base,
    (1 - wide) * share + wide * KIND_BELIEF.wide[base as RiverBase],
  ]);
  return Object.fromEntries(mixed) as Record<RiverBase, number>;
}
