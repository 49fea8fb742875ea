import { describe, expect, it } from 'vitest';
import type { DayPlan, PlanBlock } from '../../src/advice/plan/types.ts';
import { CHECKS, gatePlan, type Check, type World } from '../../src/gate/index.ts';
import { days } from '../advice/plan/support.ts';
import { dayOf } from './day.ts';

/** A true page: a plan of which the gate lets everything through. */
function truePage(id: string): { plan: DayPlan; world: World } {
  const { plan, world } = dayOf(days.find((day) => day.id === id)!.form);
  return { plan: gatePlan(plan, world).plan, world };
}

const withBlock = (plan: DayPlan, change: (block: PlanBlock) => PlanBlock, at = 0): DayPlan => ({
  ...plan,
  blocks: plan.blocks.map((block, index) => (index === at ? change(block) : block)),
});

const HOUR_MS = 3_600_000;

/** One lie of each kind. */
const LIES: readonly { check: Check; what: string; lie: (plan: DayPlan) => DayPlan }[] = [
  {
    check: 'bottom',
    what: 'a lure that runs below the bottom',
    lie: (plan) => withBlock(plan, (block) => ({ ...block, cast: { ...block.cast, runningDepthM: 40 } })),
  },
  {
    check: 'clock',
    what: 'a block after dark',
    lie: (plan) =>
      withBlock(
        plan,
        (block) => ({ ...block, fromMs: block.toMs, toMs: block.toMs + 9 * HOUR_MS }),
        plan.blocks.length - 1,
      ),
  },
  {
    check: 'depth',
    what: 'a depth below the oxygen',
    lie: (plan) => withBlock(plan, (block) => ({ ...block, depthM: [block.depthM[0], 60] })),
  },
  {
    check: 'place',
    what: 'a place that this water never has',
    lie: (plan) => withBlock(plan, (block) => ({ ...block, place: 'pond_dam' })),
  },
  {
    check: 'reason',
    what: 'a wind that does not blow',
    lie: (plan) =>
      withBlock(plan, (block) => ({
        ...block,
        because: [{ code: 'windOnIt', windMs: 11 }, ...block.because],
      })),
  },
  {
    check: 'reason',
    what: 'cloud under an open sky',
    lie: (plan) =>
      withBlock(plan, (block) => ({ ...block, because: [{ code: 'cloudCover', cloudPct: 95 }] })),
  },
  {
    check: 'reason',
    what: 'a warmer pocket that nobody knows of',
    lie: (plan) =>
      withBlock(plan, (block) => ({ ...block, because: [{ code: 'pocketWarmer', differenceC: 3 }] })),
  },
  {
    check: 'once',
    what: 'a sentence that stands twice',
    lie: (plan) => withBlock(plan, (block) => ({ ...block, because: [...block.because, block.because[0]!] })),
  },
  { check: 'dates', what: 'the plan of another day', lie: (plan) => ({ ...plan, date: '2026-01-01' }) },
];

describe('the gate', () => {
  const { plan, world } = truePage('july-stratified');

  it('lets a true page through as it is', () => {
    expect(plan.blocks.length).toBeGreaterThan(0);
    expect(gatePlan(plan, world)).toEqual({ plan, faults: [] });
  });

  it('has a lie for each of its seven kinds of check', () => {
    expect(new Set(LIES.map(({ check }) => check))).toEqual(new Set(CHECKS));
  });

  it.each(LIES)('catches $what', ({ check, lie }) => {
    const told = gatePlan(lie(plan), world);
    expect(told.faults.map((fault) => fault.check)).toContain(check);
    expect(gatePlan(told.plan, world).faults).toEqual([]);
  });

  it('drops the lie and keeps the rest of the page', () => {
    const { plan: kept, faults } = gatePlan(LIES[4]!.lie(plan), world);
    expect(faults).toHaveLength(1);
    expect(kept).toEqual(plan);
  });
});
