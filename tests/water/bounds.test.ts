/** Bounds of the water models that the scores on whole years would not show when they move. */
import { describe, expect, it } from 'vitest';
import { nowcastLake } from '../../src/water/lake/index.ts';
import { nowcastRiver } from '../../src/water/river/index.ts';
import { shallowExcessC } from '../../src/water/lake/readings.ts';
import { StuckWatch } from '../../src/water/stuckWatch.ts';
import { dateAfter, gaugeReading, inventedWeather } from './lake/inventedWeather.ts';

const START = '2020-01-01';
const weather = inventedWeather(START, 400);
const site = { latDeg: 36, meanDepthM: 8, areaKm2: 5 };

it('a reading dated on a forecast day teaches nothing, one of the last known day does', () => {
  const firstForecastDate = dateAfter(START, 390);
  const free = nowcastLake(site, weather, [], { firstForecastDate }).days;
  const withReading = (day: number) =>
    nowcastLake(site, weather, [gaugeReading(dateAfter(START, day), free[day]!.waterC + 2)], {
      firstForecastDate,
    }).days;
  expect(withReading(391)[395]!.waterC).toBe(free[395]!.waterC);
  expect(withReading(390)[395]!.waterC).toBe(free[395]!.waterC);
  expect(withReading(389)[395]!.waterC).toBeGreaterThan(free[395]!.waterC + 0.5);
});

describe('a thermometer that shows one value', () => {
  /** Day of the first refusal while the modelled water moves 1 K a day. */
  const refusedOn = (movePerDayC: number): number | undefined => {
    const watch = new StuckWatch('lake');
    for (let day = 1; day <= 30; day += 1)
      if (watch.judge(day, 15, 15 + movePerDayC * day) !== undefined) return day;
    return undefined;
  };

  it('is stuck with its fifth value, if the water moved by two and a half kelvins', () => {
    expect(refusedOn(1)).toBe(5);
    expect(refusedOn(0.5)).toBe(6);
    expect(refusedOn(0.05)).toBeUndefined();
  });

  it('is believed under ice, which holds real water near freezing', () => {
    const watch = new StuckWatch('lake');
    const judged = Array.from({ length: 20 }, (_, day) => watch.judge(day, 0.5, day));
    expect(judged.filter((reason) => reason !== undefined)).toEqual([]);
  });
});

it('shallow water stands highest above the day’s mean at half past five in the afternoon', () => {
  const at = (hour: number): number => shallowExcessC(hour, 0.2, 200, 3);
  expect(at(17.5)).toBeGreaterThan(at(16.5));
  expect(at(17.5)).toBeGreaterThan(at(18.5));
  expect(at(17.5)).toBeCloseTo(-at(5.5), 12);
});

it('a reading of a river dated on a forecast day teaches nothing, one of the last known day does', () => {
  const firstForecastDate = dateAfter(START, 390);
  const free = nowcastRiver('lowland', weather, [], { firstForecastDate }).days;
  const waterOn = (day: number): number =>
    nowcastRiver('lowland', weather, [gaugeReading(dateAfter(START, day), free[day]!.waterC + 2)], {
      firstForecastDate,
    }).days[395]!.waterC;
  expect([waterOn(391), waterOn(390)]).toEqual([free[395]!.waterC, free[395]!.waterC]);
  expect(waterOn(389)).toBeGreaterThan(free[395]!.waterC + 0.2);
});

it('readings of one day that lie far apart teach less than two that agree on the same mean', () => {
  const free = nowcastLake(site, weather, []).days[399]!.waterC;
  const taught = (apartC: number): number => {
    const two = [-1, 1].map((side) =>
      gaugeReading(dateAfter(START, 399), free + 2 + (side * apartC) / 2, { hour: 11.5 }),
    );
    return nowcastLake(site, weather, two).days[399]!.waterC - free;
  };
  expect(taught(0)).toBeGreaterThan(1);
  // Up to a kelvin of scatter is what hours and places explain.
  expect(taught(1.9)).toBeCloseTo(taught(0), 9);
  expect(taught(6)).toBeLessThan(taught(0) - 0.1);
  expect(taught(6)).toBeGreaterThan(0);
});
