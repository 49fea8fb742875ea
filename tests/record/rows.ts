import type { Observation } from '../../src/record/index.ts';

export const HOUR = 3_600_000;
export const DAY = 24 * HOUR;
/** 2026-03-02 00:00 UTC. */
export const START = Date.UTC(2026, 2, 2);

/** One measured row at an invented lake; anything can be replaced. */
export function row(part: Partial<Observation> = {}): Observation {
  return {
    lake: 'pine-hollow',
    variable: 'water_temp',
    source: 'usgs',
    station: 'S1',
    kind: 'observed',
    atMs: START,
    periodS: 0,
    value: 9,
    issuedMs: null,
    ...part,
  };
}

/** Hourly values from START on. */
export function hourly(values: readonly number[], part: Partial<Observation> = {}): Observation[] {
  return values.map((value, i) => row({ ...part, value, atMs: START + i * HOUR }));
}

/** A day's wave around a mean with a slow rise: what a healthy sensor near the surface gives. */
export function wave(hours: number, mean: number, amplitude: number, risePerDay = 0.1): number[] {
  return Array.from(
    { length: hours },
    (_, h) => mean + amplitude * Math.sin(((h - 9) * Math.PI) / 12) + (risePerDay * h) / 24,
  );
}
