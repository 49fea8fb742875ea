import type { RuleBook } from '../config/rules.ts';
import type { SignalId } from '../signals/types.ts';
import { SIGNALS } from '../signals/types.ts';
import { quantity } from '../units/index.ts';
import { phaseMembership } from './phase.ts';
import { scorePlaces } from './positions/score.ts';
import { withSignal, type Known } from './rules/known.ts';
import type { Advice, PositionAdvice } from './types.ts';

type Rules = Pick<RuleBook, 'positions' | 'phases'>;

/** Looked at in this many steps across a signal's plausible range. */
const STEPS = 40;

function lead(known: Known, rules: Rules, first: string, second: string): number {
  const scored = scorePlaces(known, phaseMembership(known, rules.phases), rules.positions);
  const of = (place: string): number => scored.find((entry) => entry.place === place)?.total ?? 0;
  return of(first) - of(second);
}

/** Nearest value of one signal, in one direction, at which the second place overtakes; null when none does. */
function crossing(
  from: number,
  end: number,
  width: number,
  leadAt: (value: number) => number,
): number | null {
  const steps = Math.ceil((STEPS * Math.abs(end - from)) / width);
  let inside = from;
  for (let step = 1; step <= steps; step += 1) {
    const value = from + ((end - from) * step) / steps;
    if (leadAt(value) >= 0) {
      inside = value;
      continue;
    }
    let outside = value;
    for (let halving = 0; halving < 12; halving += 1) {
      const middle = (inside + outside) / 2;
      if (leadAt(middle) < 0) outside = middle;
      else inside = middle;
    }
    return outside;
  }
  return null;
}

/**
 * The smallest change of one known signal that would put the second place first, "smallest" measured as a share of
 * the signal's plausible range. Every other signal stays as it is.
 *
 * @param isGuessed whether a signal's number is for the rules alone, so that only the other one may be told
 * @returns null when no single known signal does so within its plausible range
 */
export function smallestSwap(
  known: Known,
  rules: Rules,
  first: PositionAdvice,
  second: PositionAdvice,
  isGuessed: (signal: SignalId) => boolean = () => false,
): Advice['swap'] {
  let best: { signal: SignalId; from: number; to: number; share: number; words: string } | null = null;
  for (const { signal, range, words } of rules.positions.matters) {
    const from = known.signals[signal];
    if (from === undefined) continue;
    const leadAt = (value: number): number =>
      lead(withSignal(known, signal, value), rules, first.place, second.place);
    const width = range[1] - range[0];
    for (const edge of range) {
      // No farther than the best change so far: a larger one would not be the smallest.
      const reach = (best?.share ?? 1) * width;
      const end: number = edge < from ? Math.max(edge, from - reach) : Math.min(edge, from + reach);
      if (end === from) continue;
      const to: number | null = crossing(from, end, width, leadAt);
      if (to === null) continue;
      const share = Math.abs(to - from) / width;
      if (best === null || share < best.share) best = { signal, from, to, share, words };
    }
  }
  if (best === null) return null;
  const kind = SIGNALS[best.signal];
  const now = quantity(kind, best.from);
  const then = quantity(kind, best.to);
  const condition = isGuessed(best.signal)
    ? `If you measure a ${best.words} of ${then}`
    : `If the ${best.words} were ${then} instead of ${now}`;
  return {
    signal: best.signal,
    from: best.from,
    to: best.to,
    sentence: `${condition}, ${second.name} would come before ${first.name}.`,
  };
}
