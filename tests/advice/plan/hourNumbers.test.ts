/** What the rules see of an hour: its own numbers, and what the hours before it have left behind. */
import { describe, expect, it } from 'vitest';
import { after, hourKnown, NOTHING_EARLIER, type Earlier } from '../../../src/advice/plan/known.ts';
import type { PlanHour } from '../../../src/advice/plan/hours.ts';
import type { Known } from '../../../src/advice/rules/known.ts';

const HOUR = 3_600_000;
const hour = (more: Partial<PlanHour> = {}, spanH = 1): PlanHour => ({
  fromMs: 0,
  toMs: spanH * HOUR,
  ...more,
});
const day = (signals: Known['signals'] = {}): Known => ({
  species: 'mixed',
  waterBody: 'highland-reservoir',
  signals,
});
const seen = (
  at: Partial<PlanHour>,
  {
    signals = {},
    localHour = 10,
    earlier = {},
    spanH = 1,
  }: {
    signals?: Known['signals'];
    localHour?: number;
    earlier?: Partial<Earlier>;
    spanH?: number;
  } = {},
) => hourKnown(day(signals), hour(at, spanH), localHour, { ...NOTHING_EARLIER, ...earlier }).signals;

describe('the hours before an hour', () => {
  it('leave their warmest air and when it was; air that is not known leaves what was', () => {
    const warm = after(NOTHING_EARLIER, hour({ airC: 15 }), 9);
    expect(warm).toMatchObject({ warmestC: 15, warmestHour: 9 });
    expect(after(warm, hour({ airC: 14 }), 10)).toMatchObject({ warmestC: 15, warmestHour: 9 });
    expect(after(warm, hour({}), 10)).toMatchObject({ warmestC: 15, warmestHour: 9 });
    expect(after(warm, hour({ airC: 16 }), 11)).toMatchObject({ warmestC: 16, warmestHour: 11 });
  });

  it('leave their rain in all, with the air it fell through weighed by how much fell', () => {
    const first = after(NOTHING_EARLIER, hour({ rainMm: 6, airC: 10 }), 9);
    expect(first).toMatchObject({ rainMm: 6, rainAirC: 10 });
    const second = after(first, hour({ rainMm: 2, airC: 18 }), 10);
    expect(second.rainMm).toBe(8);
    expect(second.rainAirC).toBeCloseTo(12, 9);
    expect(after(second, hour({ airC: 30 }), 11)).toMatchObject({ rainMm: 8, rainAirC: second.rainAirC });
  });

  it('leave how long it has been dry: from half a millimetre an hour on it rains', () => {
    const rained = after(NOTHING_EARLIER, hour({ rainMm: 0.5 }), 9);
    expect(rained.hoursSinceRain).toBe(0);
    expect(after(rained, hour({ rainMm: 0.4 }), 10).hoursSinceRain).toBe(1);
    expect(after(rained, hour({}, 1.5), 10).hoursSinceRain).toBe(1.5);
    expect(after(rained, hour({ rainMm: 0.7 }, 1.5), 10).hoursSinceRain).toBe(1.5);
    expect(after(NOTHING_EARLIER, hour({}), 9).hoursSinceRain).toBe(Infinity);
  });
});

describe('the numbers of an hour', () => {
  it('stand in the place of the day’s, and what the hour does not say is as the day has it', () => {
    const signals = { windMs: 2, windMaxMs: 9, cloudPct: 90, clearSkyShare: 0.2, airNowC: 5, waterC: 8 };
    expect(seen({}, { signals })).toMatchObject(signals);
    const own = seen(
      { windMs: 6, gustMs: 11, cloudPct: 10, airC: 12, thunderPct: 30, currentMs: 0.4 },
      { signals },
    );
    expect(own).toMatchObject({ windMs: 6, windMaxMs: 6, gustMs: 11, cloudPct: 10, airNowC: 12, waterC: 8 });
    expect(own).toMatchObject({ thunderPct: 30, currentMs: 0.4, localHour: 10 });
    // A share of a clear sky that was the day's says nothing beside an hour's own cloud.
    expect(own.clearSkyShare).toBeUndefined();
  });

  it('have the pocket as warm as it is against the lake', () => {
    expect(seen({ pocketMinusMainC: 1.5 }, { signals: { waterC: 10 } })).toMatchObject({
      pocketMinusMainC: 1.5,
      pocketC: 11.5,
    });
    expect(seen({ pocketMinusMainC: 1.5 }).pocketC).toBeUndefined();
  });

  it('have hardly any current where turbines stand, unless the hour tells its own', () => {
    const signals = { currentMs: 0.8 };
    expect(seen({ generationOn: 0 }, { signals }).currentMs).toBe(0.05);
    expect(seen({ generationOn: 0.4 }, { signals: { currentMs: 0.02 } }).currentMs).toBe(0.02);
    expect(seen({ generationOn: 0.5 }, { signals }).currentMs).toBe(0.8);
    expect(seen({ generationOn: 0, currentMs: 0.3 }, { signals }).currentMs).toBe(0.3);
    expect(seen({ generationOn: 0 }).currentMs).toBeUndefined();
  });

  it('have low light by the sun, from 16 degrees down to 6, and more than half of it under a dull sky', () => {
    const light = (sunAltitudeDeg: number, cloudPct?: number) =>
      seen({ sunAltitudeDeg, ...(cloudPct === undefined ? {} : { cloudPct }) }).lowLightShare;
    expect([light(16), light(11), light(6), light(-20), light(60)]).toEqual([0, 0.5, 1, 1, 0]);
    expect([light(60, 84), light(60, 85), light(9, 85)]).toEqual([0, 0.6, 0.7]);
    expect(seen({}).lowLightShare).toBeUndefined();
  });

  it('have their rain as it would be in a whole hour', () => {
    expect(seen({ rainMm: 2 }, { spanH: 0.5 }).hourRainMm).toBe(4);
    expect(seen({}).hourRainMm).toBeUndefined();
  });
});

describe('a front that passes within the day', () => {
  const fall = (
    localHour: number,
    airC: number,
    more: { signals?: Known['signals']; warmestHour?: number } = {},
  ) =>
    seen({ airC }, { localHour, ...more, earlier: { warmestC: 20, warmestHour: more.warmestHour ?? 12 } })
      .airDrop24hC;

  it('is the fall of the air since its warmest hour', () => {
    expect(fall(14, 12)).toBe(8);
    expect(fall(14, 20)).toBeUndefined();
    expect(seen({ airC: 12 }, { localHour: 14 }).airDrop24hC).toBeUndefined();
    expect(seen({}, { localHour: 14, earlier: { warmestC: 20 } }).airDrop24hC).toBeUndefined();
  });

  it('is no evening: a kelvin an hour after three, or after the warmest hour where that is later', () => {
    expect(fall(19, 12)).toBe(4);
    expect(fall(19, 16)).toBeUndefined();
    expect(fall(19, 12, { warmestHour: 17 })).toBe(6);
  });

  it('adds nothing to a larger fall that the day had already', () => {
    expect(fall(14, 12, { signals: { airDrop24hC: 10 } })).toBe(10);
    expect(fall(14, 12, { signals: { airDrop24hC: 3 } })).toBe(8);
  });
});

describe('rain of the day so far', () => {
  const earlier = { rainMm: 20, rainAirC: 14, hoursSinceRain: 2 };
  it('counts as rain of the days before does, from 9 mm on', () => {
    const signals = { rain24Mm: 5, rain72Mm: 8, waterC: 10 };
    expect(seen({}, { signals, earlier })).toMatchObject({ rain24Mm: 25, rain72Mm: 28, hoursSinceRain: 2 });
    expect(seen({}, { earlier })).toMatchObject({ rain24Mm: 20, rain72Mm: 20 });
    expect(seen({}, { signals, earlier: { ...earlier, rainMm: 8.9 } })).toMatchObject({
      rain24Mm: 5,
      rain72Mm: 8,
    });
    expect(seen({}, { earlier: { ...earlier, rainMm: 9 } }).rain24Mm).toBe(9);
  });

  it('warms the pockets by what runs in, unless the hour tells of the pocket itself', () => {
    const signals = { waterC: 8, pocketRenewedShare: 0.1 };
    const wet = seen({}, { signals, earlier });
    expect(wet.pocketMinusMainC).toBeGreaterThan(0.2);
    expect(wet.pocketRenewedShare).toBeGreaterThan(0.1);
    expect(seen({}, { signals: { ...signals, pocketRenewedShare: 0.99 }, earlier }).pocketRenewedShare).toBe(
      0.99,
    );
    expect(seen({ pocketMinusMainC: -1 }, { signals, earlier }).pocketMinusMainC).toBe(-1);
    expect(seen({}, { signals, earlier: { ...earlier, rainAirC: null } }).pocketMinusMainC).toBeUndefined();
  });
});
