import type { RuleBook, TackleConfig } from '../config/index.ts';
import type { Conditions, HourPoint, SignalId, SignalReport } from '../signals/index.ts';
import { localDateAt, localHourAt } from '../units/time/index.ts';
import { confidenceOf } from './confidence.ts';
import { phaseAdvice } from './phase.ts';
import { earlyBy, inLightOf, planDay, type Fishing, type PlanHour, type Ways } from './plan/index.ts';
import type { DeclaredPlaces } from '../vocabulary/index.ts';
import { placesHere, standingOn } from './positions/here.ts';
import { inOpenHours } from './positions/openHours.ts';
import { positionAdvice } from './positions/positions.ts';
import { kindsOfPoint, type OwnPoint } from './positions/spot.ts';
import { presentCast } from './presentation/index.ts';
import { knownOf } from './rules/known.ts';
import { beginsAbove, cutAt } from './depthLimit.ts';
import { closedAllDay, closedPlaces } from './safety/closedPlaces.ts';
import { darkHoursOf } from './safety/dark.ts';
import { leeOnly, rulesInLee } from './safety/lee.ts';
import { avoidedHours, judgeSafety, safetyHour, type SafetyExtras } from './safety/index.ts';
import { searchPlan } from './searchPlan.ts';
import { smallestSwap } from './swap.ts';
import { tendencyOf } from './tendency.ts';
import type { Advice, LeadFact, PositionAdvice } from './types.ts';

export interface AdviceOptions {
  readonly tackle: TackleConfig;
  /** Today's local hours: they give the periods of the day their clock times. */
  readonly hours?: readonly HourPoint[];
  /** Conditions of the coming days; without them there is no tendency. */
  readonly ahead?: SignalReport['ahead'];
  /** The lake's own pockets and points, first choice first. */
  readonly pockets?: readonly { readonly name: string; readonly bankDeg?: number }[];
  readonly points?: readonly OwnPoint[];
  /** What this water says of its kinds of place; left out, all are ranked but those its kind never has. */
  readonly places?: DeclaredPlaces;
  /** The day by the hour and when the reader fishes; without it nothing is planned. */
  readonly day?: {
    readonly hours: readonly PlanHour[];
    readonly fishing: Fishing | null;
    /** What lies before it is past; left out: nothing. */
    readonly nowMs?: number;
    /** Depth below which there is too little oxygen, m; left out where nothing is known of it. */
    readonly limitM?: number;
  };
  /** Ways by water between the lake's own places; without them a move costs by the kind of place alone. */
  readonly ways?: Ways;
  /** What safety looks at besides the conditions: official alerts, flood status, the lake's kind. */
  readonly safety?: SafetyExtras;
}

/** Below this difference of totals two places are called close. */
const CLOSE = 0.5;

function leadOf(first: PositionAdvice | undefined, second: PositionAdvice | undefined): LeadFact | null {
  if (!first || !second) return null;
  const points = first.total - second.total;
  return { code: points < CLOSE ? 'close' : 'ahead', first: first.place, second: second.place, points };
}

/**
 * Everything an experienced angler would conclude from the day's conditions: season phase, the kinds of place of this water
 * ranked with their reasons, what would swap the first two, a search plan, how to work the lure, what can hurt.
 *
 * A signal that is absent or stale feeds no rule: the rules that need it are silent, confidence drops, the gap is
 * named. Totals rank places; they are no chance of a catch.
 *
 * @param conditions the day's signals, SI
 * @param rules      rule book as read by `loadRules`
 * @param options    the reader's tackle, and what else is known of the lake and its coming days
 * @returns always an answer, also when nothing is known; then with low confidence
 */
export function advise(conditions: Conditions, rules: RuleBook, options: AdviceOptions): Advice {
  const { day } = options;
  const ofDay = knownOf(conditions);
  const known = day?.fishing?.own === true ? inLightOf(ofDay, day.hours, day.fishing) : ofDay;
  const phase = phaseAdvice(known, rules.phases);
  // Light that nobody chose is never dark.
  const darkHours = day?.fishing?.own === true ? darkHoursOf(day.hours, day.fishing) : undefined;
  const extras: SafetyExtras = {
    ...(darkHours === undefined ? {} : { darkHours }),
    hours: options.day?.hours ?? options.hours?.map(safetyHour) ?? [],
    ...(options.safety ?? unaskedSafety(conditions)),
  };
  const safety = judgeSafety(conditions, rules.safety, extras);
  const avoid = avoidedHours(safety, rules.safety);
  const named = (options.points ?? []).flatMap(kindsOfPoint);
  const here = standingOn(placesHere(conditions.waterBody, options.places, named), rules.positions, {
    ...known,
    membership: phase.membership,
  });
  const limitM = options.day?.limitM;
  // Who is kept to sheltered water in some hour is sent to no bank by the wind on it.
  const ranking =
    leeOnly(safety, rules.safety).length === 0 ? rules : { ...rules, positions: rulesInLee(rules) };
  const ranked = positionAdvice({
    known,
    membership: phase.membership,
    rules: ranking.positions,
    today: {
      hours: options.hours ?? [],
      localHour: (atMs) => Math.floor(localHourAt(atMs, conditions.zone)),
      nowMs: conditions.asOfMs,
      ...(avoid === undefined ? {} : { avoid }),
    },
    pockets: options.pockets ?? [],
    points: options.points ?? [],
    here,
  });
  // Nothing is told below the oxygen, in the ranking no more than in the plan.
  const positions = closedMarked(
    ranked
      .filter((position) => beginsAbove(position, limitM))
      .map((position) => ({ ...position, depthM: cutAt(position.depthM, limitM) })),
    closedAllDay(closedPlaces(safety, rules.safety, conditions.waterBody)),
  );
  // Who is sent nowhere near a hazard is told of the places that are open.
  const open = positions.filter(({ closedBy }) => closedBy === undefined);
  const casts = presentCast(conditions, open, rules.lures, options.tackle, {
    membership: phase.membership,
  });
  const [first, second] = open;
  const lead = leadOf(first, second);
  const isGuessed = (id: SignalId): boolean =>
    id === 'clarityM' && conditions.signals.clarityM?.kind === 'estimated';
  const plan =
    options.day === undefined
      ? null
      : planDay({
          conditions,
          rules,
          phase,
          positions,
          safety,
          extras,
          tackle: options.tackle,
          ...options.day,
          ...(options.ways === undefined ? {} : { ways: options.ways }),
          nowMs: options.day.nowMs ?? -Infinity,
        });
  return {
    schema: 'thawline-advice/1',
    phase,
    // After the plan, which says what hazards close.
    positions: positions.map((position) => inOpenHours(position, plan, earlyBy(rules))),
    close: lead?.code === 'close',
    lead,
    swap: first && second ? smallestSwap(known, ranking, first, second, isGuessed) : null,
    searchPlan: searchPlan(open, plan, phase, rules.positions),
    plan,
    casts,
    safety,
    tendency: tendencyOf(
      conditions,
      {
        days: options.ahead ?? [],
        places: here,
        hours: options.hours ?? [],
        safety: extras,
        dateOf: (atMs) => localDateAt(atMs, conditions.zone),
      },
      rules,
    ),
    confidence: confidenceOf(conditions, phase, open, rules.positions),
    gaps: conditions.gaps,
  };
}

/** The ranked places with the hazard that closes a kind of place today. */
const closedMarked = (
  ranked: readonly PositionAdvice[],
  closed: ReadonlyMap<string, string>,
): PositionAdvice[] =>
  ranked.map((position) => {
    const closedBy = closed.get(position.place);
    return closedBy === undefined ? position : { ...position, closedBy };
  });

/** Without word from the caller nobody was asked for alerts, and the kind of water tells whether a dam is above. */
function unaskedSafety(conditions: Conditions): SafetyExtras {
  return { alerts: [], alertsChecked: false, belowDam: conditions.waterBody === 'tailwater' };
}
export { cardOf } from './cards.ts';
export { depthLimitM } from './depthLimit.ts';
export { windOnPlace } from './searchPlan.ts';
export { STEADY_BELOW } from './steady.ts';
export type {
  Advice,
  AirTurn,
  CastCard,
  Confidence,
  ConfidenceFact,
  Evidence,
  Hazard,
  HazardLevel,
  LeadFact,
  LimitFact,
  NotChecked,
  PeriodFact,
  PhaseAdvice,
  PositionAdvice,
  ReasonFact,
  RuleFact,
  SafetyAdvice,
  SearchStep,
  SeasonFact,
  SwapFact,
  Tendency,
  TendencyDay,
  TendencyFact,
  TriggerFact,
} from './types.ts';
