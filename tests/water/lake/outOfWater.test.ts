import { describe, expect, it } from 'vitest';
import { fixtureLakes, readingsEvery } from '../../../bench/lake-data.ts';
import { nowcastLake, type WaterReading } from '../../../src/water/lake/index.ts';

// Observed lake: fixtures/water/lake/README.md (CC BY-SA 3.0). For a month the readings are that day's air and 1 K.
const [lake] = fixtureLakes();
const weather = lake!.weather.filter(({ date }) => date >= '2007' && date < '2010');
const inWater = readingsEvery(lake!, 1).filter(({ date }) => date >= '2007' && date < '2010');
const airC = new Map(weather.map((day) => [day.date, day.airC ?? 0]));
const DRY = { from: '2009-06-10', to: '2009-07-10' };
const dried = inWater.map((reading) =>
  reading.date >= DRY.from && reading.date <= DRY.to
    ? { ...reading, waterC: (airC.get(reading.date) ?? 0) + 1 }
    : reading,
);

function run(readings: readonly WaterReading[]) {
  const { days, refused } = nowcastLake(lake!.site, weather, readings, { readingLagDays: 1 });
  const month = days.filter(({ date }) => date >= DRY.from && date <= DRY.to);
  const squares = month.map(({ date, waterC }) => (waterC - (lake!.water.get(date) ?? NaN)) ** 2);
  return {
    rmseC: Math.sqrt(squares.reduce((sum, square) => sum + square, 0) / squares.length),
    refused: refused
      .filter(({ reason }) => reason.code === 'followsAir' || reason.code === 'swingsLikeAir')
      .map(({ reading }) => reading.date),
    after: days.find(({ date }) => date === '2009-08-01'),
  };
}

describe('a daily thermometer that a falling lake left dry', () => {
  it('is refused within two weeks, and what it taught is taken back', () => {
    const { rmseC, refused } = run(dried);
    expect(refused.length).toBeGreaterThan(10);
    expect(refused[0]! < '2009-06-25').toBe(true);
    // Believed, they gave 1.88 K.
    expect(rmseC).toBeLessThan(1.3);
  });

  it('is believed again when it is back in the water', () => {
    expect(run(dried).after?.readingAgeDays).toBe(1);
    expect(Math.abs((run(dried).after?.waterC ?? NaN) - (run(inWater).after?.waterC ?? NaN))).toBeLessThan(
      0.3,
    );
  });

  it('is left alone while it is in the water', () => {
    expect(run(inWater).refused).toEqual([]);
  });
});

describe('readings of one day that are against each other', () => {
  it('make the estimate less sure than one alone, not surer', () => {
    const day = '2009-05-15';
    const reading = (waterC: number): WaterReading => ({
      date: day,
      waterC,
      depthM: 1,
      sdC: 0.5,
      source: 'angler',
    });
    const width = (readings: readonly WaterReading[]): number => {
      const found = nowcastLake(lake!.site, weather, readings).days.find(({ date }) => date === day);
      return (found?.highC ?? NaN) - (found?.lowC ?? NaN);
    };
    expect(width([reading(12), reading(18)])).toBeGreaterThan(1.5 * width([reading(15)]));
    expect(width([reading(14.9), reading(15.1)])).toBeCloseTo(width([reading(15)]), 1);
  });
});
