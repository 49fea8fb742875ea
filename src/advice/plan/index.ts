import { beginsAbove } from '../depthLimit.ts';
import { closedAllDay, closedPlaces, type ClosedPlaces } from '../safety/closedPlaces.ts';
import type { HazardLevel, PositionAdvice } from '../types.ts';
import { beInBy, earlyBy } from './beIn.ts';
import { whyChange } from './change.ts';
import { clockOf, spanOf, type LocalClock } from './clock.ts';
import { closuresOf, type Closure } from './closures.ts';
import { fishedBlocks, turnsOf, type FishedBlock } from './cut.ts';
import { giveUpOf } from './giveUp.ts';
import { patternsOf, type PlanInputs } from './inputs.ts';
import { hoursUnknown, lateStart } from './lateStart.ts';
import { cutByLight } from './light.ts';
import { otherPatterns } from './otherPatterns.ts';
import { reasonsOf } from './reasons.ts';
import { ScoredDay } from './scoredDay.ts';
import { isLowLight } from './score.ts';
import { openRuns, searchPlan } from './search.ts';
import { rounded, slotsOf, type Slot } from './slots.ts';
import type { DayPlan, LeftOut, NotOffered, NotPlanned, PlanBlock } from './types.ts';

export type { PlanHour } from './hours.ts';
export type { Fishing, PlanInputs, Ways } from './inputs.ts';

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
    hours: cutByLight(asked.hours),
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
  const early = earlyBy(rules);
  const barred = closed.map((closure) => ({ ...closure, fromMs: closure.fromMs - early(closure) }));
  const slots = slotsOf(fishing, hours, barred);
  const day = new ScoredDay(inputs, clock);
  const shut = closedPlaces(inputs.safety, rules.safety, conditions.waterBody);
  const allDay = closedAllDay(shut);
  const open = positions.filter(({ place }) => !allDay.has(place));
  if (open.length === 0)
    return nothing(inputs, { code: 'closed', hazards: [...new Set(allDay.values())], openHours: 0 }, shown);
  const turns = turnsOf(slots, day, inputs);
  const segments = searchPlan({
    slots,
    turnsOf: turns,
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
    isBrief: (slot) => isLowLight(day.at(slots[slot]?.hour ?? -1)),
    settings,
  });
  const ahead = within.filter(({ toMs }) => toMs > inputs.nowMs);
  if (segments.length === 0) {
    const why = whyNone(slots, ahead, inputs.nowMs > whole.fromMs);
    const untold = why.code === 'closed' && hoursUnknown(why, hours, rules.safety);
    return nothing(inputs, untold ? { ...why, hoursUnknown: true } : why, shown);
  }
  const cut = fishedBlocks(segments, slots, day, inputs, turns);
  const said = new Set<string>();
  const blocks = cut.flatMap((block, index) =>
    blockOf(block, { before: cut[index - 1], after: cut.slice(index + 1) }, within, inputs, day, clock, said),
  );
  if (blocks.length === 0) return nothing(inputs, { code: isIcy(inputs) ? 'frozen' : 'nothingHolds' }, shown);
  return {
    date: conditions.date,
    zone: conditions.zone,
    ...shown,
    blocks,
    ...otherPatterns(blocks, slots, shown.closed, day, inputs, clock, said),
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

function blockOf(
  block: FishedBlock,
  { before, after }: { readonly before: FishedBlock | undefined; readonly after: readonly FishedBlock[] },
  closed: readonly Closure[],
  inputs: PlanInputs,
  day: ScoredDay,
  clock: LocalClock,
  said: Set<string>,
): PlanBlock[] {
  const { rules } = inputs;
  const { position, cast } = block;
  const rule = rules.positions.places.find(({ id }) => id === block.place);
  if (rule === undefined) return [];
  const again = after.filter(({ place }) => place === block.place).length;
  const because = reasonsOf(
    block.place,
    block.hours,
    rules.hours,
    day.sayable,
    said,
    clock,
    again,
    block.fit,
  );
  const way = before === undefined ? undefined : wayM(inputs, before.place, block.place);
  const startAt = before === undefined ? lateStart(block, inputs, closed, clock) : undefined;
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
      giveUp: giveUpOf(
        rule,
        because,
        rules.hours.giveUp,
        rules.lures.classes.find(({ id }) => id === cast.lure.lureClass),
        leastWindMs(block),
      ),
      ...fogAt(block.fromMs, inputs, clock),
      ...(startAt === undefined ? {} : { startAt }),
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

/** Wind of the calmest hour of a block; 0 where no hour of it is known, which may then be calm. */
const leastWindMs = ({ hours }: FishedBlock): number =>
  Math.min(...hours.map(({ hour }) => hour?.windMs ?? 0));

/** Until when likely fog stands over the start of a block. Fog closes nothing: who goes out in it has to be told so. */
function fogAt(fromMs: number, { safety, hours }: PlanInputs, clock: LocalClock): Pick<PlanBlock, 'fogTo'> {
  const fog = safety.hazards.flatMap((one) => [one, ...(one.also ?? [])]).find(({ id }) => id === 'fog');
  if (fog === undefined) return {};
  const day = { fromMs: hours[0]?.fromMs ?? fromMs, toMs: hours.at(-1)?.toMs ?? fromMs };
  const span = (fog.hours ?? [day]).find((one) => one.fromMs <= fromMs && one.toMs > fromMs);
  return span === undefined ? {} : { fogTo: clock.at(span.toMs) };
}

const isIcy = ({ safety }: PlanInputs): boolean => safety.hazards.some(({ id }) => id === 'ice');
export { clockOf } from './clock.ts';
export { NOTHING_EARLIER, after, hourKnown, inLightOf } from './known.ts';
export { earlyBy, type EarlyOf } from './beIn.ts';
export { cutByLight } from './light.ts';
export { longestAt } from './patterns.ts';
export type {
  BeInBy,
  BlockPace,
  ClockSpan,
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
} from './types.ts';
