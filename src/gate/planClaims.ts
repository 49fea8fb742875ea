import {
  clockOf,
  type ClockSpan,
  type DayPlan,
  longestAt,
  type NotOffered,
  type OtherPattern,
  type PlanReason,
} from '../advice/plan/index.ts';
import type { QuantityKind } from '../units/index.ts';
import type { Claim } from './claims.ts';
import type { World } from './types.ts';

/** Names of the statements of a plan, as faults and claims call them. */
export const STATEMENT = {
  block: (index: number): string => `block ${index + 1}`,
  /** `at`: which of its reasons. */
  reason: (index: number, at: number, code: string): string => `block ${index + 1} ${at + 1} ${code}`,
  change: (index: number): string => `block ${index + 1} change`,
  day: 'day',
  beInBy: 'be in by',
  second: 'second',
  bigFish: 'big fish',
  manyFish: 'many fish',
} as const;

/** The weightier stays: what is known of the day, a block, its reasons, its change, the hour to be in, what is beside it. */
const WEIGHT = { day: 6, block: 5, reason: 4, change: 3, beInBy: 2, other: 1 } as const;

type Figure = readonly [figure: string, of: string, value: number | string, kind: QuantityKind | null];

/** What a reason tells in numbers. */
function figuresOf(reason: PlanReason): Figure[] {
  const wind = (windMs: number, fromDeg: number | undefined): Figure[] => [
    ['wind', 'air', windMs, 'windSpeed'],
    ...(fromDeg === undefined ? [] : [['wind from', 'air', fromDeg, 'angle'] as const]),
  ];
  switch (reason.code) {
    case 'lowLight':
    case 'dark':
      return [['highest sun', 'sky', reason.sunAltitudeDeg, 'angle']];
    case 'highSun':
      return [
        ['highest sun', 'sky', reason.sunAltitudeDeg, 'angle'],
        ['cloud', 'sky', reason.cloudPct, 'percent'],
      ];
    case 'cloudCover':
      return [['cloud', 'sky', reason.cloudPct, 'percent']];
    case 'windOnIt':
    case 'sheltered':
      return wind(reason.windMs, reason.fromDeg);
    case 'calm':
      return wind(reason.windMs, undefined);
    case 'pocketWarmer':
    case 'pocketColder':
      return [['difference to the lake', 'pocket', reason.differenceC, 'temperatureDifference']];
    case 'release':
      return reason.currentMs === null ? [] : [['current', 'water', reason.currentMs, 'lureSpeed']];
    case 'sunWarms':
      return [
        ['air', 'air', reason.airC, 'temperature'],
        ['cloud', 'sky', reason.cloudPct, 'percent'],
      ];
    case 'frontPassed':
      return [['fall', 'air', reason.fallC, 'temperatureDifference']];
    case 'rainFalling':
      return [
        ['rain', 'sky', reason.rainMm, 'rain'],
        ...(reason.airC === null ? [] : [['air', 'air', reason.airC, 'temperature'] as const]),
      ];
    case 'heat':
      return [['air', 'air', reason.airC, 'temperature']];
    // A rule tells the number it saw in the middle of the block, which no sentence prints; the others have none.
    case 'rule':
    case 'ranks':
    case 'slack':
      return [];
  }
}

/** Every figure that a plan tells, and what the day knows of the same things. */
export function planClaims(plan: DayPlan, { zone }: World): Claim[] {
  const claims: Claim[] = [];
  const clock = clockOf(zone);
  const claim = (
    statement: string,
    weight: number,
    span: Pick<ClockSpan, 'fromMs' | 'toMs'>,
    figures: readonly Figure[],
  ): void => {
    for (const [figure, of, value, kind] of figures)
      claims.push({ figure, of, value, kind, statement, weight, fromMs: span.fromMs, toMs: span.toMs });
  };
  /** A time as it is written, beside the instant that it stands for. */
  const times = (
    statement: string,
    weight: number,
    written: readonly (readonly [string, number])[],
  ): void => {
    for (const [index, [at, atMs]] of written.entries()) {
      const span = { fromMs: atMs, toMs: atMs };
      const of = `${statement} ${index}`;
      claim(STATEMENT.day, WEIGHT.day, span, [['clock', of, clock.at(atMs), null]]);
      claim(statement, weight, span, [['clock', of, at, null]]);
    }
  };
  const depth = (place: string, [top, bottom]: readonly [number, number]): Figure[] => [
    ['top of the depth', place, top, 'depth'],
    ['bottom of the depth', place, bottom, 'depth'],
  ];
  const day = { fromMs: plan.fishing?.fromMs ?? 0, toMs: plan.fishing?.toMs ?? 0 };
  for (const [index, block] of plan.blocks.entries()) {
    const of = STATEMENT.block(index);
    claim(of, WEIGHT.block, block, [
      ...depth(block.place, block.depthM),
      ['lure', block.place, block.lure.lureClass, null],
      ['lure', block.place, block.cast.told.lureClass, null],
    ]);
    // The water a pace was chosen for stands among the block's numbers and in the sentence of its cast.
    const { water } = block.cast.told;
    if (water.basis === 'known')
      claim(of, WEIGHT.block, block, [
        ['water', block.place, water.waterC, 'temperature'],
        ['water', block.place, block.pace.waterC ?? 'not known', 'temperature'],
      ]);
    times(of, WEIGHT.block, [
      [block.from, block.fromMs],
      [block.to, block.toMs],
    ]);
    for (const [at, reason] of block.because.entries())
      claim(STATEMENT.reason(index, at, reason.code), WEIGHT.reason, block, figuresOf(reason));
    const { whyChange } = block;
    if (whyChange === null) continue;
    times(STATEMENT.change(index), WEIGHT.change, [[whyChange.at, whyChange.atMs]]);
    const before = plan.blocks[index - 1];
    const span = whyChange.code === 'over' ? before : block;
    if ((whyChange.code === 'reason' || whyChange.code === 'over') && span !== undefined)
      claim(STATEMENT.change(index), WEIGHT.change, span, figuresOf(whyChange.reason));
    if (whyChange.code === 'fished' && before !== undefined) {
      const hoursAt = (hours: number): Figure[] => [['hours', before.place, hours, 'hours']];
      claim(STATEMENT.day, WEIGHT.day, before, hoursAt((before.toMs - before.fromMs) / 3_600_000));
      claim(STATEMENT.change(index), WEIGHT.change, before, hoursAt(whyChange.hours));
    }
  }
  const { beInBy } = plan;
  if (beInBy !== null) times(STATEMENT.beInBy, WEIGHT.beInBy, [[beInBy.at, beInBy.atMs]]);
  const other = (statement: string, pattern: OtherPattern | NotOffered): void => {
    if ('none' in pattern) return;
    // Of a place of the plan it tells what the plan tells there, in its longest stretch.
    const planned = longestAt(plan.blocks, pattern.place);
    claim(statement, WEIGHT.other, planned ?? day, [
      ...depth(pattern.place, pattern.depthM),
      ['lure', pattern.place, pattern.lureClass, null],
    ]);
    for (const reason of [...pattern.because, ...(pattern.decides === null ? [] : [pattern.decides])])
      claim(statement, WEIGHT.other, day, figuresOf(reason));
  };
  other(STATEMENT.second, plan.second);
  other(STATEMENT.bigFish, plan.bigFish);
  other(STATEMENT.manyFish, plan.manyFish);
  return claims;
}
