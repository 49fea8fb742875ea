import type { PositionRules } from '../../config/index.ts';
import type { Known } from '../rules/known.ts';
import { isTrueOf, type Judged } from '../rules/truth.ts';
import {
  PHASES,
  type Evidence,
  type LimitFact,
  type PhaseId,
  type PositionAdvice,
  type ReasonFact,
} from '../types.ts';
import { saysItself } from '../phase.ts';
import { depthBand } from './depth.ts';
import { namesOf, withOneCount } from './named.ts';
import { periodOf, type PeriodDay } from './period.ts';
import { rankPlaces, scorePlaces } from './score.ts';
import { bestPoint, type OwnPoint } from './spot.ts';

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
  readonly points: readonly OwnPoint[];
  /** Kinds of place this water has; others are not ranked. Left out: all are. */
  readonly here?: ReadonlySet<string>;
}

/** Contributions below this are not worth a sentence. */
const WORTH_SAYING = 0.15;

/** Whether the sentence of a rule is true of the day: by the conditions beside it, in its season, of a place it names. */
function truthOf({
  known,
  membership,
  rules,
  here,
}: PositionInputs): (rule: string, place: string) => boolean {
  const day: Judged = {
    ...known,
    membership,
    places: here ?? new Set(rules.places.map(({ id }) => id)),
  };
  const truths = new Map<string, boolean>();
  for (const { id, trueWhen } of rules.modifiers) truths.set(id, isTrueOf(trueWhen, day));
  for (const place of rules.places) {
    for (const phase of PHASES) {
      const said = saysItself(phase, membership) && isTrueOf(place.base[phase].trueWhen, day);
      truths.set(`base.${place.id}.${phase}`, said);
    }
  }
  const names = namesOf(rules);
  return (rule, place) => truths.get(rule) === true && names(rule, place);
}

function reasonsOf(
  evidence: readonly Evidence[],
  place: string,
  isTrue: (rule: string, place: string) => boolean,
): ReasonFact[] {
  const speaking = evidence.filter(({ contribution }) => contribution > WORTH_SAYING);
  const told = withOneCount(speaking.filter(({ rule }) => isTrue(rule, place))).map(
    ({ rule }) => ({ code: 'rule', rule }) as const,
  );
  return told.length === 0 && speaking.length > 0 ? [{ code: 'timeless', place }] : told;
}

/** What limits it today, where that is true of the day; else what always does. */
function limitOf(
  evidence: readonly Evidence[],
  place: string,
  isTrue: (rule: string, place: string) => boolean,
): LimitFact {
  const worst = evidence.find(
    ({ contribution, rule }) => contribution < -WORTH_SAYING && isTrue(rule, place),
  );
  return worst === undefined ? { code: 'ownLimit', place } : { code: 'rule', rule: worst.rule };
}

/** All places, ranked, with depth, period, reasons and what limits each. */
export function positionAdvice(inputs: PositionInputs): PositionAdvice[] {
  const { known, membership, rules } = inputs;
  const isTrue = truthOf(inputs);
  const ranked = rankPlaces(scorePlaces(known, membership, rules)).filter(
    ({ place }) => inputs.here?.has(place) !== false,
  );
  const totals = new Map<string, number>(ranked.map(({ place, total }) => [place, total]));
  // The first pocket is one spot: of the two kinds of place it could stand for, it names the better one.
  const ofPocket = ranked.find(({ place }) => place === 'pocket' || place === 'inflow')?.place;
  return ranked.flatMap(({ place, total, evidence }, index) => {
    const rule = rules.places.find((entry) => entry.id === place);
    if (!rule) return [];
    const spot =
      bestPoint(inputs.points, place, (kind) => totals.get(kind)) ??
      (place === ofPocket ? inputs.pockets[0] : undefined);
    const position: PositionAdvice = {
      place,
      ...(spot === undefined ? {} : { named: spot.name }),
      ...(spot?.bankDeg === undefined ? {} : { bankDeg: spot.bankDeg }),
      rank: index + 1,
      total,
      depthM: depthBand(rule, known, membership, rules),
      ...periodOf(place, known, membership, rules, inputs.today),
      because: reasonsOf(evidence, place, isTrue),
      limitedBy: limitOf(evidence, place, isTrue),
      evidence,
    };
    return [position];
  });
}
