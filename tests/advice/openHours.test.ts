/** The part of the day of a place, cut to the hours that hazards leave. The shortest stretch is common practice, no source. */
import { describe, expect, it } from 'vitest';
import type { DayPlan } from '../../src/advice/plan/index.ts';
import { inOpenHours, openSpans } from '../../src/advice/positions/openHours.ts';
import { days, planned } from './plan/support.ts';

const ZONE = 'America/Chicago';
/** A local hour of 6 March 2026 there. */
const at = (hour: number): number => Date.parse('2026-03-06T06:00:00Z') + hour * 3_600_000;
const clock = (hour: number): string =>
  `${String(Math.floor(hour)).padStart(2, '0')}:${hour % 1 === 0 ? '00' : '30'}`;
const span = (from: number, to: number) => ({
  fromMs: at(from),
  toMs: at(to),
  from: clock(from),
  to: clock(to),
});

const advice = planned(days[0]!.form);
const [first] = advice.positions;
const block = advice.plan!.blocks[0]!;
const day = (closed: readonly (readonly [number, number])[], more: Partial<DayPlan> = {}): DayPlan => ({
  date: '2026-03-06',
  zone: ZONE,
  fishing: span(6, 18),
  blocks: [],
  second: { none: { code: 'notPlanned' } },
  manyFish: { none: { code: 'notPlanned' } },
  bigFish: { none: { code: 'notPlanned' } },
  closed: closed.map(([from, to]) => ({ ...span(from, to), hazard: 'wind.boats', level: 3 as const })),
  beInBy: null,
  leftOut: null,
  notPlanned: null,
  ...more,
});
/** Nobody needs time for the way home. */
const atOnce = (): number => 0;
const place = (more: object) => ({ ...first!, ...more });

describe('the open hours of a day', () => {
  it('are all of the fishing hours where nothing closes', () => {
    expect(openSpans(day([]), atOnce)).toEqual([[6, 18]]);
  });

  it('lie before, between and behind what closes, in whatever order it is told', () => {
    const closed = [
      [12, 13.5],
      [8, 9],
    ] as const;
    expect(openSpans(day(closed), atOnce)).toEqual([
      [6, 8],
      [9, 12],
      [13.5, 18],
    ]);
  });

  it('end with the way home before what closes, each time', () => {
    const closed = [
      [11, 13],
      [15, 18],
    ] as const;
    expect(openSpans(day(closed), () => 1_800_000)).toEqual([
      [6, 10.5],
      [13, 14.5],
    ]);
    // What is told to half hours ends in time: a quarter of an hour before eleven is half past ten.
    expect(openSpans(day([[11, 18]]), () => 900_000)).toEqual([[6, 10.5]]);
  });

  it('hold no stretch shorter than one to go out for', () => {
    const closed = [
      [6.5, 9],
      [10, 18],
    ] as const;
    expect(openSpans(day(closed), atOnce)).toEqual([[9, 10]]);
  });
});

describe('a place', () => {
  it('keeps its part of the day where nothing closes, or nobody planned the day', () => {
    const whole = place({ period: 'all_day', hours: undefined });
    expect(inOpenHours(whole, day([]), atOnce)).toBe(whole);
    expect(inOpenHours(whole, null, atOnce)).toBe(whole);
  });

  it('keeps it where what closes lies outside of it', () => {
    const late = place({ period: 'later', hours: [15, 18] });
    expect(inOpenHours(late, day([[8, 11]]), atOnce)).toBe(late);
  });

  it('is for the longest of its open stretches, early where that lies before what closes', () => {
    const whole = place({ period: 'all_day', hours: undefined });
    expect(inOpenHours(whole, day([[12, 18]]), atOnce)).toMatchObject({
      period: 'earlier',
      hours: [6, 12],
      bound: 'open',
    });
    expect(inOpenHours(whole, day([[6, 12]]), atOnce)).toMatchObject({
      period: 'later',
      hours: [12, 18],
      bound: 'open',
    });
    const twice = [
      [7, 12],
      [13, 14],
    ] as const;
    expect(inOpenHours(whole, day(twice), atOnce)).toMatchObject({ period: 'later', hours: [14, 18] });
  });

  it('whose hours are all closed is told of the block in which the plan fishes it, and else that it is closed', () => {
    const early = place({ period: 'earlier', hours: [6, 9] });
    const blocked = day([[6, 9]], {
      blocks: [{ ...block, place: first!.place, ...span(9, 12) }],
    });
    expect(inOpenHours(early, blocked, atOnce)).toMatchObject({ period: 'later', hours: [9, 12] });
    expect(inOpenHours(early, day([[6, 9]]), atOnce)).toMatchObject({
      period: 'earlier',
      periodBecause: { code: 'onlyClosed' },
      bound: 'closed',
    });
  });
});
