import { HOUR_MS } from '../../units/time/index.ts';
import type { HourRules } from '../../config/index.ts';
import { cutsIn } from './cutsIn.ts';
import type { Slot } from './slots.ts';

/** A stretch of slots at one place. */
export interface Segment {
  readonly place: string;
  /** First slot, and the one after the last. */
  readonly from: number;
  readonly to: number;
}

type Settings = HourRules['settings'];

interface Run {
  readonly from: number;
  readonly to: number;
  readonly hours: number;
}

const hoursOf = ({ fromMs, toMs }: Slot): number => (toMs - fromMs) / HOUR_MS;

/** Stretches of open slots in a row. */
export function openRuns(slots: readonly Slot[]): Run[] {
  const runs: { from: number; to: number; hours: number }[] = [];
  for (const [index, slot] of slots.entries()) {
    if (!slot.open) continue;
    const last = runs.at(-1);
    if (last?.to === index) {
      last.to = index + 1;
      last.hours += hoursOf(slot);
    } else runs.push({ from: index, to: index + 1, hours: hoursOf(slot) });
  }
  return runs;
}

interface State {
  readonly value: number;
  readonly place: number;
  readonly from: number;
  readonly to: number;
  readonly before: State | null;
  readonly blocks: number;
}

/** A stretch with nobody on the water costs this, points x hours: more than any place can be worth less than another. */
const IDLE_PER_H = 20;
const EPSILON = 1e-9;

export interface SearchInputs {
  readonly slots: readonly Slot[];
  readonly places: readonly string[];
  /** Points of a place in a slot. */
  readonly valueOf: (place: string, slot: number) => number;
  /** Steps between the backs, the way there and the main lake. */
  readonly stepsBetween: (a: string, b: string) => number;
  /** Hours under way between two places by water; undefined where the way is not known. */
  readonly hoursBetween?: (a: string, b: string) => number | undefined;
  /** Whether a slot lies in a light that passes soon: a stretch of such slots alone may be a shorter block. */
  readonly isBrief?: (slot: number) => boolean;
  /** Slots at which the lure changes with the light at a place: a stretch over one is two blocks, and none has moved. */
  readonly turnsOf?: (place: string) => readonly number[];
  readonly settings: Settings;
}

/**
 * The best way through the day: which place when, so that the sum of points over the hours less the cost of moves is
 * highest (dynamic programming over slots, blocks and places). Blocks are never shorter than the settings allow, unless
 * a hazard leaves only a shorter stretch, or the low light of dawn or dusk is one: it passes within the hour, and a move
 * for it costs what any move does. A place fished for long gives less, also when one comes back to it.
 *
 * @returns segments in order of time; empty when no stretch is long enough
 */
export function searchPlan(inputs: SearchInputs): Segment[] {
  const { slots, settings, valueOf } = inputs;
  const runs = openRuns(slots).filter(({ hours }) => hours >= settings.shortestCutH - EPSILON);
  const open = openRuns(slots).reduce((sum, { hours }) => sum + hours, 0);
  if (runs.length === 0 || open < settings.shortestBlockH - EPSILON) return [];
  const places = worthwhile(inputs, runs);
  // Points summed from the first slot on, place by place.
  const sums = places.map((place) => {
    const row = [0];
    for (const [index, slot] of slots.entries()) {
      row.push((row[index] ?? 0) + (slot.open ? valueOf(place, index) * hoursOf(slot) : 0));
    }
    return row;
  });
  const at = [0];
  for (const [index, slot] of slots.entries()) at.push((at[index] ?? 0) + hoursOf(slot));
  const costs = places.map((a) => places.map((b) => moveCost(inputs, a, b)));
  let reached: State[] = [{ value: 0, place: -1, from: -1, to: -1, before: null, blocks: 0 }];
  for (const run of runs) {
    reached = throughRun(reached, run, {
      at,
      sums,
      costs,
      settings,
      brief: slots.map((_, slot) => inputs.isBrief?.(slot) === true),
      turns: places.map((place) => inputs.turnsOf?.(place) ?? []),
      count: places.length,
    });
  }
  let best: State | null = null;
  for (const state of reached) if (best === null || state.value > best.value + EPSILON) best = state;
  const segments: Segment[] = [];
  for (let state: State | null = best; state !== null && state.place >= 0; state = state.before) {
    segments.unshift({ place: places[state.place] ?? '', from: state.from, to: state.to });
  }
  return segments;
}

/** What a move costs: the time under way where the way by water is known, else the steps between the kinds of place. */
function moveCost({ stepsBetween, hoursBetween, settings }: SearchInputs, a: string, b: string): number {
  const hours = hoursBetween?.(a, b);
  return (
    settings.moveCost +
    (hours === undefined ? settings.moveCostPattern * stepsBetween(a, b) : settings.underWayPerH * hours)
  );
}

/** Places that are among the first few of any slot: no other can be part of the best way. */
function worthwhile({ slots, places, valueOf }: SearchInputs, runs: readonly Run[]): string[] {
  const KEPT = 4;
  const kept = new Set<string>();
  const seen = new Set<number>();
  for (const run of runs) {
    for (let index = run.from; index < run.to; index += 1) {
      const hour = slots[index]?.hour ?? -1;
      if (hour >= 0 && seen.has(hour)) continue;
      seen.add(hour);
      places
        .map((place) => ({ place, value: valueOf(place, index) }))
        .sort((a, b) => b.value - a.value)
        .slice(0, KEPT)
        .forEach(({ place }) => kept.add(place));
    }
  }
  return places.filter((place) => kept.has(place));
}

interface Table {
  readonly at: readonly number[];
  readonly sums: readonly (readonly number[])[];
  /** What a move between two places costs, points x hours. */
  readonly costs: readonly (readonly number[])[];
  readonly settings: Settings;
  /** Slots of a light that passes soon. */
  readonly brief: readonly boolean[];
  /** By place: slots at which the lure changes. */
  readonly turns: readonly (readonly number[])[];
  readonly count: number;
}

/** Best states at the end of one open stretch, one for each number of blocks and last place. */
function throughRun(start: readonly State[], run: Run, table: Table): State[] {
  const { at, sums, costs, settings, brief, turns, count } = table;
  const most = settings.mostBlocks;
  const slots = run.to - run.from;
  // cells[slot][blocks] = best state by last place.
  const cells: Map<number, State>[][] = Array.from({ length: slots + 1 }, () =>
    Array.from({ length: most + 1 }, () => new Map<number, State>()),
  );
  const keep = (slot: number, state: State): void => {
    const cell = cells[slot]?.[state.blocks];
    const was = cell?.get(state.place);
    if (was === undefined || state.value > was.value + EPSILON) cell?.set(state.place, state);
  };
  for (const state of start) {
    keep(0, state);
    keep(slots, { ...state, value: state.value - IDLE_PER_H * run.hours });
  }
  const hourAt = (slot: number): number => at[run.from + slot] ?? 0;
  const least = run.hours < settings.shortestBlockH - EPSILON ? run.hours : settings.shortestBlockH;
  // A block of brief light alone may be shorter.
  const leastOf = (from: number, to: number): number =>
    brief.slice(run.from + from, run.from + to).every(Boolean)
      ? Math.min(least, settings.shortestCutH)
      : least;
  for (let from = 0; from < slots; from += 1) {
    for (let blocks = 0; blocks < most; blocks += 1) {
      const cell = cells[from]?.[blocks];
      if (cell === undefined || cell.size === 0) continue;
      for (let place = 0; place < count; place += 1) {
        const before = arrive(cell, place, from === 0, costs);
        if (before === null) continue;
        const row = sums[place] ?? [];
        const rested = hoursBefore(before.state, place, at);
        for (let to = from + 1; to <= slots; to += 1) {
          const hours = hourAt(to) - hourAt(from);
          const left = hourAt(slots) - hourAt(to);
          if (hours < least - EPSILON && hours < leastOf(from, to) - EPSILON) continue;
          if (
            left > EPSILON &&
            left < settings.shortestBlockH - EPSILON &&
            left < leastOf(to, slots) - EPSILON
          )
            continue;
          const points = (row[run.from + to] ?? 0) - (row[run.from + from] ?? 0);
          const worn = wear(rested + hours, settings) - wear(rested, settings);
          const light = cutsIn(
            turns[place] ?? [],
            { from: run.from + from, to: run.from + to },
            (a, b) => (at[b] ?? 0) - (at[a] ?? 0),
            settings.shortestCutH,
          );
          const told = blocks + 1 + light.cuts.length;
          if (told > most) continue;
          keep(to, {
            value: before.value + points - worn - settings.wrongLurePerH * light.missedH,
            place,
            from: run.from + from,
            to: run.from + to,
            before: before.state,
            blocks: told,
          });
        }
      }
    }
  }
  return (cells[slots] ?? []).flatMap((cell) => [...cell.values()]);
}

/** What a place has lost after so many hours at it, points x hours. */
const wear = (hours: number, { wearFromH, wearPerH }: Settings): number =>
  (wearPerH * Math.max(0, hours - wearFromH) ** 2) / 2;

/** Hours that the way so far has spent at a place: coming back to it does not make it new. */
function hoursBefore(last: State, place: number, at: readonly number[]): number {
  let hours = 0;
  for (let state: State | null = last; state !== null; state = state.before) {
    if (state.place === place) hours += (at[state.to] ?? 0) - (at[state.from] ?? 0);
  }
  return hours;
}

/** Best way to come to a place; null where the only way is to stay, which is no new block. */
function arrive(
  cell: ReadonlyMap<number, State>,
  place: number,
  afterBreak: boolean,
  costs: Table['costs'],
): { readonly value: number; readonly state: State } | null {
  let best: { value: number; state: State } | null = null;
  for (const state of cell.values()) {
    if (state.place === place && !afterBreak) continue;
    const cost = state.place < 0 || state.place === place ? 0 : (costs[state.place]?.[place] ?? 0);
    const value = state.value - cost;
    if (best === null || value > best.value + EPSILON) best = { value, state };
  }
  return best;
}
