/** What a plan once said of water, season and place, and the day does not bear out: the gate lets none of it through. */
import { describe, expect, it } from 'vitest';
import type { PlanReason } from '../../src/advice/plan/index.ts';
import { gatePlan } from '../../src/gate/index.ts';
import type { Form } from '../advice/support.ts';
import { dayOf } from './day.ts';

const FALL: Form = {
  date: '2026-10-28',
  latitude: 35,
  species: 'largemouth',
  waterBody: 'hill-land-reservoir',
  sky: 'clear',
  air: { mean24h: '56 F', mean3d: '56 F', mean7d: '58 F' },
  wind: { speed: '5 mph' },
  level: { change24h: '0 ft', change72h: '0 ft' },
  water: { main: '62 F', change3d: '-2 F', change7d: '-3 F', clarity: '4 ft' },
};
const FRONT: Form = {
  date: '2026-03-14',
  latitude: 35.5,
  waterBody: 'highland-reservoir',
  sky: 'clear',
  air: { mean24h: '40 F', mean3d: '50 F', yesterday: '56 F', drop24h: '16 F', warmingDays: -2 },
  wind: { speed: '6 mph' },
  water: { main: '47 F', change3d: '2 F', change7d: '3 F', clarity: '5 ft' },
};
const BELOW_DAM: Form = {
  date: '2026-07-15',
  latitude: 36,
  species: 'smallmouth',
  waterBody: 'tailwater',
  sky: 'partly',
  air: { mean24h: '78 F' },
  flow: { generation: 'on', current: '2 ft/s' },
  wind: { speed: '3 mph' },
  water: { main: '57 F', clarity: '8 ft' },
};
const NESTS: Form = {
  date: '2026-06-05',
  latitude: 45,
  species: 'smallmouth',
  waterBody: 'natural-lake',
  sky: 'partly',
  air: { mean24h: '62 F', mean3d: '61 F', mean7d: '60 F' },
  wind: { speed: '9 mph' },
  water: { main: '64 F', change3d: '1 F', change7d: '3 F', clarity: '14 ft' },
};
const POND: Form = {
  date: '2026-01-10',
  latitude: 36,
  species: 'largemouth',
  waterBody: 'pond',
  sky: 'clear',
  air: { mean24h: '40 F' },
  wind: { speed: '5 mph' },
  water: { main: '44 F', clarity: '3 ft' },
};

const rule = (id: string): PlanReason => ({
  code: 'rule',
  rule: id,
  signal: 'phase',
  value: null,
  points: 1,
});

/** Whether the gate lets a reason stand in the first block of a day's plan, at a place. */
function lets(form: Form, place: string, reason: PlanReason): boolean {
  const { plan, world } = dayOf(form);
  const [first, ...rest] = plan.blocks;
  if (first === undefined) throw new Error('no plan');
  const said = { ...plan, blocks: [{ ...first, place, because: [reason] }, ...rest] };
  return gatePlan(said, world).plan.blocks[0]?.because.length === 1;
}

const falling = { ...FALL, level: { change24h: '-1.2 ft', change72h: '-3 ft' } };
const cooled = { ...FRONT, water: { ...(FRONT['water'] as object), change3d: '-2 F' } };
const between = {
  ...FALL,
  date: '2026-11-08',
  latitude: 36,
  water: { main: '57 F', change3d: '-1 F', change7d: '-3 F', clarity: '4 ft' },
};

describe('a sentence of the rules passes', () => {
  it('of the backs of the creeks while the level stands, and not while it falls', () => {
    expect(lets(FALL, 'creek_arm', rule('base.creek_arm.fall'))).toBe(true);
    expect(lets(falling, 'creek_arm', rule('base.creek_arm.fall'))).toBe(false);
  });

  it('of water that warms while it does, and not on the morning after a front', () => {
    const comesUp = rule('base.channel_swing_bank.early_prespawn');
    expect(lets(FRONT, 'channel_swing_bank', comesUp)).toBe(true);
    expect(lets(cooled, 'channel_swing_bank', comesUp)).toBe(false);
  });

  it('of the season that leads, and of no other beside it', () => {
    expect(lets(between, 'creek_arm', rule('base.creek_arm.fall'))).not.toBe(
      lets(between, 'creek_arm', rule('base.creek_arm.late_fall')),
    );
  });

  it('of cold-season fish in the cold, and not below a dam in July', () => {
    expect(lets(BELOW_DAM, 'eddy_seam', rule('seam.running'))).toBe(true);
    expect(lets(BELOW_DAM, 'eddy_seam', rule('current.cold-season'))).toBe(false);
  });

  it('that names creeks where there are some', () => {
    const lake = { ...FALL, waterBody: 'natural-lake' };
    expect(lets(FALL, 'main_point', rule('fall.cooling-draws-bait'))).toBe(true);
    expect(lets(lake, 'main_point', rule('fall.cooling-draws-bait'))).toBe(false);
  });
});

describe('a wind', () => {
  it('is a reason to be on a point, and none to be among nests', () => {
    const windOnIt: PlanReason = { code: 'windOnIt', windMs: 9 * 0.44704 };
    expect(lets(NESTS, 'main_point', windOnIt)).toBe(true);
    expect(lets(NESTS, 'flat', windOnIt)).toBe(false);
  });
});

describe('a block', () => {
  it('at flooded cover stands only while the water covers it', () => {
    const at = (aboveNormal: string): number => {
      const { plan, world } = dayOf({ ...FALL, level: { change24h: '0 ft', aboveNormal } });
      const [first] = plan.blocks;
      if (first === undefined) throw new Error('no plan');
      return gatePlan({ ...plan, blocks: [{ ...first, place: 'flooded_cover' }] }, world).plan.blocks.length;
    };
    expect(at('1 ft')).toBe(1);
    expect(at('-12 ft')).toBe(0);
    const unknown = dayOf({ ...FALL, level: undefined });
    expect(unknown.world.places.has('flooded_cover')).toBe(false);
  });

  it('in a pond is no deeper than ponds are', () => {
    const { plan, world } = dayOf(POND);
    expect(gatePlan(plan, world).plan.blocks).toHaveLength(plan.blocks.length);
    const [first] = plan.blocks;
    if (first === undefined) throw new Error('no plan');
    const deep = gatePlan({ ...plan, blocks: [{ ...first, depthM: [5, 12] }] }, world);
    expect(deep.plan.blocks).toHaveLength(0);
    expect(deep.faults).toContainEqual({ check: 'depth', of: 'block 1', found: 'is deeper than a pond' });
  });
});
