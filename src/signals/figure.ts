import type { SourceFact } from './facts.ts';
import type { Figure, FigureKind, Freshness, SignalId, Signals } from './types.ts';

export interface Provenance {
  readonly kind: FigureKind;
  readonly asOfMs: number;
  readonly freshness: Freshness;
  readonly source: SourceFact;
}

/** A number with all that must be known about it to print it. @returns null for a number that is not finite */
export function figure(
  value: number | null | undefined,
  from: Provenance,
  low?: number,
  high?: number,
): Figure | null {
  const known = value ?? Number.NaN;
  if (!Number.isFinite(known)) return null;
  return {
    value: known,
    ...(low === undefined ? {} : { low }),
    ...(high === undefined ? {} : { high }),
    ...from,
  };
}

/** Signals in the making, all known in one way; a number that is not finite is left out. */
export function signalsFrom(from: Provenance): {
  readonly signals: { -readonly [Id in SignalId]?: Figure };
  readonly put: (id: SignalId, value: number | null | undefined, low?: number, high?: number) => void;
} {
  const signals: { -readonly [Id in SignalId]?: Figure } = {};
  return {
    signals,
    put(id, value, low, high) {
      const made = figure(value, from, low, high);
      if (made) signals[id] = made;
    },
  };
}

/** @returns the signals without those that have no fresh source */
export const knownOf = (signals: Signals): Signals =>
  Object.fromEntries(Object.entries(signals).filter(([, { freshness }]) => freshness !== 'stale'));

/** @returns null of no values */
export function mean(values: readonly number[]): number | null {
  return values.length === 0 ? null : values.reduce((sum, value) => sum + value, 0) / values.length;
}

export function sum(values: readonly number[]): number {
  return values.reduce((total, value) => total + value, 0);
}

/** 0 at `from`, 1 at `to`, straight between; `from` may lie above `to`. */
export function ramp(value: number, from: number, to: number): number {
  return Math.min(1, Math.max(0, (value - from) / (to - from)));
}
