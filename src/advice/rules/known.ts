import type { Conditions, SignalId, Species, WaterBody } from '../../signals/index.ts';

/** What the rules may see of a day: only numbers that are fresh or ageing. Absent means unknown. */
export interface Known {
  readonly species: Species;
  readonly waterBody: WaterBody;
  readonly signals: Readonly<Partial<Record<SignalId, number>>>;
}

/** What still runs below a dam where no turbine does, m/s (common practice, no source). */
export const SLACK_MS = 0.05;

/** Whether turbines are known to stand. */
export const stands = (generationOn: number | undefined): boolean =>
  generationOn !== undefined && generationOn < 0.5;

/**
 * A stale figure is unknown: it may be shown as the last one, and it feeds no rule. Below a dam whose turbines stand the
 * water is slack where nobody tells its current.
 */
export function knownOf(conditions: Conditions): Known {
  const signals: Partial<Record<SignalId, number>> = {};
  for (const [id, figure] of Object.entries(conditions.signals)) {
    if (figure !== undefined && figure.freshness !== 'stale' && Number.isFinite(figure.value)) {
      signals[id as SignalId] = figure.value;
    }
  }
  const { species, waterBody } = conditions;
  if (waterBody === 'tailwater' && stands(signals.generationOn)) signals.currentMs ??= SLACK_MS;
  return { species, waterBody, signals };
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
