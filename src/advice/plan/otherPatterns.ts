import { closedPlaces, isWindy } from '../safety/closedPlaces.ts';
import type { LocalClock } from './clock.ts';
import { patternsOf, type PlanInputs } from './inputs.ts';
import { blockConditions, castOf, lightPart, seasonOf } from './lure.ts';
import { decidesBetween, longestAt, secondOf, sizeOf, type Standing } from './patterns.ts';
import { fitOf, OF_A_POCKET, reasonsOf, stretchOf, type SayableOf } from './reasons.ts';
import { positionIn, type ScoredDay } from './scoredDay.ts';
import type { Slot } from './slots.ts';
import type { DayPlan, NotOffered, OtherPattern, PlanBlock } from './types.ts';

/** Beside the plan: another pattern as good, one for many fish, one for a big one. */
export function otherPatterns(
  blocks: readonly PlanBlock[],
  slots: readonly Slot[],
  closed: DayPlan['closed'],
  day: ScoredDay,
  inputs: PlanInputs,
  clock: LocalClock,
  said: Set<string>,
): Pick<DayPlan, 'second' | 'manyFish' | 'bigFish'> {
  const { rules, phase, positions } = inputs;
  const open = day.hoursOf(slots.filter((slot) => slot.open));
  const stretch = stretchOf(open);
  // Hours in which one waits ashore for a hazard are no hours of a block, but a pattern beside the plan names no hours.
  const waiting = day.hoursOf(
    slots.filter(
      (slot) => !slot.open && !closed.some(({ fromMs, toMs }) => fromMs <= slot.fromMs && toMs >= slot.toMs),
    ),
  );
  const sayable: SayableOf = (rule, score, place) =>
    [score, ...waiting.map((hour) => hour.score)].every((one) => day.sayable(rule, one, place));
  const light = stretchOf(lightPart(open));
  const total = open.reduce((sum, { weightH }) => sum + weightH, 0);
  const patterns = patternsOf(inputs);
  const { safety, conditions } = inputs;
  const shut = new Set<string>(
    closedPlaces(safety, rules.safety, conditions.waterBody).flatMap(({ places }) => places),
  );
  // Beside the plan nothing is offered out where wind or waves come today, in whichever hours.
  if (isWindy(safety, rules.safety)) for (const place of rules.safety.openWater) shut.add(place);
  const planned = new Set(blocks.map(({ place }) => place));
  // The lake's own pocket is one spot: what the plan fishes there is no other pattern under its second kind.
  const fishesOwnPocket = positions.some(
    ({ place, named }) => OF_A_POCKET.has(place) && named !== undefined && planned.has(place),
  );
  const standings = positions
    .filter(
      ({ place }) => planned.has(place) || (!shut.has(place) && !(fishesOwnPocket && OF_A_POCKET.has(place))),
    )
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
    const planned = longestAt(blocks, place);
    const position = positionIn(place, open, inputs);
    const cast =
      planned ??
      (position === undefined
        ? null
        : castOf(
            blockConditions(inputs.conditions, stretch, light),
            position,
            rules,
            inputs.tackle,
            seasonOf(phase, light),
          ));
    const fit = position && cast ? fitOf(position.depthM, cast.cast) : undefined;
    const because = reasonsOf(place, open, rules.hours, sayable, said, clock, 0, fit);
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
