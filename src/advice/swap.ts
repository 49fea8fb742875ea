import type { RuleBook } from '../config/index.ts';
import { SIGNALS, type SignalId } from '../vocabulary/index.ts';
import { expandQuantities, quantity, type UnitSystem } from '../units/index.ts';
import { leadBetween } from './positions/lead.ts';
import type { Known } from './rules/known.ts';
import { STEADY_BELOW } from './steady.ts';
import type { PositionAdvice, SwapFact } from './types.ts';

type Rules = Pick<RuleBook, 'positions' | 'phases'>;

/** A larger change, as a share of the range, is another season and no help to anybody (our choice). */
const FARTHEST = 0.35;

type Matter = RuleBook['positions']['matters'][number];

/** How far a signal is looked along: what a day may bring, or for a guess what it may be off. */
const reachOf = ({ range, reach }: Matter, isGuess: boolean): number =>
  reach === undefined || isGuess ? FARTHEST * (range[1] - range[0]) : reach;

/** Looked at in this many steps across a signal's plausible range. */
const STEPS = 40;

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

/** How much farther than the crossing a value is looked for that also prints as another one, share of the range. */
const FARTHER = 0.06;
const NUDGES = 24;

/** How a reader sees a number: a change by its way and size, a run of days whole, anything else as it prints. */
function reading(signal: SignalId, value: number, units: UnitSystem): string {
  if (signal === 'warmingDays') return String(Math.round(value));
  const print = (si: number): string => expandQuantities(quantity(SIGNALS[signal], si), units);
  const none = STEADY_BELOW[signal];
  if (none === undefined) return print(value);
  return Math.abs(value) < none ? 'steady' : `${value > 0 ? 'up' : 'down'} ${print(Math.abs(value))}`;
}

/** Whether readers of both unit systems see a change: "71 °F instead of 71 °F" says nothing. */
function readsApart(signal: SignalId, to: number, from: number): boolean {
  return (['us', 'metric'] as const).every(
    (units) => reading(signal, to, units) !== reading(signal, from, units),
  );
}

/** The crossing itself, or the first value beyond it that prints apart and still swaps the two; null when none does. */
function tellable(
  to: number,
  edge: number,
  width: number,
  swaps: (value: number) => boolean,
  apart: (value: number) => boolean,
): number | null {
  const step = (Math.sign(edge - to) * FARTHER * width) / NUDGES;
  for (let nudge = 0; nudge <= NUDGES; nudge += 1) {
    const value = to + nudge * step;
    if (Math.abs(edge - to) < Math.abs(value - to)) return null;
    if (apart(value)) return swaps(value) ? value : null;
  }
  return null;
}

/**
 * The smallest change of one known signal that would put the second place first, "smallest" measured as a share of
 * the signal's plausible range. Every other signal stays as it is.
 *
 * @param isGuessed whether a signal's number is for the rules alone, so that only the other one may be told
 * @returns null when no single known signal does so within its plausible range and its reach, or only by less than its
 *   readings can tell apart
 */
export function smallestSwap(
  known: Known,
  rules: Rules,
  first: PositionAdvice,
  second: PositionAdvice,
  isGuessed: (signal: SignalId) => boolean = () => false,
): SwapFact | null {
  const leadAlong = leadBetween(known, rules, first.place, second.place);
  let best: { signal: SignalId; from: number; to: number; share: number } | null = null;
  for (const matter of rules.positions.matters) {
    const { signal, range, noise } = matter;
    const from = known.signals[signal];
    if (from === undefined) continue;
    const leadAt = leadAlong(signal);
    const width = range[1] - range[0];
    const farthest = reachOf(matter, isGuessed(signal));
    for (const edge of range) {
      // No farther than the best change so far: a larger one would not be the smallest.
      const reach = Math.min(farthest, (best?.share ?? 1) * width);
      const end: number = edge < from ? Math.max(edge, from - reach) : Math.min(edge, from + reach);
      if (end === from) continue;
      const bare: number | null = crossing(from, end, width, leadAt);
      const to: number | null =
        bare === null
          ? null
          : tellable(
              bare,
              end,
              width,
              (value) => leadAt(value) < 0,
              (value) => Math.abs(value - from) >= noise && readsApart(signal, value, from),
            );
      if (to === null) continue;
      const share = Math.abs(to - from) / width;
      if (best === null || share < best.share) best = { signal, from, to, share };
    }
  }
  if (best === null) return null;
  const { signal, from, to } = best;
  return {
    code: isGuessed(signal) ? 'measured' : 'changed',
    signal,
    from,
    to,
    first: first.place,
    second: second.place,
  };
}
