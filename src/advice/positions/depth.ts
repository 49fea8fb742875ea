import type { PlaceRule, PositionRules } from '../../config/index.ts';
import { cutAt } from '../depthLimit.ts';
import { applyWhen, phaseShare } from '../rules/apply.ts';
import type { Known } from '../rules/known.ts';
import { PHASES, type PhaseId } from '../types.ts';

/**
 * Depth band of a place, m: the phases' bands blended by membership, then shifted by the day's depth rules and cut at the
 * bottom that this kind of water is taken to have, or that the place reaches.
 */
export function depthBand(
  place: PlaceRule,
  known: Known,
  membership: Readonly<Record<PhaseId, number>>,
  rules: PositionRules,
): readonly [number, number] {
  let from = 0;
  let to = 0;
  for (const phase of PHASES) {
    const band = place.depthM[phase];
    from += membership[phase] * band[0];
    to += membership[phase] * band[1];
  }
  let factor = 1;
  for (const shift of rules.depthShifts) {
    const applied = applyWhen(shift.when, known);
    if (applied !== null) {
      factor *= 1 + (shift.factor - 1) * applied.share * phaseShare(shift.phases, membership);
    }
  }
  const round = (metres: number): number => Math.round(metres * 10) / 10;
  const bottomM = Math.min(rules.deepestM[known.waterBody] ?? Infinity, place.deepestM ?? Infinity);
  return cutAt([round(from * factor), round(to * factor)], Number.isFinite(bottomM) ? bottomM : undefined);
}
