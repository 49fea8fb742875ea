/** What the plan says of the light is so from a block's first minute to its last (bounds: common practice, no source). */
import { describe, expect, it } from 'vitest';
import { cutByLight, lightOf } from '../../../src/advice/plan/light.ts';
import type { PlanHour } from '../../../src/advice/plan/hours.ts';
import { gatePlan } from '../../../src/gate/index.ts';
import type { DayPlan } from '../../../src/advice/plan/types.ts';
import { dayOf } from '../../gate/day.ts';
import { days, planOf } from './support.ts';

const HOUR_MS = 3_600_000;
const FIVE_MIN_MS = 300_000;
const formOf = (id: string) => days.find((day) => day.id === id)!.form;
const SUMMER = formOf('july-first-and-last-light');

/** Hours of a sun that climbs by so many degrees an hour from an altitude at midnight on. */
const climbing = (fromDeg: number, perHour: number, count: number): PlanHour[] =>
  Array.from({ length: count }, (_, at) => ({
    fromMs: at * HOUR_MS,
    toMs: (at + 1) * HOUR_MS,
    sunAltitudeDeg: fromDeg + perHour * (at + 0.5),
    rainMm: 2,
  }));

describe('the hours cut by their light', () => {
  const hours = climbing(-20, 10, 6);
  const cut = cutByLight(hours);

  it('lie on one side of every bound, and keep the day whole with its rain', () => {
    for (const { fromMs, toMs } of cut) {
      const at = (ms: number) => lightOf(-20 + (10 * ms) / HOUR_MS);
      expect(at(fromMs + FIVE_MIN_MS / 2 + 1)).toBe(at(toMs - FIVE_MIN_MS / 2 - 1));
    }
    expect(cut[0]!.fromMs).toBe(0);
    expect(cut.at(-1)!.toMs).toBe(6 * HOUR_MS);
    for (const [index, hour] of cut.entries()) if (index > 0) expect(hour.fromMs).toBe(cut[index - 1]!.toMs);
    expect(cut.reduce((sum, { rainMm = 0 }) => sum + rainMm, 0)).toBeCloseTo(12, 9);
  });

  it('are cut at civil dawn and where the light is no longer low, to five minutes', () => {
    const begins = cut.map(({ fromMs }) => fromMs / FIVE_MIN_MS);
    // -6 degrees after 1.4 h, 12 after 3.2 h.
    expect(begins).toContain(Math.round((1.4 * HOUR_MS) / FIVE_MIN_MS));
    expect(begins).toContain(Math.round((3.2 * HOUR_MS) / FIVE_MIN_MS));
    expect(cut).toHaveLength(8);
  });

  it('stay as they are where no sun is known, or none turns', () => {
    const dark = climbing(-60, 1, 4);
    expect(cutByLight(dark)).toEqual(dark);
    const unknown = hours.map(({ sunAltitudeDeg: _, ...hour }) => hour);
    expect(cutByLight(unknown)).toEqual(unknown);
  });
});

describe('the first and the last light of midsummer', () => {
  const { blocks } = planOf(SUMMER);

  it('are blocks of their own with a surface bait, and the day between is deep', () => {
    const surface = blocks.filter(({ lure }) => lure.family === 'surface');
    expect(surface).toHaveLength(2);
    expect(surface[0]).toBe(blocks[0]);
    expect(surface[1]).toBe(blocks.at(-1));
    for (const { fromMs, toMs } of surface) expect(toMs - fromMs).toBeLessThan(2 * HOUR_MS);
  });

  it('tell of low light there and nowhere else', () => {
    for (const block of blocks) {
      const said = [
        ...block.because,
        ...(block.whyChange?.code === 'reason' ? [block.whyChange.reason] : []),
      ];
      expect(said.some(({ code }) => code === 'lowLight')).toBe(block.lure.family === 'surface');
    }
  });

  it('end the block before at the hour the light turns, where one stays and ties on another lure', () => {
    const { blocks: grass } = planOf(formOf('july-grass-first-light'));
    const change = grass[1]!.whyChange!;
    expect(grass[1]!.place).toBe(grass[0]!.place);
    expect(change).toMatchObject({ code: 'light', light: 'day' });
    expect(grass[1]!.lure.lureClass).not.toBe(grass[0]!.lure.lureClass);
  });
});

describe('dusk that goes on into the night', () => {
  it('is told of no block that is partly dark, and the night has a lure of the night', () => {
    const { blocks } = planOf(formOf('july-dusk-into-night'));
    const night = blocks.at(-1)!;
    expect(night.from).toBe('20:35');
    expect(night.whyChange).toMatchObject({ code: 'light', light: 'night' });
    expect(night.because.map(({ code }) => code)).toContain('dark');
    expect(night.because.map(({ code }) => code)).not.toContain('lowLight');
  });
});

describe('behind a front', () => {
  it('no low light is told to bring fish into the open', () => {
    for (const { because, whyChange } of planOf(formOf('april-dusk-behind-a-front')).blocks) {
      const said = [...because, ...(whyChange?.code === 'reason' ? [whyChange.reason] : [])];
      expect(said.map(({ code }) => code)).not.toContain('lowLight');
    }
  });
});

describe('the gate on light', () => {
  const { plan, world } = dayOf(SUMMER);
  const told = (changed: DayPlan, at: number): string[] =>
    gatePlan(changed, world).plan.blocks[at]!.because.map(({ code }) => code);
  const stretched = (at: number, changes: object): DayPlan => ({
    ...plan,
    blocks: plan.blocks.flatMap((block, index) =>
      index === at ? [{ ...block, ...changes }] : index === at + 1 ? [] : [block],
    ),
  });

  it('lets the plan through', () => {
    expect(gatePlan(plan, world).faults).toEqual([]);
    expect(told(plan, 0)).toContain('lowLight');
  });

  it('refuses low light of a block that goes on under a higher sun', () => {
    expect(told(stretched(0, { toMs: plan.blocks[0]!.toMs + HOUR_MS, to: '07:05' }), 0)).not.toContain(
      'lowLight',
    );
  });

  it('refuses low light of fish or a lure that are deep', () => {
    const [first] = plan.blocks;
    expect(told(stretched(0, { depthM: [2.5, 5] }), 0)).not.toContain('lowLight');
    expect(told(stretched(0, { cast: { ...first!.cast, runningDepthM: 3 } }), 0)).not.toContain('lowLight');
  });

  it('refuses a high sun of a block that begins at dawn', () => {
    const high = { code: 'highSun', sunAltitudeDeg: 70, cloudPct: 10 } as const;
    const { blocks } = plan;
    const noon = blocks.findIndex(({ because }) => because.some(({ code }) => code === 'highSun'));
    expect(noon).toBeGreaterThan(0);
    const early = {
      ...plan,
      blocks: [
        {
          ...blocks[noon]!,
          fromMs: blocks[0]!.fromMs,
          from: blocks[0]!.from,
          because: [high],
          whyChange: null,
        },
      ],
    };
    expect(told(early, 0)).not.toContain('highSun');
  });

  it('refuses low light behind a front', () => {
    const front = {
      ...world,
      membership: { ...world.membership, summer: 0, fall: 1 },
      signals: { ...world.signals, airDrop24hC: 8 },
    };
    expect(gatePlan(plan, front).plan.blocks[0]!.because.map(({ code }) => code)).not.toContain('lowLight');
  });
});
