import { describe, expect, it } from 'vitest';
import { nowcastRiver } from '../../../src/water/river/index.ts';
import { dateAfter, gaugeReading, inventedWeather } from '../lake/inventedWeather.ts';

const START = '2020-01-01';
const weather = inventedWeather(START, 400);
const free = nowcastRiver('lowland', weather, []).days;
/** Weekly readings that agree with the weather, up to a day. */
const agreeing = (upTo: number) =>
  Array.from({ length: Math.ceil(upTo / 7) }, (_, i) =>
    gaugeReading(dateAfter(START, 7 * i), free[7 * i]!.waterC + 0.3),
  );

describe('readings of a river that cannot be right', () => {
  it('are named with a reason: another unit, a day without weather', () => {
    const { refused } = nowcastRiver('lowland', weather, [
      gaugeReading(dateAfter(START, 100), 58),
      gaugeReading('2019-12-01', 8),
    ]);
    expect(refused.map(({ reason }) => reason)).toEqual([
      { code: 'notWater', water: 'river', waterC: 58 },
      { code: 'noWeatherThatDay' },
    ]);
  });

  it('are left out when far off, until another one agrees', () => {
    const off = (i: number) => gaugeReading(dateAfter(START, i), free[i]!.waterC - 8);
    const before = nowcastRiver('lowland', weather, agreeing(210));
    expect(before.refused).toEqual([]);
    const once = nowcastRiver('lowland', weather, [...agreeing(210), off(212)]);
    expect(once.refused).toHaveLength(1);
    expect(once.refused[0]!.reason).toEqual({
      code: 'tooFar',
      of: 'river',
      fate: 'leftOut',
      differenceC: expect.closeTo(-8, 0) as number,
    });
    expect(once.days[213]!.waterC).toBeCloseTo(before.days[213]!.waterC, 9);
    const twice = nowcastRiver('lowland', weather, [...agreeing(210), off(212), off(213)]);
    expect(twice.refused).toHaveLength(1);
    expect(Math.abs(twice.days[213]!.waterC - (free[213]!.waterC - 8))).toBeLessThan(1);
  });

  it('are refused once a thermometer repeats itself while the water must have moved', () => {
    const stuck = Array.from({ length: 60 }, (_, i) => gaugeReading(dateAfter(START, 90 + i), 12.3));
    const { refused, days } = nowcastRiver('lowland', weather, stuck);
    const { reason } = refused.at(-1)!;
    expect(reason).toMatchObject({
      code: 'stuck',
      waterC: expect.closeTo(12.3, 9) as number,
      water: 'river',
    });
    if (reason.code !== 'stuck') throw new Error('another reason');
    expect(reason.days).toBeGreaterThan(5);
    expect(reason.movedC).toBeGreaterThan(1);
    expect(days[150]!.readingAgeDays).toBeGreaterThan(1);
  });
});
