import { describe, expect, it } from 'vitest';
import { medianOf } from '../../../bench/lake-score.ts';
import { neonSites } from '../../../bench/neon-data.ts';
import { simulatePocket, type PocketHour } from '../../../src/water/pocket/index.ts';
import { creekDays } from '../../../src/water/river/index.ts';
import { BACK } from '../pocket/weather.ts';

// National Ecological Observatory Network, nine creeks and small rivers from Alabama to Wyoming, daily means 2016-2024.
const creeks = neonSites().filter(({ lake, name }) => lake === undefined && name !== 'TOMB');

describe('a creek between storms', () => {
  it('is told within 2 degC in the median of nine, by the air alone', () => {
    const misses = creeks.map(({ weather, latDeg, water }) => {
      const told = creekDays(weather, latDeg);
      const own = [...water].flatMap(([date, waterC]) => {
        const creekC = told.get(date);
        return creekC === undefined ? [] : [(creekC - waterC) ** 2];
      });
      return Math.sqrt(own.reduce((sum, square) => sum + square, 0) / own.length);
    });
    expect(medianOf(misses)).toBeLessThan(2);
  });

  it('is warmer than the air of winter and cooler than that of summer, as creeks are', () => {
    for (const { name, weather, latDeg } of creeks) {
      const told = creekDays(weather, latDeg);
      const apart = (months: readonly string[]): number => {
        const own = weather.flatMap(({ date, airC }) => {
          const creekC = told.get(date);
          return airC === null || creekC === undefined || !months.includes(date.slice(5, 7))
            ? []
            : [creekC - airC];
        });
        return own.reduce((sum, k) => sum + k, 0) / own.length;
      };
      expect(apart(['12', '01', '02']), name).toBeGreaterThan(0.5);
      expect(apart(['06', '07', '08']), name).toBeLessThan(-0.5);
    }
  });

  it('is what runs into a pocket on a dry day, with a quarter of the swing of the air', () => {
    const hours = Array.from({ length: 96 }, (_, i): PocketHour => ({
      atMs: Date.UTC(2026, 0, 10) + (i + 1) * 3_600_000,
      airC: 7 + 4 * Math.sin((2 * Math.PI * i) / 24),
      humidityPct: 70,
      rainMm: 0,
      windMs: 2,
      shortwaveWm2: 0,
      cloudPct: 80,
      lakeC: 8,
      creekC: 6,
    }));
    const shape = { ...BACK, watershedKm2: 5 };
    const flowing = simulatePocket(shape, hours, { basis: 'configured' }).hours.slice(-24);
    const inflow = flowing.map(({ inflowC }) => inflowC ?? NaN);
    expect(inflow.reduce((sum, c) => sum + c, 0) / 24).toBeCloseTo(6, 1);
    expect(Math.max(...inflow) - Math.min(...inflow)).toBeCloseTo(2, 0);
  });
});
