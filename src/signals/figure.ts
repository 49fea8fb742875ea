import type { Figure, FigureKind, Freshness } from './types.ts';

export interface Provenance {
  readonly kind: FigureKind;
  readonly asOfMs: number;
  readonly freshness: Freshness;
  readonly source: string;
}

/** A number with all that must be known about it to print it. @returns null for a number that is not finite */
export function figure(
  value: number | null | undefined,
  from: Provenance,
  low?: number,
  high?: number,
): Figure | null {
  if (value === null || value === undefined || !Number.isFinite(value)) return null;
  return { value, ...(low === undefined ? {} : { low }), ...(high === undefined ? {} : { high }), ...from };
}

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
