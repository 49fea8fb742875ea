import type { GaugeService, GaugeVariable } from '../../config/index.ts';

/** A gauge that lives near a position, as a configuration would name it. */
export interface GaugeNearby {
  readonly service: GaugeService;
  readonly station: string;
  readonly name: string;
  readonly variable: GaugeVariable;
  /** How the service names the series; left out where the station has one of the kind alone. */
  readonly parameter?: string;
  readonly office?: string;
  readonly datum?: string;
  readonly distanceKm: number;
  /** Newest value, in the unit of the service; null when it gave none. */
  readonly latest: { readonly value: number; readonly unit: string; readonly ageMin: number } | null;
}

/** A newest value with its age; null where either is not known. */
export function latestOf(
  value: number | null,
  unit: string,
  atMs: number | null | undefined,
  nowMs: number,
): GaugeNearby['latest'] {
  if (value === null || atMs == null) return null;
  return { value, unit, ageMin: Math.round((nowMs - atMs) / 60_000) };
}

export interface Around {
  readonly latDeg: number;
  readonly lonDeg: number;
  readonly halfKm: number;
}

export const nearestFirst = (found: readonly GaugeNearby[]): GaugeNearby[] =>
  [...found].sort((a, b) => a.distanceKm - b.distanceKm);
