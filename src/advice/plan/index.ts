import type { RuleBook } from '../../config/rules.ts';
import type { TackleConfig } from '../../config/types.ts';
import type { Conditions } from '../../signals/types.ts';
import { beginsAbove, cutAt } from '../depthLimit.ts';
import { depthBand } from '../positions/depth.ts';
import { knownOf, type Known } from '../rules/known.ts';
import { closedAllDay, closedPlaces, isWindy, type ClosedPlaces } from '../safety/closedPlaces.ts';
import type { SafetyExtras } from '../safety/types.ts';
import { isOfWind } from '../safety/windSide.ts';
import type { HazardLevel, PhaseAdvice, PositionAdvice, SafetyAdvice } from '../types.ts';
import { whyChange, type CutBlock } from './change.ts';
import { clockOf, spanOf, type LocalClock } from './clock.ts';
import { closuresOf, type Closure } from './closures.ts';
import { giveUpOf } from './giveUp.ts';
import type { PlanHour } from './hours.ts';
import { after, hourKnown, NOTHING_EARLIER } from './known.ts';
import { blockConditions, castOf, seasonOf } from './lure.ts';
import { decidesBetween, longestAt, secondOf, sizeOf, type Standing } from './patterns.ts';
import { reasonsOf, stretchOf, type BlockHour, type SayableOf } from './reasons.ts';
import { sayableOf } from './sayable.ts';
import { scoreHour, type HourScore } from './score.ts';
import { openRuns, searchPlan, type Segment } from './search.ts';
import { rounded, slotsOf, type Slot } from './slots.ts';
import type { BeInBy, DayPlan, LeftOut, NotOffered, NotPlanned, OtherPattern, PlanBlock } from './types.ts';

export type { PlanHour } from './hours.ts';

/** Ways by water between places that have a name. */
export interface Ways {
  /** m; undefined where one of them lies on no map, or no water joins them. */
  readonly wayM: (from: string, to: string) => number | undefined;
  readonly boatMs: number;
}

/** When people fish. */
export interface Fishing {
  readonly fromMs: number;
  readonly toMs: number;
  /** Their own hours, and not the light of the day. */
  readonly own: boolean;
  /** Civil dusk does not come. */
  readonly lightAllNight?: true;
}

/** What a plan is made from. */
export interface PlanInputs {
  readonly conditions: Conditions;
  readonly rules: RuleBook;
  readonly phase: PhaseAdvice;
  /** Ranked places of this water: no other is planned. */
  readonly positions: readonly PositionAdvice[];
  readonly safety: SafetyAdvice;
  readonly extras: SafetyExtras;
  readonly tackle: TackleConfig;
  /** Hours of the local day, in order; those of which nothing is known may be left out. */
  readonly hours: readonly PlanHour[];
  /** When the reader fishes; null where neither light nor their own hours are known. */
  readonly fishing: Fishing | null;
  /** What lies before it is past. */
  readonly nowMs: number;
  /** Ways by water between the lake's own places, by name, m, and the boat's speed; left out where nobody knows them. */
  readonly ways?: Ways;
  /** No depth of the plan goes below it, m; left out where nothing is known of a limit. */
  readonly limitM?: number;
}

const HOUR_MS = 3_600_000;
const MINUTE_MS = 60_000;
const NOT_PLANNED: NotOffered = { none: { code: 'notPlanned' } };

function nothing(inputs: PlanInputs, why: NotPlanned, rest: Partial<DayPlan> = {}): DayPlan {
  const { conditions } = inputs;
  return {
    date: conditions.date,
    zone: conditions.zone,
    fishing: null,
    blocks: [],
    second: NOT_PLANNED,
    manyFish: NOT_PLANNED,
    bigFish: NOT_PLANNED,
    closed: [],
    beInBy: null,
    leftOut: null,
    ...rest,
    notPlanned: why,
  };
}

/**
 * The day on one clock: which place in which hours, how to fish it, why then, and when to be off the water. Every place
 * is scored in every hour with that hour's light, wind, pocket, rain, current and heat; the way through the day is the
 * best one that moves seldom. Hours that a hazard closes hold no block, nor do kinds of place that one closes.
 *
 * @returns one to four blocks; none with the reason where nothing can be planned
 */
export function planDay(asked: PlanInputs): DayPlan {
  const inputs = {
    ...asked,
    positions: asked.positions.filter((position) => beginsAbove(position, asked.limitM)),
  };
  const { conditions, rules, hours, positions } = inputs;
  if (inputs.fishing === null) return nothing(inputs, { code: 'noHours' });
  if (!inputs.fishing.own && inputs.fishing.toMs <= inputs.fishing.fromMs)
    return nothing(inputs, { code: 'noLight' });
  const clock = clockOf(conditions.zone);
  const settings = rules.hours.settings;
  const { closed, ashore } = closuresOf({
    ...inputs,
    table: rules.safety,
    closesFromLevel: settings.closesFromLevel,
    clock,
    day: inputs.fishing,
  });
  const whole = rounded(inputs.fishing);
  const fishing = rounded({ fromMs: Math.max(whole.fromMs, inputs.nowMs), toMs: whole.toMs });
  const within = closed.flatMap((closure) => clipped(closure, whole));
  const shown = {
    fishing: spanOf(whole.fromMs, whole.toMs, clock),
    ...(inputs.fishing.lightAllNight === true ? { lightAllNight: true as const } : {}),
    closed: within.map(({ fromMs, toMs, hazard, level }) => ({
      ...spanOf(fromMs, toMs, clock),
      hazard,
      level,
    })),
  };
  if (ashore !== null) return nothing(inputs, { code: 'ashore', hazard: ashore }, shown);
  if (positions.length === 0) return nothing(inputs, { code: 'noPlaces' }, shown);
  const early: EarlyOf = ({ hazard }) =>
    (isWeather(hazard, rules.safety) ? settings.inBeforeWeatherMin : settings.inBeforeMin) * MINUTE_MS;
  const barred = closed.map((closure) => ({ ...closure, fromMs: closure.fromMs - early(closure) }));
  const slots = slotsOf(fishing, hours, barred);
  const day = new ScoredDay(inputs, clock);
  const shut = closedPlaces(inputs.safety, rules.safety, conditions.waterBody);
  const allDay = closedAllDay(shut);
  const open = positions.filter(({ place }) => !allDay.has(place));
  if (open.length === 0)
    return nothing(inputs, { code: 'closed', hazards: [...new Set(allDay.values())], openHours: 0 }, shown);
  const segments = searchPlan({
    slots,
    places: open.map(({ place }) => place),
    valueOf: (place, slot) =>
      isShut(shut, place, slots[slot])
        ? -SHUT_PER_H
        : (day.at(slots[slot]?.hour ?? -1).totals.get(place) ?? -Infinity),
    stepsBetween: stepsBetween(inputs),
    hoursBetween: (a, b) => {
      const way = wayM(inputs, a, b);
      return way === undefined ? undefined : way / (inputs.ways?.boatMs ?? 1) / 3600;
    },
    settings,
  });
  const ahead = within.filter(({ toMs }) => toMs > inputs.nowMs);
  if (segments.length === 0)
    return nothing(inputs, whyNone(slots, ahead, inputs.nowMs > whole.fromMs), shown);
  const cut = segments.map((segment) => cutBlock(segment, slots, day, inputs));
  const said = new Set<string>();
  const blocks = cut.flatMap((block, index) =>
    blockOf(block, cut[index - 1], within, inputs, day, clock, said),
  );
  if (blocks.length === 0) return nothing(inputs, { code: isIcy(inputs) ? 'frozen' : 'nothingHolds' }, shown);
  return {
    date: conditions.date,
    zone: conditions.zone,
    ...shown,
    blocks,
    ...otherPatterns(blocks, slots, day, inputs, clock, said),
    beInBy: beInBy(blocks, within, { ...inputs.fishing, toMs: whole.toMs }, clock, early),
    leftOut: leftOutOf(positions, allDay),
    notPlanned: null,
  };
}

/** A place in hours in which a hazard closes it costs this, points x hours: nobody on the water is better. */
const SHUT_PER_H = 1000;

/** Whether a hazard that comes and goes closes a place in a slot. */
const isShut = (shut: readonly ClosedPlaces[], place: string, slot: Slot | undefined): boolean =>
  slot !== undefined &&
  shut.some(
    ({ places, hours }) =>
      places.includes(place) && hours?.some(({ fromMs, toMs }) => fromMs < slot.toMs && toMs > slot.fromMs),
  );

/** Those told by name. */
const LEFT_OUT = 3;

/** What a hazard keeps from coming first. */
function leftOutOf(
  positions: readonly PositionAdvice[],
  closed: ReadonlyMap<string, string>,
): LeftOut | null {
  const byPoints = [...positions].sort((a, b) => b.total - a.total);
  const first = byPoints.findIndex(({ place }) => !closed.has(place));
  const kept = byPoints.slice(0, Math.max(0, first));
  const hazard = closed.get(kept[0]?.place ?? '');
  if (hazard === undefined) return null;
  const places = kept
    .filter(({ place }) => closed.get(place) === hazard)
    .slice(0, LEFT_OUT)
    .map(({ place, named }) => ({ place, ...(named === undefined ? {} : { named }) }));
  return { code: 'leftOut', hazard, places };
}

function clipped(closure: Closure, { fromMs, toMs }: { fromMs: number; toMs: number }): Closure[] {
  const from = Math.max(closure.fromMs, fromMs);
  const to = Math.min(closure.toMs, toMs);
  return to > from ? [{ ...closure, fromMs: from, toMs: to }] : [];
}

/** @param begun the fishing hours have begun when the plan is made */
function whyNone(slots: readonly Slot[], closed: readonly Closure[], begun: boolean): NotPlanned {
  const open = openRuns(slots).reduce((sum, { hours }) => sum + hours, 0);
  if (closed.length === 0) return { code: begun ? 'over' : 'tooShort', openHours: open };
  return { code: 'closed', hazards: [...new Set(closed.map(({ hazard }) => hazard))], openHours: open };
}

const PATTERN_ORDER = { back: 0, transition: 1, main: 2 } as const;

function patternsOf({ rules }: PlanInputs): ReadonlyMap<string, Standing['pattern']> {
  return new Map(rules.positions.places.map(({ id, pattern }) => [id, pattern]));
}

function stepsBetween(inputs: PlanInputs): (a: string, b: string) => number {
  const patterns = patternsOf(inputs);
  const order = (place: string): number => PATTERN_ORDER[patterns.get(place) ?? 'transition'];
  return (a, b) => Math.abs(order(a) - order(b));
}

/** Way by water between two kinds of place that stand for places with a name, m. */
function wayM({ ways, positions }: PlanInputs, a: string, b: string): number | undefined {
  if (ways === undefined || a === b) return undefined;
  const nameOf = (place: string): string | undefined => positions.find((one) => one.place === place)?.named;
  const [from, to] = [nameOf(a), nameOf(b)];
  return from === undefined || to === undefined ? undefined : ways.wayM(from, to);
}

/** The day's hours, each scored once. */
class ScoredDay {
  readonly sayable: SayableOf;
  private readonly scores = new Map<number, HourScore>();
  private readonly known: Known;
  private readonly places: ReadonlySet<string>;
  private readonly earlier: readonly (typeof NOTHING_EARLIER)[];

  constructor(
    private readonly inputs: PlanInputs,
    private readonly clock: LocalClock,
  ) {
    this.known = knownOf(inputs.conditions);
    this.places = new Set(inputs.positions.map(({ place }) => place));
    this.sayable = sayableOf(inputs.rules.positions, inputs.phase.membership, this.places);
    const before = [NOTHING_EARLIER];
    for (const hour of inputs.hours) {
      before.push(after(before.at(-1) ?? NOTHING_EARLIER, hour, clock.hour(hour.fromMs)));
    }
    this.earlier = before;
  }

  /** How the places stand in an hour of the list; -1: an hour of which nothing is known beyond the day. */
  at(index: number): HourScore {
    const kept = this.scores.get(index);
    if (kept !== undefined) return kept;
    const { inputs, clock, known } = this;
    const hour = inputs.hours[index];
    const seen =
      hour === undefined
        ? { known, signals: known.signals }
        : hourKnown(
            known,
            hour,
            clock.hour((hour.fromMs + hour.toMs) / 2),
            this.earlier[index] ?? NOTHING_EARLIER,
          );
    const score = scoreHour(
      seen,
      inputs.phase.membership,
      inputs.rules.positions,
      inputs.rules.hours,
      this.places,
    );
    this.scores.set(index, score);
    return score;
  }

  hoursOf(slots: readonly Slot[]): BlockHour[] {
    return slots.map(({ fromMs, toMs, hour }) => ({
      weightH: (toMs - fromMs) / HOUR_MS,
      hour: this.inputs.hours[hour],
      score: this.at(hour),
    }));
  }
}

function cutBlock(
  { place, from, to }: Segment,
  slots: readonly Slot[],
  day: ScoredDay,
  inputs: PlanInputs,
): CutBlock {
  const own = slots.slice(from, to);
  const fromMs = own[0]?.fromMs ?? inputs.hours[0]?.fromMs ?? 0;
  const hours = day.hoursOf(own);
  const topM = positionIn(place, hours, inputs)?.depthM[0];
  return { place, fromMs, toMs: own.at(-1)?.toMs ?? fromMs, topM, hours };
}

/** The position of a place as it is in a stretch of hours. */
function positionIn(
  place: string,
  hours: readonly BlockHour[],
  { positions, rules, phase, limitM }: PlanInputs,
): PositionAdvice | undefined {
  const position = positions.find((entry) => entry.place === place);
  const rule = rules.positions.places.find(({ id }) => id === place);
  const middle = hours[Math.floor(hours.length / 2)];
  if (position === undefined || rule === undefined || middle === undefined) return undefined;
  return {
    ...position,
    rank: 1,
    depthM: cutAt(depthBand(rule, middle.score.hour.known, phase.membership, rules.positions), limitM),
  };
}

function blockOf(
  block: CutBlock,
  before: CutBlock | undefined,
  closed: readonly Closure[],
  inputs: PlanInputs,
  day: ScoredDay,
  clock: LocalClock,
  said: Set<string>,
): PlanBlock[] {
  const { rules, conditions, tackle } = inputs;
  const position = positionIn(block.place, block.hours, inputs);
  const rule = rules.positions.places.find(({ id }) => id === block.place);
  if (position === undefined || rule === undefined) return [];
  const stretch = stretchOf(block.hours);
  const cast = castOf(
    blockConditions(conditions, stretch),
    position,
    rules,
    tackle,
    seasonOf(inputs.phase, stretch),
  );
  if (cast === null) return [];
  const because = reasonsOf(
    block.place,
    block.hours,
    rules.hours,
    day.sayable,
    said,
    clock,
    position.depthM[0],
  );
  const way = before === undefined ? undefined : wayM(inputs, before.place, block.place);
  const total = block.hours.reduce((sum, { weightH }) => sum + weightH, 0);
  const points = block.hours.reduce(
    (sum, { weightH, score }) => sum + weightH * (score.totals.get(block.place) ?? 0),
    0,
  );
  return [
    {
      ...spanOf(block.fromMs, block.toMs, clock),
      place: block.place,
      ...(position.named === undefined ? {} : { named: position.named }),
      depthM: position.depthM,
      ...cast,
      because,
      giveUp: giveUpOf(rule, because, rules.hours.giveUp),
      ...fogAt(block.fromMs, inputs, clock),
      ...(way === undefined ? {} : { wayM: way }),
      whyChange: before === undefined ? null : whyChange(before, block, closed, rules.hours, clock),
      score: points / total,
      level: inputs.safety.hazards.reduce<HazardLevel>(
        (most, { level, id }) => (level > most && !closed.some(({ hazard }) => hazard === id) ? level : most),
        1,
      ),
    },
  ];
}

/** Until when likely fog stands over the start of a block. Fog closes nothing: who goes out in it has to be told so. */
function fogAt(fromMs: number, { safety, hours }: PlanInputs, clock: LocalClock): Pick<PlanBlock, 'fogTo'> {
  const fog = safety.hazards.flatMap((one) => [one, ...(one.also ?? [])]).find(({ id }) => id === 'fog');
  if (fog === undefined) return {};
  const day = { fromMs: hours[0]?.fromMs ?? fromMs, toMs: hours.at(-1)?.toMs ?? fromMs };
  const span = (fog.hours ?? [day]).find((one) => one.fromMs <= fromMs && one.toMs > fromMs);
  return span === undefined ? {} : { fogTo: clock.at(span.toMs) };
}

function otherPatterns(
  blocks: readonly PlanBlock[],
  slots: readonly Slot[],
  day: ScoredDay,
  inputs: PlanInputs,
  clock: LocalClock,
  said: Set<string>,
): Pick<DayPlan, 'second' | 'manyFish' | 'bigFish'> {
  const { rules, phase, positions } = inputs;
  const open = day.hoursOf(slots.filter((slot) => slot.open));
  const stretch = stretchOf(open);
  const total = open.reduce((sum, { weightH }) => sum + weightH, 0);
  const patterns = patternsOf(inputs);
  const { safety, conditions } = inputs;
  const shut = new Set<string>(
    closedPlaces(safety, rules.safety, conditions.waterBody).flatMap(({ places }) => places),
  );
  // Beside the plan nothing is offered out where wind or waves come today, in whichever hours.
  if (isWindy(safety, rules.safety)) for (const place of rules.safety.openWater) shut.add(place);
  const planned = new Set(blocks.map(({ place }) => place));
  const standings = positions
    .filter(({ place }) => planned.has(place) || !shut.has(place))
    .map(({ place }): Standing => ({
      place,
      pattern: patterns.get(place) ?? 'transition',
      points:
        open.reduce((sum, { weightH, score }) => sum + weightH * (score.totals.get(place) ?? 0), 0) / total,
    }))
    .sort((a, b) => b.points - a.points);
  const describe = (found: ReturnType<typeof secondOf>): OtherPattern | NotOffered => {
    if ('none' in found) return found;
    const { place } = found;
    const topM = positionIn(place, open, inputs)?.depthM[0];
    const because = reasonsOf(place, open, rules.hours, day.sayable, said, clock, topM);
    const planned = longestAt(blocks, place);
    // Of a place of the plan nothing else is told than the plan tells there.
    if (planned !== undefined)
      return {
        place,
        ...(planned.named === undefined ? {} : { named: planned.named }),
        depthM: planned.depthM,
        lureClass: planned.lure.lureClass,
        because,
        decides: null,
      };
    const position = positionIn(place, open, inputs);
    const cast =
      position === undefined
        ? null
        : castOf(
            blockConditions(inputs.conditions, stretch),
            position,
            rules,
            inputs.tackle,
            seasonOf(phase, stretch),
          );
    if (position === undefined || cast === null) return { none: { code: 'unknown' } };
    return {
      place,
      ...(position.named === undefined ? {} : { named: position.named }),
      depthM: position.depthM,
      lureClass: cast.lure.lureClass,
      because,
      decides: null,
    };
  };
  const second = describe(secondOf(standings, planned, rules.hours));
  const many = describe(sizeOf('many', standings, phase.leading, rules.hours));
  const big = describe(sizeOf('big', standings, phase.leading, rules.hours));
  const against = (
    one: OtherPattern | NotOffered,
    other: OtherPattern | NotOffered,
  ): OtherPattern | NotOffered =>
    'none' in one ? one : { ...one, decides: decidesBetween(one.because, 'none' in other ? null : other) };
  return { second, manyFish: against(many, big), bigFish: against(big, many) };
}

/** How long before a hazard's hours one is in, ms. */
type EarlyOf = (closure: Closure) => number;

/** Numbers of thunder; those of wind are known to the safety room. */
const THUNDER: ReadonlySet<string> = new Set(['thunderPct', 'stormSign']);

/** Whether a hazard is wind, waves or thunder. */
const isWeather = (id: string, table: RuleBook['safety']): boolean =>
  isOfWind({ id }, table) || table.hazards.some((row) => row.id === id && THUNDER.has(row.quantity));

const isIcy = ({ safety }: PlanInputs): boolean => safety.hazards.some(({ id }) => id === 'ice');

function beInBy(
  blocks: readonly PlanBlock[],
  closed: readonly Closure[],
  { toMs, own, lightAllNight }: Fishing,
  clock: LocalClock,
  early: EarlyOf,
): BeInBy | null {
  const first = blocks[0]?.fromMs ?? 0;
  const [hazard] = closed
    .filter(({ fromMs }) => fromMs > first)
    .sort((a, b) => a.fromMs - early(a) - (b.fromMs - early(b)));
  if (hazard !== undefined) {
    const atMs = hazard.fromMs - early(hazard);
    return {
      atMs,
      at: clock.at(atMs),
      because: {
        code: 'hazard',
        hazard: hazard.hazard,
        startsMs: hazard.fromMs,
        starts: clock.at(hazard.fromMs),
      },
    };
  }
  if (lightAllNight === true) return null;
  return { atMs: toMs, at: clock.at(toMs), because: { code: own ? 'fishingHours' : 'dusk' } };
}
