import type { PlaceId } from '../../vocabulary/index.ts';
import type { PositionRules } from '../../config/rulesPlaces.ts';
import { applyWhen, phaseShare } from '../rules/apply.ts';
import type { Known } from '../rules/known.ts';
import { PHASES, type Evidence, type PhaseId } from '../types.ts';
import { countedOn, type Instead } from './counted.ts';

/** A place with what every rule gave it. */
export interface ScoredPlace {
  readonly place: PlaceId;
  readonly total: number;
  readonly evidence: readonly Evidence[];
}

type Membership = Readonly<Record<PhaseId, number>>;
type Grouped = Evidence & { readonly group: string };

function baseEvidence(rules: PositionRules, place: PlaceId, membership: Membership): Grouped[] {
  const found = rules.places.find((entry) => entry.id === place);
  if (!found) return [];
  return PHASES.filter((phase) => membership[phase] > 0).map((phase) => {
    const cell = found.base[phase];
    return {
      group: 'base',
      rule: `base.${place}.${phase}`,
      signal: 'phase',
      value: null,
      curve: membership[phase],
      contribution: membership[phase] * cell.points,
      grade: cell.grade,
      source: cell.source,
    };
  });
}

/** The level of counted places is no reason of its own, so no sentence belongs to it. */
const insteadEvidence = ({ id, share, points }: Instead): Grouped => ({
  group: 'base',
  rule: id,
  signal: 'waterBody',
  value: null,
  curve: share,
  contribution: points,
  grade: 'measured',
  source: 'L1',
});

/** One condition may not outvote all others: beyond its clamp a group's contributions shrink in proportion. */
function clamped(evidence: readonly Grouped[], rules: PositionRules): Grouped[] {
  const sums = new Map<string, number>();
  for (const { group, contribution } of evidence) sums.set(group, (sums.get(group) ?? 0) + contribution);
  return evidence.map((entry) => {
    if (entry.group === 'base') return entry;
    const sum = Math.abs(sums.get(entry.group) ?? 0);
    const clamp = rules.clamps[entry.group] ?? rules.clampDefault;
    return sum <= clamp ? entry : { ...entry, contribution: (entry.contribution * clamp) / sum };
  });
}

/**
 * Total and evidence of all places: base by phase plus every modifier that is not silent, less what gives way to
 * counted fish.
 *
 * @returns in the order of the rules file, unranked; contributions add up to the total
 */
export function scorePlaces(known: Known, membership: Membership, rules: PositionRules): ScoredPlace[] {
  const active = rules.modifiers.flatMap((rule) => {
    const applied = applyWhen(rule.when, known);
    const share = applied === null ? 0 : applied.share * phaseShare(rule.phases, membership);
    return applied === null || share === 0 ? [] : [{ rule, applied, share }];
  });
  const counted = countedOn(rules.counted, known);
  return rules.places.map(({ id: place }) => {
    const moved = active.flatMap(({ rule, applied, share }) => {
      const points = rule.points[place];
      if (points === undefined) return [];
      const entry: Grouped = {
        group: rule.group,
        rule: rule.id,
        signal: applied.signal,
        value: applied.value,
        curve: share,
        contribution: points * share,
        grade: rule.grade,
        source: rule.source,
      };
      return [entry];
    });
    const evidence = clamped(
      [
        ...[...baseEvidence(rules, place, membership), ...moved].map((entry) => {
          const factor = counted.factorOf(place, entry.group, entry.rule);
          return factor === 1 ? entry : { ...entry, contribution: factor * entry.contribution };
        }),
        ...counted.insteadAt(place).map(insteadEvidence),
      ],
      rules,
    );
    return {
      place,
      total: evidence.reduce((sum, entry) => sum + entry.contribution, 0),
      evidence: evidence
        .map(withoutGroup)
        .sort((a, b) => Math.abs(b.contribution) - Math.abs(a.contribution)),
    };
  });
}

function withoutGroup({ rule, signal, value, curve, contribution, grade, source }: Grouped): Evidence {
  return { rule, signal, value, curve, contribution, grade, source };
}

/** Ranked, highest total first; equal totals keep the order of the rules file. */
export function rankPlaces(scored: readonly ScoredPlace[]): ScoredPlace[] {
  return [...scored].sort((a, b) => b.total - a.total);
}
