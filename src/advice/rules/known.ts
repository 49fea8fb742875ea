import type { Conditions, SignalId, Species, WaterBody } from '../../signals/index.ts';

/** What the rules may see of a day: only numbers that are fresh or ageing. Absent means unknown. */
export interface Known {
  readonly species: Species;
  readonly waterBody: WaterBody;
  readonly signals: Readonly<Partial<Record<SignalId, number>>>;
}

/** A stale figure is unknown: it may be shown as the last one, and it feeds no rule. */
export function knownOf(conditions: Conditions): Known {
  const signals: Partial<Record<SignalId, number>> = {};
  for (const [id, figure] of Object.entries(conditions.signals)) {
    if (figure !== undefined && figure.freshness !== 'stale' && Number.isFinite(figure.value)) {
      signals[id as SignalId] = figure.value;
    }
  }
  return { species: conditions.species, waterBody: conditions.waterBody, signals };
}

/** Two days, each with only those numbers that are known on both. */
export function knownOnBoth(a: Known, b: Known): readonly [Known, Known] {
  const only = (one: Known, other: Known): Known => ({
    ...one,
    signals: Object.fromEntries(
      Object.entries(one.signals).filter(([id]) => other.signals[id as SignalId] !== undefined),
    ),
  });
  return [only(a, b), only(b, a)];
}
