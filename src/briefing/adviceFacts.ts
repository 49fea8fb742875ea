/** An advice as the document holds it: each thing to be said as a code with its numbers, which `words` says. */
import {
  type Advice,
  type AirTurn,
  cardOf,
  type CastCard,
  type ConfidenceFact,
  type Hazard,
  type HazardLevel,
  type LeadFact,
  type LimitFact,
  type NotChecked,
  type PositionAdvice,
  type ReasonFact,
  type SafetyAdvice,
  type SeasonFact,
  type SwapFact,
  type TendencyDay,
  type TendencyFact,
  type TriggerFact,
  windOnPlace,
} from '../advice/index.ts';
import type {
  BeInBy,
  DayPlan,
  GiveUp,
  LeftOut,
  NoPattern,
  NotOffered,
  NotPlanned,
  OtherPattern,
  PlanBlock,
  PlanChange,
  PlanReason,
} from '../advice/plan/index.ts';
import type { Presentation } from '../advice/presentation/index.ts';
import type { Briefing, IssuedBriefing } from './document/briefing.ts';
import type { Statement } from './document/fact.ts';
import type { HazardFacts } from './document/hazard.ts';
import type { CastFacts } from './document/place.ts';
import type { PlanFacts } from './document/plan.ts';
import { without } from './without.ts';

/** A hazard without what the document keeps beside it, or only the plan asks for. */
export type ToldHazard = Told<Hazard>;
type Own = 'level' | 'source' | 'closes' | 'hours' | 'also' | 'text' | 'cut' | 'url';
type Told<T> = T extends unknown ? Omit<T, Own> & Milder : never;
interface Milder {
  readonly also?: readonly ToldHazard[];
}

/** What an advice has to say, among the facts of all rooms. */
export type AdviceStatement =
  /** Words that the rules keep under a key: what a place is called, how to search it. */
  | { readonly code: 'rules.words'; readonly key: string }
  /** How a place is searched; where the wind of its hours comes from, degrees, where that is known. */
  | {
      readonly code: 'advice.searchStep';
      readonly place: string;
      readonly named?: string;
      readonly windFromDeg?: number;
    }
  | { readonly code: 'advice.lure'; readonly lure: string }
  | { readonly code: 'advice.season'; readonly of: SeasonFact }
  | { readonly code: 'advice.reason'; readonly of: ReasonFact }
  /** Nothing known today speaks for the place. */
  | { readonly code: 'advice.noReason' }
  | { readonly code: 'advice.limit'; readonly of: LimitFact }
  | { readonly code: 'advice.lead'; readonly of: LeadFact }
  | { readonly code: 'advice.swap'; readonly of: SwapFact }
  | { readonly code: 'advice.confidence'; readonly of: readonly ConfidenceFact[] }
  | { readonly code: 'advice.notChecked'; readonly of: NotChecked }
  /** Why a day is better or worse, the turns of its air, and the hazard worth a word ahead. */
  | {
      readonly code: 'advice.day';
      readonly because: TendencyFact;
      readonly turns: readonly AirTurn[];
      readonly danger?: { readonly level: HazardLevel; readonly hazard: ToldHazard };
    }
  | { readonly code: 'advice.trigger'; readonly of: TriggerFact }
  | { readonly code: 'plan.reason'; readonly of: PlanReason }
  | { readonly code: 'plan.change'; readonly of: PlanChange }
  | { readonly code: 'plan.giveUp'; readonly of: GiveUp }
  | { readonly code: 'plan.noPattern'; readonly of: NoPattern }
  | { readonly code: 'plan.leftOut'; readonly of: LeftOut }
  | { readonly code: 'plan.notPlanned'; readonly of: NotPlanned };

const fact = (statement: AdviceStatement): Statement => statement;

const lure = (id: string): Statement => fact({ code: 'advice.lure', lure: id });
const kept = (key: string): Statement => fact({ code: 'rules.words', key });
/** What a kind of place is called. */
export const placeName = (place: string): Statement => kept(`place.${place}.name`);

/** A ranked place as facts, with the numbers that its row is made from. */
export interface RankedPlace extends Pick<
  PositionAdvice,
  'place' | 'named' | 'rank' | 'total' | 'depthM' | 'period' | 'bound' | 'hours'
> {
  readonly name: Statement;
  readonly because: readonly Statement[];
  readonly limitedBy: Statement | null;
  readonly evidence: readonly {
    readonly signal: string;
    readonly value: number | null;
    readonly contribution: number;
    readonly sentence: Statement;
  }[];
}

/** What a document takes from an advice. */
export interface AdviceFacts {
  readonly phase: IssuedBriefing['phase'];
  readonly positions: readonly RankedPlace[];
  /** Set where first and second are close. */
  readonly close: Statement | null;
  readonly swap: Statement | null;
  readonly searchPlan: IssuedBriefing['searchPlan'];
  readonly casts: readonly CastFacts[];
  readonly safety: Briefing['safety'];
  readonly tendency: IssuedBriefing['tendency'];
  readonly confidence: IssuedBriefing['confidence'];
  readonly gaps: Advice['gaps'];
}

/** An advice as facts: what a document keeps of it, in codes with their numbers, SI. */
export function adviceFacts(advice: Advice): AdviceFacts {
  const { phase, lead, swap, searchPlan, confidence } = advice;
  return {
    phase: { leading: phase.leading, because: fact({ code: 'advice.season', of: phase.because }) },
    // The page ranks what is open; the plan says what a hazard keeps from coming first.
    positions: advice.positions
      .filter(({ closedBy }) => closedBy === undefined)
      .map((position, index) => rankedPlace({ ...position, rank: index + 1 })),
    close: lead?.code === 'close' ? fact({ code: 'advice.lead', of: lead }) : null,
    swap: swap === null ? null : fact({ code: 'advice.swap', of: swap }),
    searchPlan: searchPlan.map(({ place, named, minutes }) => ({
      place,
      minutes,
      step: searchStep(advice, place, named),
      moveOn: kept(`place.${place}.moveOn`),
    })),
    casts: advice.casts.map((of) => castFacts(cardOf(of))),
    safety: safetyFacts(advice.safety),
    tendency: tendencyFacts(advice.tendency),
    confidence: {
      word: confidence.word,
      because: fact({ code: 'advice.confidence', of: confidence.because }),
    },
    gaps: advice.gaps,
  };
}

function searchStep(advice: Advice, place: string, named: string | undefined): Statement {
  const windFromDeg = windOnPlace(advice, place);
  return fact({
    code: 'advice.searchStep',
    place,
    ...(named === undefined ? {} : { named }),
    ...(windFromDeg === undefined ? {} : { windFromDeg }),
  });
}

function rankedPlace(position: PositionAdvice): RankedPlace {
  const { place, named, rank, total, depthM, period, bound, hours, because, limitedBy, evidence } = position;
  return {
    place,
    ...(named === undefined ? {} : { named }),
    rank,
    total,
    depthM,
    period,
    ...(bound === undefined ? {} : { bound }),
    ...(hours === undefined ? {} : { hours }),
    name: placeName(place),
    because:
      because.length === 0
        ? [fact({ code: 'advice.noReason' })]
        : because.map((of) => fact({ code: 'advice.reason', of })),
    limitedBy: fact({ code: 'advice.limit', of: limitedBy }),
    evidence: evidence.map(({ rule, signal, value, contribution }) => ({
      signal,
      value,
      contribution,
      sentence: fact({ code: 'advice.reason', of: { code: 'rule', rule } }),
    })),
  };
}

export function castFacts(card: CastCard): CastFacts {
  const told: CastStatement = { code: 'cast', of: card.told };
  const numbers = without(card, 'told', 'contactApplies', 'ratedDepthM', 'fallMs', 'countS', 'score');
  return { ...numbers, path: [...numbers.path], lureClass: lure(card.told.lureClass), told };
}

/** How a class is worked: several sentences, told together. */
export interface CastStatement {
  readonly code: 'cast';
  readonly of: Presentation;
}

function toldHazard(hazard: Hazard): ToldHazard {
  const { also, ...rest } = hazard;
  // `Omit` does not go through a union; what is left is the same hazard without these keys.
  const told = without(
    { text: '', cut: false, url: '', ...rest },
    'level',
    'source',
    'closes',
    'hours',
    'text',
    'cut',
    'url',
  ) as ToldHazard;
  return also === undefined ? told : { ...told, also: also.map(toldHazard) };
}

function hazardFacts(hazard: Hazard): HazardFacts {
  const { id, level, source } = hazard;
  return {
    id,
    level,
    source,
    told: toldHazard(hazard),
    ...(hazard.code === 'official'
      ? {
          official: {
            issuer: source,
            text: hazard.text,
            endsMs: hazard.endsMs,
            ...(hazard.cut === undefined ? {} : { cut: hazard.cut }),
            ...(hazard.url === undefined ? {} : { url: hazard.url }),
          },
        }
      : {}),
  };
}

const safetyFacts = ({ level, hazards, notChecked }: SafetyAdvice): Briefing['safety'] => ({
  level,
  hazards: hazards.map(hazardFacts),
  notChecked: notChecked.map((of) => fact({ code: 'advice.notChecked', of })),
  deferTo: kept('safety.deferTo'),
});

/** Levels of danger from here are told of a day ahead. */
const TOLD_LEVEL = 3;

const dayFact = (because: TendencyFact, turns: readonly AirTurn[], day?: TendencyDay): Statement =>
  fact({
    code: 'advice.day',
    because,
    turns,
    ...(day === undefined || day.hazard === null || day.level < TOLD_LEVEL
      ? {}
      : { danger: { level: day.level, hazard: toldHazard(day.hazard) } }),
  });

function tendencyFacts(tendency: Advice['tendency']): IssuedBriefing['tendency'] {
  if (tendency === null) return null;
  const { word, because, trigger, days, turnsToday, bestDay } = tendency;
  return {
    word,
    because: dayFact(because, turnsToday),
    trigger: fact({ code: 'advice.trigger', of: trigger }),
    days: days.map((day) => ({
      date: day.date,
      word: day.word,
      firstPlace: day.firstPlace,
      name: placeName(day.firstPlace),
      because: dayFact(day.because, day.turns, day),
    })),
    ...(bestDay === undefined
      ? {}
      : { bestDay: { date: bestDay.date, because: dayFact(bestDay.because, []) } }),
  };
}

const reasons = (because: readonly PlanReason[]): Statement[] =>
  because.map((of) => fact({ code: 'plan.reason', of }));

function block(one: PlanBlock): PlanFacts['blocks'][number] {
  return {
    fromMs: one.fromMs,
    toMs: one.toMs,
    from: one.from,
    to: one.to,
    place: one.place,
    name: placeName(one.place),
    ...(one.named === undefined ? {} : { named: one.named }),
    depthM: [one.depthM[0], one.depthM[1]],
    lureClass: lure(one.lure.lureClass),
    weightG: one.lure.weightG,
    ...(one.lure.baitM === undefined ? {} : { baitM: one.lure.baitM }),
    because: reasons(one.because),
    giveUp: fact({ code: 'plan.giveUp', of: one.giveUp }),
    ...(one.fogTo === undefined ? {} : { fogTo: one.fogTo }),
    ...(one.startAt === undefined ? {} : { startAt: one.startAt }),
    ...(one.wayM === undefined ? {} : { wayM: Math.round(one.wayM) }),
    whyChange: one.whyChange === null ? null : fact({ code: 'plan.change', of: one.whyChange }),
    cast: castFacts(one.cast),
  };
}

function pattern(one: OtherPattern | NotOffered): PlanFacts['second'] {
  if ('none' in one) return { none: fact({ code: 'plan.noPattern', of: one.none }) };
  return {
    place: one.place,
    name: placeName(one.place),
    ...(one.named === undefined ? {} : { named: one.named }),
    depthM: [one.depthM[0], one.depthM[1]],
    lureClass: lure(one.lureClass),
    because: reasons(one.because),
  };
}

/** What sets the hour to be in by; for programs, no page says it. */
const beInBecause = ({ because }: BeInBy): Statement => because;

/** A plan as the document holds it. */
export function planFacts(plan: DayPlan): PlanFacts {
  return {
    fishing: plan.fishing,
    blocks: plan.blocks.map(block),
    second: pattern(plan.second),
    manyFish: pattern(plan.manyFish),
    bigFish: pattern(plan.bigFish),
    closed: plan.closed.map((closed) => ({ ...closed })),
    beInBy:
      plan.beInBy === null
        ? null
        : { atMs: plan.beInBy.atMs, at: plan.beInBy.at, because: beInBecause(plan.beInBy) },
    ...(plan.lightAllNight === undefined ? {} : { lightAllNight: true as const }),
    ...(plan.leftOut === null ? {} : { leftOut: fact({ code: 'plan.leftOut', of: plan.leftOut }) }),
    notPlanned: plan.notPlanned === null ? null : fact({ code: 'plan.notPlanned', of: plan.notPlanned }),
  };
}
