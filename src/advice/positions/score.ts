import type { PlaceId } from '../../vocabulary/index.ts';
import type { PlaceRule, PositionRules } from '../../config/index.ts';
import { applyWhen, phaseShare, type Applied } from '../rules/apply.ts';
import type { Known } from '../rules/known.ts';
import { PHASES, type Evidence, type PhaseId } from '../types.ts';
import { countedOn, seasonPoints, type Counted } from './counted.ts';

/** A place with what every rule gave it. */
export interface ScoredPlace {
  readonly place: PlaceId;
  readonly total: number;
  /** Strongest first; worked out when it is asked for, which most hours of most places never are. */
  readonly evidence: readonly Evidence[];
}

type Membership = Readonly<Record<PhaseId, number>>;
type Modifier = PositionRules['modifiers'][number];

/** A modifier that is about a place: where it stands among all of them, and what it gives. */
interface Mover {
  readonly index: number;
  readonly rule: Modifier;
  readonly points: number;
  /** Place of its group among the groups of this kind of place; -1 for one without a clamp. */
  readonly group: number;
}

/** The rules by kind of place. */
interface Laid {
  readonly rule: PlaceRule;
  readonly movers: readonly Mover[];
  /** By group: what its contributions are held to. */
  readonly clamps: readonly number[];
}

const laidOut = new WeakMap<PositionRules, readonly Laid[]>();

/** Kept with the rules it is made of, which nobody changes. */
function layOut(rules: PositionRules): readonly Laid[] {
  const kept = laidOut.get(rules);
  if (kept !== undefined) return kept;
  const laid = rules.places.map((rule): Laid => {
    const groups: string[] = [];
    const movers = rules.modifiers.flatMap((modifier, index): Mover[] => {
      const points = modifier.points[rule.id];
      if (points === undefined) return [];
      const { group } = modifier;
      if (group === 'base') return [{ index, rule: modifier, points, group: -1 }];
      if (!groups.includes(group)) groups.push(group);
      return [{ index, rule: modifier, points, group: groups.indexOf(group) }];
    });
    return { rule, movers, clamps: groups.map((group) => rules.clamps[group] ?? rules.clampDefault) };
  });
  laidOut.set(rules, laid);
  return laid;
}

/** A day as the modifiers see it: by their order, how each applies (null: silent) and its share in this season. */
interface Day {
  readonly membership: Membership;
  readonly applied: readonly (Applied | null)[];
  readonly shares: Float64Array;
  readonly counted: Counted;
}

function dayOf(known: Known, membership: Membership, { modifiers, counted }: PositionRules): Day {
  const shares = new Float64Array(modifiers.length);
  const applied = modifiers.map((rule, index) => {
    const found = applyWhen(rule.when, known);
    if (found !== null) shares[index] = found.share * phaseShare(rule.phases, membership);
    return found;
  });
  return { membership, applied, shares, counted: countedOn(counted, known) };
}

const shareIn = ({ shares }: Day, { index }: Mover): number => shares[index] ?? 0;

/**
 * What each mover gives. One condition may not outvote all others: beyond its clamp a group's contributions shrink in
 * proportion.
 */
function contributionsOf({ rule, movers, clamps }: Laid, day: Day): Float64Array {
  const { speaks, factorOf } = day.counted;
  const sums = new Float64Array(clamps.length);
  const given = new Float64Array(movers.length);
  for (let i = 0; i < movers.length; i += 1) {
    const mover = movers[i];
    if (mover === undefined) break;
    const factor = speaks ? factorOf(rule.id, mover.rule.group, mover.rule.id) : 1;
    const contribution = factor * mover.points * shareIn(day, mover);
    given[i] = contribution;
    if (mover.group >= 0) sums[mover.group] = (sums[mover.group] ?? 0) + contribution;
  }
  for (let i = 0; i < movers.length; i += 1) {
    const group = movers[i]?.group ?? -1;
    if (group < 0) continue;
    const sum = Math.abs(sums[group] ?? 0);
    const clamp = clamps[group] ?? Infinity;
    if (sum > clamp) given[i] = ((given[i] ?? 0) * clamp) / sum;
  }
  return given;
}

function totalOf({ rule }: Laid, { membership, counted }: Day, given: Float64Array): number {
  let total = seasonPoints(rule, membership, counted);
  for (const contribution of given) total += contribution;
  return total;
}

function evidenceOf(laid: Laid, day: Day, given: Float64Array): Evidence[] {
  const { membership, counted } = day;
  const { id, base } = laid.rule;
  const season = PHASES.filter((phase) => membership[phase] > 0).map((phase): Evidence => {
    const cell = base[phase];
    const rule = `base.${id}.${phase}`;
    return {
      rule,
      signal: 'phase',
      value: null,
      curve: membership[phase],
      contribution: counted.factorOf(id, 'base', rule) * membership[phase] * cell.points,
      grade: cell.grade,
      source: cell.source,
    };
  });
  // The level of counted places is no reason of its own, so no sentence belongs to it.
  const instead = counted.insteadAt(id).map(({ id: rule, share, points }): Evidence => ({
    rule,
    signal: 'waterBody',
    value: null,
    curve: share,
    contribution: points,
    grade: 'measured',
    source: 'L1',
  }));
  const moved = laid.movers.flatMap((mover, i): Evidence[] => {
    const applied = day.applied[mover.index];
    const share = shareIn(day, mover);
    if (applied === null || applied === undefined || share === 0) return [];
    const { id: rule, grade, source } = mover.rule;
    const { signal, value } = applied;
    return [{ rule, signal, value, curve: share, contribution: given[i] ?? 0, grade, source }];
  });
  return [...season, ...instead, ...moved].sort(
    (a, b) => Math.abs(b.contribution) - Math.abs(a.contribution),
  );
}

/**
 * Total and evidence of all places: base by phase plus every modifier that is not silent, less what gives way to
 * counted fish.
 *
 * @param wanted ids of the places that are asked for; all unless told
 * @returns in the order of the rules file, unranked; contributions add up to the total
 */
export function scorePlaces(
  known: Known,
  membership: Membership,
  rules: PositionRules,
  wanted?: ReadonlySet<string>,
): ScoredPlace[] {
  const day = dayOf(known, membership, rules);
  return layOut(rules).flatMap((laid): ScoredPlace[] => {
    const place = laid.rule.id;
    if (wanted?.has(place) === false) return [];
    const given = contributionsOf(laid, day);
    let evidence: readonly Evidence[] | undefined;
    return [
      {
        place,
        total: totalOf(laid, day, given),
        get evidence() {
          return (evidence ??= evidenceOf(laid, day, given));
        },
      },
    ];
  });
}

/** Ranked, highest total first; equal totals keep the order of the rules file. */
export function rankPlaces(scored: readonly ScoredPlace[]): ScoredPlace[] {
  return [...scored].sort((a, b) => b.total - a.total);
}
