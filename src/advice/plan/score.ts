import type { HourRules, HourSignal, PositionRules } from '../../config/index.ts';
import { isIdOf } from '../../vocabulary/index.ts';
import { phaseShare } from '../rules/apply.ts';
import { curveAt } from '../rules/curve.ts';
import { scorePlaces, type ScoredPlace } from '../positions/score.ts';
import type { PhaseId } from '../types.ts';
import type { HourKnown } from './known.ts';

type Membership = Readonly<Record<PhaseId, number>>;
export type HourRule = HourRules['rules'][number];

/** A rule of the hours with how fully it applies, 0..1. */
export interface AppliedHourRule {
  readonly rule: HourRule;
  readonly share: number;
}

/** How the places stand in one hour. */
export interface HourScore {
  readonly hour: HourKnown;
  readonly membership: Membership;
  readonly totals: ReadonlyMap<string, number>;
  readonly scored: ReadonlyMap<string, ScoredPlace>;
  readonly applied: readonly AppliedHourRule[];
}

/** Points that a rule of the hours gives a place when it applies fully. */
export function pointsOf({ points }: HourRule, place: string): number {
  return isIdOf(points, place) ? (points[place] ?? 0) : 0;
}

/** Share of a rule in an hour; null where it needs what is not known. */
function shareOf(rule: HourRule, signals: HourKnown['signals'], membership: Membership): number | null {
  let share = phaseShare(rule.phases, membership);
  for (const { signal, minus, curve, ifUnknown } of rule.limits) {
    const value = numberOf(signals, signal, minus);
    if (value === null && ifUnknown === undefined) return null;
    share = Math.min(share, value === null ? (ifUnknown ?? 0) : curveAt(curve, value));
    if (share <= 0) return 0;
  }
  return share;
}

function numberOf(
  signals: HourKnown['signals'],
  signal: HourSignal,
  minus: HourSignal | undefined,
): number | null {
  const value = signals[signal];
  if (value === undefined) return null;
  if (minus === undefined) return value;
  const less = signals[minus];
  return less === undefined ? null : value - less;
}

/**
 * Points of the places in one hour: the rules of the day with the hour's numbers, and the rules of the hours.
 *
 * @param places ids that this water has; others are left out
 */
export function scoreHour(
  hour: HourKnown,
  membership: Membership,
  positions: PositionRules,
  hours: HourRules,
  places: ReadonlySet<string>,
): HourScore {
  const scored = new Map<string, ScoredPlace>();
  for (const entry of scorePlaces(hour.known, membership, positions, places)) scored.set(entry.place, entry);
  const applied = hours.rules.flatMap((rule): AppliedHourRule[] => {
    const share = shareOf(rule, hour.signals, membership);
    return share === null || share === 0 ? [] : [{ rule, share }];
  });
  const totals = new Map<string, number>();
  for (const [place, { total }] of scored) {
    const moved = applied.reduce((sum, { rule, share }) => sum + share * pointsOf(rule, place), 0);
    totals.set(place, total + moved);
  }
  return { hour, membership, totals, scored, applied };
}

/** How fully low light must speak in an hour for a block or a lure of its own. */
const LOW_LIGHT_SHARE = 0.5;

/** Whether an hour's low light moves fish: the sun is low, and the water warm enough for it. */
export const isLowLight = ({ applied }: HourScore): boolean =>
  applied.some(({ rule, share }) => rule.reason === 'lowLight' && share >= LOW_LIGHT_SHARE);
