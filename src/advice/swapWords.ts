import type { SignalId } from '../signals/types.ts';
import { SIGNALS } from '../signals/types.ts';
import { quantity } from '../units/index.ts';

/** What went up or down, over which time: the verb for more and for less, as it was and as it is. */
interface Change {
  readonly what: string;
  readonly over: string;
  readonly more: readonly [had: string, instead: string];
  readonly less: readonly [had: string, instead: string];
  /** A smaller change than this, SI, prints as none. */
  readonly none: number;
}

const RISE = ['risen', 'rising'] as const;
const FALL = ['fallen', 'falling'] as const;
const WARM = ['warmed', 'warming'] as const;
const COOL = ['cooled', 'cooling'] as const;

const CHANGES: Partial<Record<SignalId, Change>> = {
  level24hM: { what: 'lake', over: ' in a day', more: RISE, less: FALL, none: 0.0152 },
  level72hM: { what: 'lake', over: ' in three days', more: RISE, less: FALL, none: 0.0152 },
  waterChange3dC: { what: 'lake', over: ' in three days', more: WARM, less: COOL, none: 0.28 },
  waterChange7dC: { what: 'lake', over: ' in a week', more: WARM, less: COOL, none: 0.28 },
  // A fall counts as positive.
  airDrop24hC: { what: 'air', over: ' in a day', more: COOL, less: WARM, none: 0.28 },
  airTrend3dCPerDay: { what: 'air', over: ' over three days', more: WARM, less: COOL, none: 0.028 },
};

function changed(
  { what, over, more, less, none }: Change,
  signal: SignalId,
  to: number,
  from: number,
): string {
  const amount = (value: number): string => quantity(SIGNALS[signal], Math.abs(value));
  const side = (value: number): Change['more'] => (value > 0 ? more : less);
  const had = Math.abs(to) < none ? 'held steady' : `${side(to)[0]} ${amount(to)}`;
  const instead = Math.abs(from) < none ? 'holding steady' : `${side(from)[1]} ${amount(from)}`;
  return `Had the ${what} ${had}${over} instead of ${instead}`;
}

const dayRun = (value: number): string => {
  const days = Math.round(value);
  if (days === 0) return 'no run of warming or cooling days';
  const size = Math.abs(days);
  return `${size} ${days > 0 ? 'warming' : 'cooling'} ${size === 1 ? 'day' : 'days in a row'}`;
};

const pocketAgainst = (value: number, than: string): string =>
  Math.abs(value) < 0.28
    ? 'just as warm'
    : `${quantity('temperatureDifference', Math.abs(value))} ${value > 0 ? 'warmer' : 'colder'}${than}`;

/**
 * The condition of "what would swap the first two", without its end: `Had the lake fallen 0.4 ft in a day instead of
 * rising 0.4 ft`. Signed changes are said by their verb, not by a minus sign.
 *
 * @param to    the value that would swap them, SI
 * @param from  the value of the day, SI
 * @param words the signal's name
 */
export function swapCondition(signal: SignalId, to: number, from: number, words: string): string {
  const change = CHANGES[signal];
  if (change !== undefined) return changed(change, signal, to, from);
  if (signal === 'warmingDays') return `With ${dayRun(to)} instead of ${dayRun(from)}`;
  if (signal === 'pocketMinusMainC') {
    const than = ' than the main lake';
    return `If the pockets were ${pocketAgainst(to, than)} instead of ${pocketAgainst(from, '')}`;
  }
  const kind = SIGNALS[signal];
  return `If the ${words} were ${quantity(kind, to)} instead of ${quantity(kind, from)}`;
}
