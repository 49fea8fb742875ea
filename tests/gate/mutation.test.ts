import { describe, expect, it } from 'vitest';
import type { DayPlan, OtherPattern, PlanBlock } from '../../src/advice/plan/types.ts';
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
/** The second block of the true page lies under a high sun. */
const HIGH_SUN_BLOCK = 1;

/** A pattern of the first block's place that tells something else of it than the block does. */
function besides({ blocks }: DayPlan, otherwise: Partial<OtherPattern>): OtherPattern {
  const { place, depthM, lure } = blocks[0]!;
  return { place, depthM, lureClass: lure.lureClass, because: [], decides: null, ...otherwise };
}

/** One lie of each kind. */
const LIES: readonly { check: Check; what: string; lie: (plan: DayPlan) => DayPlan }[] = [
  {
    check: 'bottom',
    what: 'a lure that runs below the bottom',
    lie: (plan) => withBlock(plan, (block) => ({ ...block, cast: { ...block.cast, runningDepthM: 40 } })),
  },
  {
    check: 'bottom',
    what: 'a diving lure with no water under it at the boat',
    lie: (plan) =>
      withBlock(plan, (block) => ({
        ...block,
        cast: { ...block.cast, family: 'diving', runningDepthM: block.cast.boatDepthM },
      })),
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
  {
    check: 'figures',
    what: 'a second number for the cloud of the same hours',
    lie: (plan) =>
      withBlock(
        plan,
        (block) => ({
          ...block,
          because: [
            { code: 'highSun', sunAltitudeDeg: 60, cloudPct: 10 },
            { code: 'highSun', sunAltitudeDeg: 60, cloudPct: 10.5 },
          ],
        }),
        HIGH_SUN_BLOCK,
      ),
  },
  {
    check: 'figures',
    what: 'a clock that stands beside another instant',
    lie: (plan) => withBlock(plan, (block) => ({ ...block, from: '03:15' })),
  },
  {
    check: 'figures',
    what: 'an hour to be in that is written otherwise than it is meant',
    lie: (plan) => ({ ...plan, beInBy: { ...plan.beInBy!, at: '12:00' } }),
  },
  {
    check: 'figures',
    what: 'another depth of a place of the plan for its larger fish',
    lie: (plan) => ({ ...plan, bigFish: besides(plan, { depthM: [0.5, 1] }) }),
  },
  {
    check: 'figures',
    what: 'another lure there',
    lie: (plan) => ({ ...plan, manyFish: besides(plan, { lureClass: 'hair jig' }) }),
  },
  {
    check: 'figures',
    what: 'other water for the pace than its cast tells',
    lie: (plan) => withBlock(plan, (block) => ({ ...block, pace: { ...block.pace, waterC: 12 } })),
  },
  { check: 'dates', what: 'the plan of another day', lie: (plan) => ({ ...plan, date: '2026-01-01' }) },
];

describe('the gate', () => {
  const { plan, world } = truePage('july-stratified');

  it('lets a true page through as it is', () => {
    expect(plan.blocks.length).toBeGreaterThan(0);
    expect(gatePlan(plan, world)).toEqual({ plan, faults: [] });
  });

  it('has a lie for each of its eight kinds of check', () => {
    expect(new Set(LIES.map(({ check }) => check))).toEqual(new Set(CHECKS));
  });

  it.each(LIES)('catches $what', ({ check, lie }) => {
    const told = gatePlan(lie(plan), world);
    expect(told.faults.map((fault) => fault.check)).toContain(check);
    expect(gatePlan(told.plan, world).faults).toEqual([]);
  });

  it('lets no wind blow onto a bank that is open to the other side, nor spare one that is open to it', () => {
    const windy = { ...world, hours: world.hours.map((hour) => ({ ...hour, windMs: 5, windFromDeg: 0 })) };
    const { place } = plan.blocks[0]!;
    const told = (facesDeg: number, code: 'windOnIt' | 'sheltered'): number => {
      const said = withBlock(plan, (block) => ({ ...block, because: [{ code, windMs: 5, fromDeg: 0 }] }));
      return gatePlan(said, { ...windy, faces: new Map([[place, facesDeg]]) }).plan.blocks[0]!.because.length;
    };
    expect([told(20, 'windOnIt'), told(180, 'windOnIt')]).toEqual([1, 0]);
    expect([told(20, 'sheltered'), told(180, 'sheltered')]).toEqual([0, 1]);
  });

  it('drops the lie and keeps the rest of the page', () => {
    const { plan: kept, faults } = gatePlan(
      LIES.find(({ what }) => what === 'a wind that does not blow')!.lie(plan),
      world,
    );
    expect(faults).toHaveLength(1);
    expect(kept).toEqual(plan);
  });
});
