import type { Curve, WhenRule } from '../../config/index.ts';
import type { SignalId } from '../../signals/index.ts';
import type { PhaseId } from '../types.ts';
import { curveAt } from './curve.ts';
import type { Known } from './known.ts';

/** How fully a rule applies, and the number that decided it. */
export interface Applied {
  /** 0..1 */
  readonly share: number;
  readonly signal: SignalId | 'species' | 'waterBody';
  readonly value: number | null;
}

interface Cue {
  readonly signal: SignalId;
  readonly minus?: SignalId | undefined;
  readonly curve: Curve;
}
interface Limit extends Cue {
  readonly ifUnknown?: number | undefined;
  readonly or?: readonly Cue[] | undefined;
}

function numberOf(cue: Cue, known: Known): number | null {
  const value = known.signals[cue.signal];
  if (value === undefined) return null;
  if (cue.minus === undefined) return value;
  const minus = known.signals[cue.minus];
  return minus === undefined ? null : value - minus;
}

function read(cue: Cue, known: Known): Applied | null {
  const value = numberOf(cue, known);
  return value === null ? null : { share: curveAt(cue.curve, value), signal: cue.signal, value };
}

function seen(cue: Limit, known: Known): Applied | null {
  const found = read(cue, known);
  if (found !== null) return found;
  if (cue.or !== undefined)
    for (const other of cue.or) {
      const instead = read(other, known);
      if (instead !== null) return instead;
    }
  return cue.ifUnknown === undefined ? null : { share: cue.ifUnknown, signal: cue.signal, value: null };
}

/** Cues are signs of one thing, so they add up to at most 1; an unknown cue adds nothing. */
function sumOfCues(cues: NonNullable<WhenRule['cues']>, known: Known): Applied | null {
  let sum = 0;
  let strongest: Applied | null = null;
  for (const cue of cues) {
    const value = numberOf(cue, known);
    if (value === null) continue;
    const share = cue.weight * curveAt(cue.curve, value);
    sum += share;
    if (strongest === null || share > strongest.share) strongest = { share, signal: cue.signal, value };
  }
  return strongest === null ? null : { ...strongest, share: Math.min(1, sum) };
}

function faded(when: WhenRule, known: Known): number | null {
  let factor = 1;
  if (when.fade) {
    const hours = known.signals[when.fade.signal];
    if (hours === undefined) return null;
    const own = when.fade.halfLifeSignal === undefined ? undefined : known.signals[when.fade.halfLifeSignal];
    factor *= 0.5 ** (Math.max(0, hours) / Math.max(1, own ?? when.fade.halfLifeH));
  }
  if (when.cancel) {
    const value = numberOf(when.cancel, known);
    if (value !== null) factor *= curveAt(when.cancel.curve, value);
  }
  return factor;
}

/**
 * How fully a rule applies: the smallest of its limits x the product of its scales x the sum of its cues x its decay.
 * Limits combine by minimum because the scarcest decides; scales multiply because they are amounts of one thing.
 *
 * @returns null when a signal it cannot do without is unknown: the rule is silent
 */
export function applyWhen(when: WhenRule, known: Known): Applied | null {
  if (when.species && !when.species.includes(known.species)) return null;
  if (when.waterBody && !when.waterBody.includes(known.waterBody)) return null;
  let decided: Applied = { share: 1, signal: when.species ? 'species' : 'waterBody', value: null };
  let tightest = 1;
  if (when.limits !== undefined)
    for (const limit of when.limits) {
      const found = seen(limit, known);
      if (found === null) return null;
      tightest = Math.min(tightest, found.share);
      decided = scarcer(decided, found);
    }
  let product = 1;
  if (when.scales !== undefined)
    for (const scale of when.scales) {
      const found = seen(scale, known);
      if (found === null) return null;
      product *= found.share;
      decided = scarcer(decided, found);
    }
  if (when.cues) {
    const sum = sumOfCues(when.cues, known);
    if (sum === null) return null;
    product *= sum.share;
    decided = sum;
  }
  const fade = faded(when, known);
  if (fade === null) return null;
  return { share: tightest * product * fade, signal: decided.signal, value: decided.value };
}

/** Which of two decides: a known number before none, the smaller share before the larger. */
const scarcer = (decided: Applied, found: Applied): Applied =>
  decided.value === null || (found.value !== null && found.share < decided.share) ? found : decided;

/** Share of the season phases a rule speaks in, weighted by their membership; 1 when it speaks in all. */
export function phaseShare(
  phases: Partial<Record<PhaseId, number>> | undefined,
  membership: Readonly<Record<PhaseId, number>>,
): number {
  if (phases === undefined) return 1;
  let sum = 0;
  // Not by `Object.entries`: an advice asks some ten thousand times.
  for (const phase in phases) {
    const id = phase as PhaseId;
    sum += (phases[id] ?? 0) * membership[id];
  }
  return sum;
}
