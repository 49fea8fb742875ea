import { HOUR_MS, localHourAt } from '../../units/time/index.ts';
import { longestAt, type DayPlan, type EarlyOf } from '../plan/index.ts';
import type { PositionAdvice } from '../types.ts';

type Span = readonly [from: number, to: number];

/** A shorter stretch is none to go out for, h. */
const SHORTEST_H = 1;

/** The fishing day in local hours, without what hazards close and the way home before each, to half hours. */
export function openSpans(
  { fishing, closed, zone }: Pick<DayPlan, 'fishing' | 'closed' | 'zone'>,
  early: EarlyOf,
): Span[] {
  if (fishing === null) return [];
  const hour = (atMs: number): number => localHourAt(atMs, zone);
  const startH = hour(fishing.fromMs);
  const endH = startH + (fishing.toMs - fishing.fromMs) / HOUR_MS;
  const shut = closed
    .map(({ hazard, fromMs, toMs }): Span => {
      const inH = startH + (fromMs - early({ hazard }) - fishing.fromMs) / HOUR_MS;
      return [inH, startH + (toMs - fishing.fromMs) / HOUR_MS];
    })
    .sort((a, b) => a[0] - b[0]);
  const open: Span[] = [];
  let from = startH;
  for (const [shutFrom, shutTo] of shut) {
    if (shutFrom > from) open.push([from, shutFrom]);
    from = Math.max(from, shutTo);
  }
  if (endH > from) open.push([from, endH]);
  return open
    .map(([a, b]): Span => [Math.ceil(2 * a - 1e-9) / 2, Math.floor(2 * b + 1e-9) / 2])
    .filter(([a, b]) => b - a >= SHORTEST_H);
}

/**
 * A place with its part of the day cut to the hours that hazards leave: nothing is recommended in closed ones. A day
 * without closed hours, or without a plan to say them, leaves it as it is.
 */
export function inOpenHours(position: PositionAdvice, plan: DayPlan | null, early: EarlyOf): PositionAdvice {
  if (plan === null || plan.closed.length === 0) return position;
  const { hours: wanted, period: _, periodBecause: __, bound, ...rest } = position;
  if (bound === 'dark' || bound === 'hot') return position;
  const spans = openSpans(plan, early)
    .map(([from, to]): Span => [Math.max(from, wanted?.[0] ?? from), Math.min(to, wanted?.[1] ?? to)])
    .filter(([from, to]) => to - from >= SHORTEST_H)
    .sort((a, b) => b[1] - b[0] - (a[1] - a[0]));
  const [hours] = spans;
  const shutFrom = Math.min(...plan.closed.map(({ fromMs }) => localHourAt(fromMs, plan.zone)));
  const open = (span: Span): PositionAdvice => ({
    ...rest,
    period: span[0] < shutFrom ? 'earlier' : 'later',
    periodBecause: { code: 'onlyOpen' },
    hours: span,
    bound: bound === 'cool' ? 'cool' : 'open',
  });
  if (hours === undefined) {
    // Where the plan fishes it, it does so in open hours, if not in its best ones.
    const block = longestAt(plan.blocks, position.place);
    if (block === undefined)
      return { ...rest, period: position.period, periodBecause: { code: 'onlyClosed' }, bound: 'closed' };
    const fromH = localHourAt(block.fromMs, plan.zone);
    return open([fromH, fromH + (block.toMs - block.fromMs) / HOUR_MS]);
  }
  if (wanted !== undefined && hours[0] === wanted[0] && hours[1] === wanted[1]) return position;
  return open(hours);
}
