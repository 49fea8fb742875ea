import { describe, expect, it } from 'vitest';
import { nowcastLake, type LakeSite } from '../../../src/water/lake/index.ts';

/**
 * Monthly means of air and of surface water of three large southern reservoirs, degC, all FROM MEMORY and rounded: no
 * open series of such a lake was at hand, and the model was fitted to lakes of northern Europe. The check is coarse on
 * purpose: it would catch a model that runs away from its latitude, not one that is a degree off.
 */
const RESERVOIRS: readonly { name: string; site: LakeSite; air: number[]; water: number[] }[] = [
  {
    name: 'a shallow river lake at 34 N',
    site: { latDeg: 34.4, meanDepthM: 4.6, areaKm2: 275 },
    air: [5, 7, 11.5, 16, 20.5, 24.5, 26.5, 26.5, 23, 17, 11, 6.5],
    water: [7, 8, 12, 17, 22, 27, 29.5, 29.5, 27, 21, 15, 9.5],
  },
  {
    name: 'a deep highland lake at 37 N',
    site: { latDeg: 36.6, meanDepthM: 19, areaKm2: 175 },
    air: [1.5, 4, 9, 14.5, 19, 23.5, 26, 25.5, 21, 15, 8.5, 3],
    water: [6.5, 6, 9, 14, 20, 26, 28.5, 28.5, 25.5, 20, 14.5, 9.5],
  },
  {
    name: 'a shallow subtropical lake at 27 N',
    site: { latDeg: 27, meanDepthM: 2.7, areaKm2: 1730 },
    air: [17, 18, 20, 22.5, 25.5, 27.5, 28, 28, 27.5, 25, 21, 18.5],
    water: [17, 18.5, 21, 24, 27, 29, 30, 30, 29, 26, 22, 18.5],
  },
];
const DAY_MS = 86_400_000;
const YEARS = 3;

/** Mean of the last year's days by month, with the month's air held at its middle and drawn straight in between. */
function monthlyWater(site: LakeSite, air: readonly number[]): number[] {
  const first = Date.UTC(2021, 0, 1);
  const weather = Array.from({ length: 365 * YEARS }, (_, i) => {
    const day = new Date(first + i * DAY_MS);
    const month = day.getUTCMonth();
    const off = (day.getUTCDate() - 15) / 30;
    const next = (month + Math.sign(off) + 12) % 12;
    const airC = (air[month] ?? 0) + Math.abs(off) * ((air[next] ?? 0) - (air[month] ?? 0));
    return { date: day.toISOString().slice(0, 10), airC };
  });
  const last = nowcastLake(site, weather, []).days.slice(-365);
  return air.map((_, month) => {
    const own = last.filter(({ date }) => Number(date.slice(5, 7)) === month + 1);
    return own.reduce((sum, { waterC }) => sum + waterC, 0) / own.length;
  });
}

describe('the lake model far south of the lakes it was fitted to', () => {
  it.each(RESERVOIRS)('stays near the usual year of $name', ({ site, air, water }) => {
    const misses = monthlyWater(site, air).map((waterC, month) => waterC - (water[month] ?? NaN));
    for (const miss of misses) expect(Math.abs(miss)).toBeLessThan(2);
    expect(Math.abs(misses.reduce((sum, miss) => sum + miss, 0) / 12)).toBeLessThan(1);
  });
});
