import type { PositionRules } from '../../config/rulesPlaces.ts';
import type { Known } from '../rules/known.ts';
import type { Evidence, LimitFact, PhaseId, PositionAdvice, RuleFact } from '../types.ts';
import { depthBand } from './depth.ts';
import { periodOf, type PeriodDay } from './period.ts';
import { rankPlaces, scorePlaces } from './score.ts';

/** A place of the lake's own. */
interface Named {
  readonly name: string;
  readonly bankDeg?: number;
}

export interface PositionInputs {
  readonly known: Known;
  readonly membership: Readonly<Record<PhaseId, number>>;
  readonly rules: PositionRules;
  readonly today: PeriodDay;
  readonly pockets: readonly Named[];
  readonly points: readonly (Named & { readonly place: string })[];
}

/** Contributions below this are not worth a sentence. */
const WORTH_SAYING = 0.15;

const reasonsOf = (evidence: readonly Evidence[]): RuleFact[] =>
  evidence
    .filter(({ contribution }) => contribution > WORTH_SAYING)
    .map(({ rule }) => ({ code: 'rule', rule }));

function limitOf(evidence: readonly Evidence[], place: string): LimitFact {
  const worst = evidence.find(({ contribution }) => contribution < -WORTH_SAYING);
  return worst === undefined ? { code: 'ownLimit', place } : { code: 'rule', rule: worst.rule };
}

/** All places, ranked, with depth, period, reasons and what limits each. */
export function positionAdvice(inputs: PositionInputs): PositionAdvice[] {
  const { known, membership, rules } = inputs;
  const ranked = rankPlaces(scorePlaces(known, membership, rules));
  // The first pocket is one spot: of the two kinds of place it could stand for, it names the better one.
  const ofPocket = ranked.find(({ place }) => place === 'pocket' || place === 'inflow')?.place;
  return ranked.flatMap(({ place, total, evidence }, index) => {
    const rule = rules.places.find((entry) => entry.id === place);
    if (!rule) return [];
    const spot =
      inputs.points.find((point) => point.place === place) ??
      (place === ofPocket ? inputs.pockets[0] : undefined);
    const position: PositionAdvice = {
      place,
      ...(spot === undefined ? {} : { named: spot.name }),
      ...(spot?.bankDeg === undefined ? {} : { bankDeg: spot.bankDeg }),
      rank: index + 1,
      total,
      depthM: depthBand(rule, known, membership, rules),
      ...periodOf(place, known, membership, rules, inputs.today),
      because: reasonsOf(evidence),
      limitedBy: limitOf(evidence, place),
      evidence,
    };
    return [position];
  });
}
