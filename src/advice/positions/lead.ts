import type { PlaceRule, PositionRules, RuleBook, WhenRule } from '../../config/index.ts';
import type { SignalId } from '../../signals/index.ts';
import { itemAt } from '../../units/index.ts';
import { phaseMembership, SEASON_SIGNALS } from '../phase.ts';
import { applyWhen, phaseShare } from '../rules/apply.ts';
import type { Known } from '../rules/known.ts';
import type { PhaseId } from '../types.ts';
import { countedOn, seasonPoints, type Counted } from './counted.ts';
import { scorePlaces } from './score.ts';

type Rules = Pick<RuleBook, 'positions' | 'phases'>;
type Membership = Readonly<Record<PhaseId, number>>;
type Modifier = PositionRules['modifiers'][number];

/** What a rule reads, gathered once: rules are data that nobody changes. */
const readBy = new WeakMap<WhenRule, ReadonlySet<SignalId>>();

function signalsOf(when: WhenRule): ReadonlySet<SignalId> {
  const kept = readBy.get(when);
  if (kept !== undefined) return kept;
  const limits = [...(when.limits ?? []), ...(when.scales ?? [])];
  const cues = [
    ...limits,
    ...limits.flatMap((limit) => limit.or ?? []),
    ...(when.cues ?? []),
    ...(when.cancel ? [when.cancel] : []),
  ];
  const read = [
    ...cues.flatMap((cue) => [cue.signal, cue.minus]),
    when.fade?.signal,
    when.fade?.halfLifeSignal,
  ];
  const signals = new Set(read.filter((signal) => signal !== undefined));
  readBy.set(when, signals);
  return signals;
}

/** A rule about one of the two places that a signal moves. */
interface Moving {
  readonly rule: Modifier;
  /** Its place among the rules about the two. */
  readonly index: number;
  /** How it applies; null where the signal is in it and it must be asked anew. */
  readonly applies: number | null;
  /** Its share of the season; null where the signal moves the season. */
  readonly inSeason: number | null;
}

/** A group of the parts that are about one place, in the order of the rules. */
interface Group {
  readonly clamp: number;
  readonly members: readonly { readonly part: number; readonly points: number }[];
}

function groupsOf(
  place: PlaceRule,
  parts: readonly Modifier[],
  rules: PositionRules,
  { factorOf }: Counted,
): Group[] {
  const groups = new Map<string, { part: number; points: number }[]>();
  for (const [part, rule] of parts.entries()) {
    const own = rule.points[place.id];
    if (own === undefined) continue;
    const points = factorOf(place.id, rule.group, rule.id) * own;
    const members = groups.get(rule.group);
    if (members === undefined) groups.set(rule.group, [{ part, points }]);
    else members.push({ part, points });
  }
  return [...groups].map(([group, members]) => ({
    clamp: rules.clamps[group] ?? rules.clampDefault,
    members,
  }));
}

/** Points of a group from the shares of its parts, cut at its clamp. */
function sumOf({ clamp, members }: Group, shares: Float64Array): number {
  let sum = 0;
  for (const { part, points } of members) sum += points * (shares[part] ?? 0);
  return Math.min(clamp, Math.max(-clamp, sum));
}

/** Points of a place along a signal, but for its base: groups that the signal leaves alone are summed once. */
function movedPoints(
  groups: readonly Group[],
  shares: Float64Array,
  moving: readonly Moving[],
): (base: number) => number {
  const isMoved = new Set(moving.map(({ index }) => index));
  const laid = groups.map((group) => ({
    group,
    fixed: group.members.some(({ part }) => isMoved.has(part)) ? null : sumOf(group, shares),
  }));
  return (base) => {
    let total = base;
    for (const { group, fixed } of laid) total += fixed ?? sumOf(group, shares);
    return total;
  };
}

/** The lead by all rules anew: where the signal decides whether the others give way. */
function wholeLead(known: Known, { positions, phases }: Rules, first: string, second: string): number {
  const scored = scorePlaces(known, phaseMembership(known, phases), positions, new Set([first, second]));
  const totalOf = (id: string): number =>
    itemAt(
      scored.filter(({ place }) => place === id),
      0,
    ).total;
  return totalOf(first) - totalOf(second);
}

/**
 * Lead of one place over another along single signals, all else as known. Only what a signal moves is worked out anew:
 * the search for a swap asks some hundred times a signal.
 *
 * @returns by signal, and then by its value: points of the first minus points of the second, as `scorePlaces` would give
 *   them
 */
export function leadBetween(
  known: Known,
  rules: Rules,
  first: string,
  second: string,
): (signal: SignalId) => (value: number) => number {
  const { positions, phases } = rules;
  const ruleOf = (place: string): PlaceRule =>
    itemAt(
      positions.places.filter(({ id }) => id === place),
      0,
    );
  const [one, other] = [ruleOf(first), ruleOf(second)];
  const season = phaseMembership(known, phases);
  const about = positions.modifiers.filter(
    ({ points }) => points[one.id] !== undefined || points[other.id] !== undefined,
  );
  const parts = about.map((rule) => ({
    rule,
    applies: applyWhen(rule.when, known)?.share ?? 0,
    inSeason: phaseShare(rule.phases, season),
  }));
  const counted = countedOn(positions.counted, known);
  const groups = [
    groupsOf(one, about, positions, counted),
    groupsOf(other, about, positions, counted),
  ] as const;
  return (signal) => {
    if (positions.counted.some(({ when }) => signalsOf(when).has(signal)))
      return (value) =>
        wholeLead({ ...known, signals: { ...known.signals, [signal]: value } }, rules, one.id, other.id);
    const movesSeason = SEASON_SIGNALS.includes(signal);
    const shares = Float64Array.from(parts, ({ applies, inSeason }) => applies * inSeason);
    const moving = parts.flatMap(({ rule, applies, inSeason }, index): Moving[] => {
      const isRead = signalsOf(rule.when).has(signal);
      const isSeasonal = movesSeason && rule.phases !== undefined;
      if (!isRead && !isSeasonal) return [];
      return [{ rule, index, applies: isRead ? null : applies, inSeason: isSeasonal ? null : inSeason }];
    });
    const ofOne = movedPoints(groups[0], shares, moving);
    const ofOther = movedPoints(groups[1], shares, moving);
    const leadIn = (membership: Membership): number =>
      ofOne(seasonPoints(one, membership, counted)) - ofOther(seasonPoints(other, membership, counted));
    if (!movesSeason && moving.length === 0) {
      const lead = leadIn(season);
      return () => lead;
    }
    // One set of numbers, of which only the signal's is written anew.
    const signals = { ...known.signals };
    const then: Known = { ...known, signals };
    return (value) => {
      signals[signal] = value;
      const membership = movesSeason ? phaseMembership(then, phases) : season;
      for (const { rule, applies, inSeason, index } of moving) {
        const share = applies ?? applyWhen(rule.when, then)?.share ?? 0;
        shares[index] = share * (inSeason ?? phaseShare(rule.phases, membership));
      }
      return leadIn(membership);
    };
  };
}
