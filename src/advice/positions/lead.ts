import type { PlaceRule, PositionRules, WhenRule } from '../../config/rulesPlaces.ts';
import type { RuleBook } from '../../config/rules.ts';
import type { SignalId } from '../../signals/types.ts';
import { phaseMembership, SEASON_SIGNALS } from '../phase.ts';
import { applyWhen, phaseShare } from '../rules/apply.ts';
import { withSignal, type Known } from '../rules/known.ts';
import { PHASES, type PhaseId } from '../types.ts';
import { countedOn, type Counted } from './counted.ts';

type Rules = Pick<RuleBook, 'positions' | 'phases'>;
type Membership = Readonly<Record<PhaseId, number>>;
type Modifier = PositionRules['modifiers'][number];

/** Whether a rule reads a signal anywhere. */
function reads(when: WhenRule, signal: SignalId): boolean {
  const cues = [
    ...(when.limits ?? []).flatMap((limit) => [limit, ...(limit.or ?? [])]),
    ...(when.scales ?? []).flatMap((scale) => [scale, ...(scale.or ?? [])]),
    ...(when.cues ?? []),
    ...(when.cancel ? [when.cancel] : []),
  ];
  return (
    cues.some((cue) => cue.signal === signal || cue.minus === signal) ||
    when.fade?.signal === signal ||
    when.fade?.halfLifeSignal === signal
  );
}

function baseOf(place: PlaceRule, membership: Membership, { factorOf, insteadAt }: Counted): number {
  return PHASES.reduce(
    (sum, phase) =>
      sum +
      factorOf(place.id, 'base', `base.${place.id}.${phase}`) * membership[phase] * place.base[phase].points,
    insteadAt(place.id).reduce((sum, { points }) => sum + points, 0),
  );
}

const shareOf = (rule: Modifier, known: Known, membership: Membership): number => {
  const applied = applyWhen(rule.when, known);
  return applied === null ? 0 : applied.share * phaseShare(rule.phases, membership);
};

/** Points of one place from the shares of its rules: base, and each group cut at its clamp. */
function totalOf(
  place: PlaceRule,
  membership: Membership,
  shared: readonly { rule: Modifier; share: number }[],
  rules: PositionRules,
  counted: Counted,
): number {
  const groups = new Map<string, number>();
  for (const { rule, share } of shared) {
    const points = rule.points[place.id];
    if (points === undefined) continue;
    const given = counted.factorOf(place.id, rule.group, rule.id) * points * share;
    groups.set(rule.group, (groups.get(rule.group) ?? 0) + given);
  }
  let total = baseOf(place, membership, counted);
  for (const [group, sum] of groups) {
    const clamp = rules.clamps[group] ?? rules.clampDefault;
    total += Math.min(clamp, Math.max(-clamp, sum));
  }
  return total;
}

/**
 * Lead of one place over another along one signal, all else as known. Only what the signal moves is worked out anew:
 * the search for a swap asks some hundred times a signal.
 *
 * @returns points of the first minus points of the second, as `scorePlaces` would give them
 */
export function leadAlong(
  known: Known,
  rules: Rules,
  signal: SignalId,
  first: string,
  second: string,
): (value: number) => number {
  const { positions, phases } = rules;
  const one = positions.places.find(({ id }) => id === first);
  const other = positions.places.find(({ id }) => id === second);
  if (one === undefined || other === undefined) return () => 0;
  const season = SEASON_SIGNALS.includes(signal) ? undefined : phaseMembership(known, phases);
  const parts = positions.modifiers
    .filter(({ points }) => points[one.id] !== undefined || points[other.id] !== undefined)
    .map((rule) => ({
      rule,
      // A rule that neither reads the signal nor sees another season stays as it is.
      fixed: season === undefined || reads(rule.when, signal) ? undefined : shareOf(rule, known, season),
    }));
  const fixedCounted = positions.counted.some(({ when }) => reads(when, signal))
    ? undefined
    : countedOn(positions.counted, known);
  return (value) => {
    const then = withSignal(known, signal, value);
    const membership = season ?? phaseMembership(then, phases);
    const shared = parts.map(({ rule, fixed }) => ({
      rule,
      share: fixed ?? shareOf(rule, then, membership),
    }));
    const counted = fixedCounted ?? countedOn(positions.counted, then);
    return (
      totalOf(one, membership, shared, positions, counted) -
      totalOf(other, membership, shared, positions, counted)
    );
  };
}
