/** How much rain, how warm it fell, how long ago, and what came after it. */
import { describe, expect, it } from 'vitest';
import { weatherOf, weatherPart } from '../../src/signals/weather/index.ts';
import { observation, recordView, testLake } from '../helpers/weatherRecord.ts';

const AS_OF = '2026-03-06T11:15:00Z'; // 05:15 at the lake
const HOUR = 3_600_000;
const LAST = Date.parse('2026-03-06T11:00:00Z');
type View = ReturnType<typeof recordView>;
/** Air and rain over water of 8 degC. */
const signalsOf = (view: View) =>
  weatherPart(view, testLake, weatherOf(view, testLake), () => 8).signals(view.asOfMs);

describe('rain', () => {
  const rained = (
    hour: (back: number) => number,
    more: (back: number) => { air?: number; humidity?: number; cloud?: number } = () => ({}),
  ) =>
    signalsOf(
      recordView({
        asOf: AS_OF,
        pastDays: 20,
        weather: (local) => {
          const back = Math.round((LAST - local.toMillis()) / HOUR);
          return { rain: hour(back), ...more(back) };
        },
      }),
    );
  it('of a day, three and seven counts the hours that ended within them', () => {
    const one = (at: number) => {
      const { rain24Mm, rain72Mm, rain7dMm } = rained((back) => (back === at ? 5 : 0));
      return [rain24Mm, rain72Mm, rain7dMm].map((found) => found?.value);
    };
    // 05:15: the hour that ended at 05:00 yesterday is 24 h and a quarter ago.
    expect(one(0)).toEqual([5, 5, 5]);
    expect(one(23)).toEqual([5, 5, 5]);
    expect(one(24)).toEqual([0, 5, 5]);
    expect(one(71)).toEqual([0, 5, 5]);
    expect(one(72)).toEqual([0, 0, 5]);
    expect(one(167)).toEqual([0, 0, 5]);
    expect(one(168)).toEqual([0, 0, 0]);
  });
  it('to come counts from now on, a day and three', () => {
    const one = (at: number) => {
      const { rainNext24Mm, rainNext72Mm } = rained((back) => (back === -at ? 5 : 0));
      return [rainNext24Mm?.value, rainNext72Mm?.value];
    };
    expect([one(0), one(1), one(24), one(25), one(72), one(73)]).toEqual([
      [0, 0],
      [5, 5],
      [5, 5],
      [0, 5],
      [0, 5],
      [0, 0],
    ]);
  });
  it('is as warm as the air it fell through, weighed by how much fell, from a millimetre on', () => {
    const two = (first: number, second: number) =>
      rained(
        (back) => (back === 5 ? first : back === 9 ? second : 0),
        (back) => ({ air: back <= 6 ? 12 : 4, humidity: 80 }),
      );
    expect(two(3, 1).rainAirC?.value).toBeCloseTo(10, 9);
    expect(two(1, 3).rainAirC?.value).toBeCloseTo(6, 9);
    expect(two(0.4, 0.4).rainAirC).toBeUndefined();
    const { rainWetBulbC, rainAirC } = two(3, 1);
    expect(rainWetBulbC!.value).toBeLessThan(rainAirC!.value);
    expect(rainWetBulbC!.value).toBeGreaterThan(rainAirC!.value - 4);
  });
  it('is as warm as the air of the hours of which that is known', () => {
    const view = recordView({
      asOf: AS_OF,
      pastDays: 5,
      weather: (local) => ({ rain: Math.round((LAST - local.toMillis()) / HOUR) < 4 ? 2 : 0, air: 11 }),
    });
    const holed = view.observations.filter(
      ({ variable, atMs }) => variable !== 'air_temp' || atMs !== LAST - 2 * HOUR,
    );
    expect(signalsOf({ ...view, observations: holed }).rainAirC?.value).toBeCloseTo(11, 9);
  });
  it('is a fall from 2 mm on, and forgotten after ten days', () => {
    const since = (mm: number, at: number) => rained((back) => (back === at ? mm : 0)).hoursSinceRain?.value;
    expect(since(2, 20)).toBeCloseTo(20.25, 9);
    expect(since(1.9, 20)).toBeUndefined();
    expect(since(5, 239)).toBeCloseTo(239.25, 9);
    expect(since(5, 240)).toBeUndefined();
  });
  it('counts a night from six of its hours on', () => {
    // It is 05:15: of a night since 23:00 six hours are known, since 00:00 five.
    const since = (back: number) =>
      rained(
        (at) => (at === back ? 6 : 0),
        () => ({ cloud: 10, air: -12, humidity: 70 }),
      ).clearColdNightSinceRain?.value;
    expect([since(6), since(5)]).toEqual([1, 0]);
  });
  it('is measured only where every hour is, and else an estimate', () => {
    const gauge = (hours: number) =>
      Array.from({ length: hours }, (_, back) =>
        observation('rain', LAST - back * HOUR, 0.5, { periodS: 3600 }),
      );
    const rain = (hours: number) =>
      signalsOf(recordView({ asOf: AS_OF, pastDays: 5, extra: gauge(hours) })).rain24Mm;
    expect(rain(24)).toMatchObject({
      value: 12,
      kind: 'observed',
      source: { code: 'rainMeasured', service: 'usgs' },
    });
    expect(rain(23)).toMatchObject({ value: 11.5, kind: 'estimated', source: { code: 'weather' } });
  });
  it('is followed by a clear cold night where one was clear and colder than the water by some kelvins', () => {
    // Rain ended 40 h ago, in the evening of the 4th; the nights of the 5th and 6th are as told.
    const nights = (cloud: readonly [number, number], air: readonly [number, number]) =>
      rained(
        (back) => (back === 40 ? 6 : 0),
        (back) => ({ cloud: cloud[back > 20 ? 0 : 1], air: air[back > 20 ? 0 : 1], humidity: 70 }),
      ).clearColdNightSinceRain?.value;
    expect(nights([100, 100], [-5, -5])).toBe(0);
    expect(nights([10, 10], [20, 20])).toBe(0);
    expect(nights([10, 10], [-12, -12])).toBe(1);
    // The strongest of the nights counts, whichever it was.
    expect(nights([10, 100], [-12, 8])).toBe(1);
    expect(nights([100, 10], [8, -12])).toBe(1);
    expect(nights([50, 50], [-12, -12])).toBeCloseTo(0.5, 9);
  });
});
