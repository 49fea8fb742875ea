import { HOUR_MS } from '../../units/time/index.ts';
import type { PositionAdvice } from '../types.ts';
import type { CutBlock } from './change.ts';
import { cutsIn } from './cutsIn.ts';
import type { PlanInputs } from './inputs.ts';
import { lightOf, type Light } from './light.ts';
import { blockConditions, castOf, lightPart, seasonOf, type BlockCast } from './lure.ts';
import { fitOf, hourReasons, stretchOf } from './reasons.ts';
import { positionIn, type ScoredDay } from './scoredDay.ts';
import { isLowLight } from './score.ts';
import type { Segment } from './search.ts';
import type { Slot } from './slots.ts';

/** A block as it is cut, with how it is fished. */
export interface FishedBlock extends CutBlock {
  readonly position: PositionAdvice;
  readonly cast: BlockCast;
}

/** A stretch at a place with how it is fished; null where no lure can be worked there. */
function fished(
  { place, from, to }: Segment,
  slots: readonly Slot[],
  day: ScoredDay,
  inputs: PlanInputs,
): FishedBlock | null {
  const own = slots.slice(from, to);
  const fromMs = own[0]?.fromMs ?? inputs.hours[0]?.fromMs ?? 0;
  const hours = day.hoursOf(own);
  const lit = lightPart(hours);
  const light = stretchOf(lit);
  const position = positionIn(place, lit, inputs);
  if (position === undefined) return null;
  const cast = castOf(
    blockConditions(inputs.conditions, stretchOf(hours), light),
    position,
    inputs.rules,
    inputs.tackle,
    seasonOf(inputs.phase, light),
  );
  if (cast === null) return null;
  const fit = fitOf(position.depthM, cast.cast);
  return { place, fromMs, toMs: own.at(-1)?.toMs ?? fromMs, fit, hours, position, cast };
}

interface LightRun {
  readonly light: Light;
  readonly from: number;
  readonly to: number;
}

const hoursIn = (slots: readonly Slot[], from: number, to: number): number =>
  slots.slice(from, to).reduce((sum, slot) => sum + (slot.toMs - slot.fromMs) / HOUR_MS, 0);

/** Stretches of open slots in one kind of light, in order; those whose sun is not known are left out. */
function lightRuns(slots: readonly Slot[], day: ScoredDay): LightRun[] {
  const runs: LightRun[] = [];
  for (const [at, { open, hour }] of slots.entries()) {
    const sun = day.at(hour).hour.signals.sunAltitudeDeg;
    if (!open || sun === undefined) continue;
    const last = runs.at(-1);
    if (last?.light === lightOf(sun) && last.to === at) runs[runs.length - 1] = { ...last, to: at + 1 };
    else runs.push({ light: lightOf(sun), from: at, to: at + 1 });
  }
  return runs;
}

/** Slots that begin a kind of light for which another lure is tied on at a place. */
export type TurnsOf = (place: string) => readonly number[];

/** How much of the day beside a turn is asked which lure it wants, slots: light that is far off is no neighbour. */
const NEIGHBOURING_SLOTS = 6;

/**
 * Where the light turns so that one ties on another lure without moving: from the low light that brings fish up to a
 * place to the day, and at both ends of the dark.
 */
export function turnsOf(slots: readonly Slot[], day: ScoredDay, inputs: PlanInputs): TurnsOf {
  const runs = lightRuns(slots, day);
  const found = new Map<string, readonly number[]>();
  return (place) => {
    const kept = found.get(place);
    if (kept !== undefined) return kept;
    const turns = runs.flatMap((run, index): number[] => {
      const before = runs[index - 1];
      if (before?.to !== run.from) return [];
      const earlier = { place, from: Math.max(before.from, run.from - NEIGHBOURING_SLOTS), to: run.from };
      const later = { place, from: run.from, to: Math.min(run.to, run.from + NEIGHBOURING_SLOTS) };
      const [one, other] = [fished(earlier, slots, day, inputs), fished(later, slots, day, inputs)];
      if (one === null || other === null || one.cast.lure.lureClass === other.cast.lure.lureClass) return [];
      const dark = before.light === 'night' || run.light === 'night';
      return dark || comesUp(before.light === 'low' ? one : other, inputs) ? [run.from] : [];
    });
    found.set(place, turns);
    return turns;
  };
}

/** Whether the low light of a stretch brings fish up there: in water warm enough for it, at a place that gains. */
const comesUp = ({ place, hours, fit }: FishedBlock, { rules }: PlanInputs): boolean =>
  hours.every(({ score }) => isLowLight(score)) &&
  hourReasons(place, hours, rules.hours, fit).some(({ reason }) => reason.code === 'lowLight');

/** The blocks of the day: segments in which the lure changes with the light are cut there; nobody moves, so nothing is paid. */
export function fishedBlocks(
  segments: readonly Segment[],
  slots: readonly Slot[],
  day: ScoredDay,
  inputs: PlanInputs,
  turns: TurnsOf,
): FishedBlock[] {
  const { shortestCutH } = inputs.rules.hours.settings;
  const fish = (part: Segment): FishedBlock[] => {
    const block = fished(part, slots, day, inputs);
    return block === null ? [] : [block];
  };
  return segments.flatMap((segment) => {
    const { cuts } = cutsIn(
      turns(segment.place),
      segment,
      (from, to) => hoursIn(slots, from, to),
      shortestCutH,
    );
    const parts: { readonly segment: Segment; readonly blocks: readonly FishedBlock[] }[] = [];
    for (const [index, to] of [...cuts, segment.to].entries()) {
      const part = { ...segment, from: cuts[index - 1] ?? segment.from, to };
      const blocks = fish(part);
      const before = parts.at(-1);
      // Over all of its hours one part may want the lure of the other: then they are one.
      if (before !== undefined && lureOf(before.blocks) === lureOf(blocks)) {
        const both = { ...part, from: before.segment.from };
        parts[parts.length - 1] = { segment: both, blocks: fish(both) };
      } else parts.push({ segment: part, blocks });
    }
    return parts.flatMap(({ blocks }) => blocks);
  });
}

const lureOf = ([block]: readonly FishedBlock[]): string | undefined => block?.cast.lure.lureClass;
