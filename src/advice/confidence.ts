import type { PositionRules } from '../config/index.ts';
import type { Conditions, SignalId } from '../signals/index.ts';
import type { Confidence, ConfidenceFact, PhaseAdvice, PositionAdvice } from './types.ts';

/** Ageing and estimated numbers carry the ranking less far than fresh, measured ones. */
const WORTH = { fresh: 1, ageing: 0.6, stale: 0 } as const;
const ESTIMATED = 0.8;

/** Signals that weigh less tip the balance so rarely that their absence is no news. */
const WORTH_NAMING = 0.5;
/** Without one that weighs this much the ranking is not called sure, however many others are known. */
const WEIGHTY = 1.5;

/** Half the width of the water's interval up to which the rest may be called sure, K. */
const SURE_K = 1.5;

/** A fresh measurement of the water, or an estimate that is narrow. */
function isSure(water: Conditions['signals']['waterC']): boolean {
  if (water === undefined) return false;
  if (water.kind !== 'estimated') return water.freshness === 'fresh';
  return water.low !== undefined && water.high !== undefined && (water.high - water.low) / 2 <= SURE_K;
}

/**
 * Confidence in the ranking as a word with its reason, from two axes: evidence (how much of what the rules lean on
 * is known, fresh and measured) and agreement (whether the season and the first place are clear).
 */
export function confidenceOf(
  conditions: Conditions,
  phase: PhaseAdvice,
  positions: readonly PositionAdvice[],
  rules: PositionRules,
): Confidence {
  let known = 0;
  let all = 0;
  const missing: { signal: SignalId; weight: number }[] = [];
  let ageing = 0;
  const old: SignalId[] = [];
  for (const { signal, weight } of rules.matters) {
    all += weight;
    const figure = conditions.signals[signal];
    const worth =
      figure === undefined ? 0 : WORTH[figure.freshness] * (figure.kind === 'estimated' ? ESTIMATED : 1);
    if (figure?.freshness === 'ageing') {
      ageing += 1;
      // A guess has no age.
      if (figure.kind !== 'estimated') old.push(signal);
    }
    if (worth === 0) missing.push({ signal, weight });
    known += weight * worth;
  }
  const share = all > 0 ? known / all : 0;
  const clearSeason = phase.membership[phase.leading] >= 0.5;
  const margin = (positions[0]?.total ?? 0) - (positions[1]?.total ?? 0);
  const dated = conditions.signals.dayLengthH !== undefined;
  const waterKnown =
    conditions.signals.waterC !== undefined && conditions.signals.waterC.freshness !== 'stale';
  const gaps = missing
    .filter(({ weight }) => weight >= WORTH_NAMING)
    .sort((a, b) => b.weight - a.weight)
    .slice(0, 3)
    .map((gap) => gap.signal);
  const clearPlace = margin >= 0.5;
  const forecastEnds = conditions.gaps.some(({ fact }) => fact.code === 'weatherEnds');
  const word =
    !waterKnown || forecastEnds || share < 0.35 || (!dated && !clearSeason)
      ? 'low'
      : share >= 0.65 &&
          clearSeason &&
          clearPlace &&
          isSure(conditions.signals.waterC) &&
          ageing < 3 &&
          !missing.some(({ weight }) => weight >= WEIGHTY)
        ? 'high'
        : 'medium';
  // What is clear comes first, then what is not, then what is unknown.
  const because: ConfidenceFact[] = [
    ...(clearSeason ? [{ code: 'seasonClear' } as const] : []),
    ...(clearPlace ? [{ code: 'placeClear' } as const] : []),
    ...(clearSeason ? [] : [{ code: 'seasonBetween' } as const]),
    ...(clearPlace ? [] : [{ code: 'placesClose' } as const]),
    ...(dated ? [] : [{ code: 'timeOfYearUnknown' } as const]),
    ...(forecastEnds ? [{ code: 'forecastEnds' } as const] : []),
    gaps.length > 0 ? { code: 'unknown', signals: gaps } : { code: 'allKnown' },
    ...(old.length > 0 ? [{ code: 'ageing', count: old.length, signals: old } as const] : []),
  ];
  return { word, because };
}
