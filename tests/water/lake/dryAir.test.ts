/** Lakes in air far drier than that of the lakes the model learned on. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { evaporationWm2, extraterrestrialWm2 } from '../../../src/science/index.ts';
import { dayNumber, dayOfYear } from '../../../src/units/time/index.ts';
import { nowcastLake, type LakeDay, type LakeSite, type WeatherDay } from '../../../src/water/lake/index.ts';
import { dateAfter } from './inventedWeather.ts';

const START = '2021-01-01';
const YEARS = 3;
/** Wind at 2 m over wind at 10 m. */
const WIND_2M = 0.2 ** (1 / 7);
const ALBEDO = 0.07;

/** Monthly means of a place, FROM MEMORY and rounded: climate, not a series. */
interface Climate {
  readonly name: string;
  readonly site: LakeSite;
  readonly airC: readonly number[];
  readonly dewC: readonly number[];
  readonly windMs: number;
  /** Sun at the ground over that above the atmosphere. */
  readonly clearness: number;
}
const LOW_DESERT: Climate = {
  name: 'a great reservoir of the low desert at 36 N',
  site: { latDeg: 36.1, meanDepthM: 40, areaKm2: 400 },
  airC: [9, 12, 16, 20, 26, 31, 34, 33, 28.5, 21, 13.5, 8.5],
  dewC: [-5, -4, -4, -3, -1, 1, 8, 9, 4, 0, -3, -5],
  windMs: 3.5,
  clearness: 0.68,
};
const CLIMATES: readonly Climate[] = [
  LOW_DESERT,
  {
    name: 'a small reservoir of the hottest desert at 33 N',
    site: { latDeg: 33.5, meanDepthM: 8, areaKm2: 3 },
    airC: [13, 15, 18, 22, 27, 32, 34.5, 34, 31, 24.5, 17.5, 12.5],
    dewC: [2, 2, 2, 2, 3, 5, 14, 15, 10, 5, 3, 2],
    windMs: 3,
    clearness: 0.68,
  },
  {
    name: 'a reservoir of the high desert at 39 N',
    site: { latDeg: 39.5, meanDepthM: 10, areaKm2: 20 },
    airC: [1, 4, 7.5, 11, 16, 21, 25, 24, 19, 12.5, 6, 1],
    dewC: [-5, -4, -4, -3, 0, 3, 5, 4, 2, -1, -3, -5],
    windMs: 3.5,
    clearness: 0.65,
  },
  {
    name: 'a foothill reservoir with dry summers at 37 N',
    site: { latDeg: 37, meanDepthM: 25, areaKm2: 20 },
    airC: [8, 10.5, 13, 16, 20, 24, 27, 26, 23.5, 18.5, 12, 8],
    dewC: [5, 6, 7, 7.5, 9, 11, 12, 12.5, 11, 9, 7, 5],
    windMs: 3,
    clearness: 0.63,
  },
  {
    name: 'a reservoir of the southern plains at 35 N',
    site: { latDeg: 35, meanDepthM: 8, areaKm2: 20 },
    airC: [3, 5.5, 10.5, 16, 20.5, 25.5, 28, 27.5, 23, 16.5, 10, 4],
    dewC: [-3, -2, 3, 8, 14.5, 18.5, 19, 18, 15, 9, 3, -2],
    windMs: 5,
    clearness: 0.57,
  },
  {
    name: 'a humid highland reservoir at 36 N',
    site: { latDeg: 36, meanDepthM: 10, areaKm2: 20 },
    airC: [3, 5, 10, 15.5, 20, 24.5, 26.5, 26, 22.5, 16, 10, 4.5],
    dewC: [-2, -1, 3, 8, 14, 19, 21, 20.5, 17, 10, 4, -1],
    windMs: 2.5,
    clearness: 0.5,
  },
];

/** A month's value drawn straight to its neighbour's. */
function between(months: readonly number[], date: string): number {
  const month = Number(date.slice(5, 7)) - 1;
  const off = (Number(date.slice(8)) - 15) / 30;
  const own = months[month] ?? NaN;
  return own + Math.abs(off) * ((months[(month + Math.sign(off) + 12) % 12] ?? NaN) - own);
}
const sunWm2 = ({ site, clearness }: Climate, date: string): number =>
  clearness * extraterrestrialWm2(site.latDeg, dayOfYear(dayNumber(date)));

type Known = 'all' | 'extremes' | 'air';
const weatherOf = (climate: Climate, known: Known = 'all'): WeatherDay[] =>
  Array.from({ length: 365 * YEARS }, (_, i) => {
    const date = dateAfter(START, i);
    const [airC, dewPointC] = [between(climate.airC, date), between(climate.dewC, date)];
    if (known === 'air') return { date, airC };
    // Days swing the more the drier the air is (common practice, no source).
    const half = 4 + 0.175 * (airC - dewPointC);
    const extremes = { airMinC: airC - half, airMaxC: airC + half };
    if (known === 'extremes') return { date, airC, ...extremes };
    return { date, airC, ...extremes, dewPointC, windMs: climate.windMs, solarWm2: sunWm2(climate, date) };
  });
const lastYear = (climate: Climate, known?: Known): LakeDay[] =>
  nowcastLake(climate.site, weatherOf(climate, known), []).days.slice(-365);
const meanOf = (values: readonly number[]): number => values.reduce((a, b) => a + b, 0) / values.length;
const ofMonths = (days: readonly LakeDay[], ...months: number[]): LakeDay[] =>
  days.filter(({ date }) => months.includes(Number(date.slice(5, 7))));
const meanWater = (days: readonly LakeDay[]): number => meanOf(days.map(({ waterC }) => waterC));
const meanHalf = (days: readonly LakeDay[]): number => meanOf(days.map((day) => day.highC - day.waterC));

const F = (celsius: number): number => celsius * 1.8 + 32;
/**
 * Equilibrium temperature in the form and units of the open source of CE-QUAL-W2 (heat exchange), after Edinger, Brady
 * and Geyer (1974): another vapour curve, another sky and another way of solving than the model's own balance.
 */
function equilibriumC(airC: number, dewC: number, wind2mMs: number, netSunWm2: number): number {
  const [airF, dewF] = [F(airC), F(dewC)];
  const wind = 7.60796 * 9.2 + 1.520411 * 0.46 * (wind2mMs * 2.23694) ** 2;
  const sky = 3.1872e-8 * (airF + 459.67) ** 4;
  let waterF = dewF;
  for (let i = 0; i < 10; i++) {
    const middle = (waterF + dewF) / 2;
    const beta = 0.255 - 0.0085 * middle + 0.000204 * middle ** 2;
    const exchange = 15.7 + (0.26 + beta) * wind;
    const next =
      (netSunWm2 * 0.31699 * 24 + sky - 1801) / exchange +
      ((exchange - 15.7) * (0.26 * airF + beta * dewF)) / (exchange * (0.26 + beta));
    const step = Math.abs(next - waterF);
    waterF = next;
    if (step < 0.05) break;
  }
  return (waterF - 32) / 1.8;
}

describe('the published balance that the model is held against', () => {
  it.each([
    [5, 10, 2, 150, 13.917],
    [10, 18, 3, 200, 20.604],
    [15, 25, 2, 250, 28.05],
    [-2, 8, 5, 180, 9.633],
  ])(
    'gives its own check value at dew point %d, air %d, wind %d, sun %d',
    (dewC, airC, windMs, sun, waterC) => {
      expect(Math.abs(equilibriumC(airC, dewC, windMs, sun) - waterC)).toBeLessThan(0.05);
    },
  );
});

describe('a lake in dry hot air', () => {
  it.each(CLIMATES)('stands at the height of summer near the equilibrium of $name', (climate) => {
    const summer = ofMonths(lastYear(climate), 7, 8);
    const at = '2023-07-31';
    const equilibrium = equilibriumC(
      between(climate.airC, at),
      between(climate.dewC, at),
      climate.windMs * WIND_2M,
      (1 - ALBEDO) * sunWm2(climate, at),
    );
    expect(Math.abs(meanWater(summer) - equilibrium)).toBeLessThan(2.5);
  });

  it('keeps the usual year of a great desert reservoir, and says that it knows it less well', () => {
    // Surface of such a lake by month, FROM MEMORY and rounded.
    const usual = [12, 12, 13.5, 16.5, 20.5, 24.5, 27.5, 28, 26, 22.5, 18, 14];
    const days = lastYear(LOW_DESERT);
    usual.forEach((waterC, i) => {
      const month = ofMonths(days, i + 1);
      expect(Math.abs(meanWater(month) - waterC)).toBeLessThan(meanHalf(month));
    });
    expect(meanHalf(ofMonths(days, 7))).toBeGreaterThan(2.5);
    expect(meanHalf(ofMonths(days, 1))).toBeCloseTo(1.8, 1);
  });

  it('evaporates what was measured on such a reservoir in a year', () => {
    // Lake Mead: 6.4 ft (1953-94, mass transfer) to 7.5 ft a year (1997-99, energy budget), Westenburg, DeMeo and Tanko
    // (2006), U.S. Geological Survey Scientific Investigations Report 2006-5252.
    const LATENT_J_M3 = 2.45e9;
    const daily = lastYear(LOW_DESERT).map(({ date, waterC }) =>
      evaporationWm2(waterC, between(LOW_DESERT.dewC, date), LOW_DESERT.windMs * WIND_2M),
    );
    const feet = (meanOf(daily) * 365 * 86_400) / LATENT_J_M3 / 0.3048;
    expect(feet).toBeGreaterThan(6.4 * 0.85);
    expect(feet).toBeLessThan(7.5 * 1.15);
  });

  it('is told with a wider interval still where nobody knows the dew point, and that interval holds the lake', () => {
    const known = ofMonths(lastYear(LOW_DESERT), 7, 8);
    for (const less of ['extremes', 'air'] as const) {
      const guessed = ofMonths(lastYear(LOW_DESERT, less), 7, 8);
      expect(meanHalf(guessed)).toBeGreaterThan(meanHalf(known) + 0.3);
      expect(Math.abs(meanWater(guessed) - meanWater(known))).toBeLessThan(meanHalf(guessed));
    }
  });

  it('believes a reading against the balance', () => {
    const weather = weatherOf(LOW_DESERT);
    const date = '2023-07-20';
    const { days, refused } = nowcastLake(LOW_DESERT.site, weather, [
      { date, waterC: 30.5, depthM: 1, sdC: 0.2, source: 'logger' },
    ]);
    expect(refused).toEqual([]);
    const told = days.find((day) => day.date === date)!;
    expect(told.waterC).toBeGreaterThan(29.8);
    expect(told.highC - told.waterC).toBeLessThan(1.5);
  });
});

describe('the answer of a lake to the dew point', () => {
  /** July of a third year: a steady climate of the tested dryness with a season of its own. */
  const climates = fc.record({
    latDeg: fc.double({ min: 25, max: 45, noNaN: true }),
    meanDepthM: fc.double({ min: 1, max: 40, noNaN: true }),
    areaKm2: fc.double({ min: 0.1, max: 500, noNaN: true }),
    meanC: fc.double({ min: 5, max: 26, noNaN: true }),
    swingC: fc.double({ min: 2, max: 14, noNaN: true }),
    belowAirC: fc.double({ min: 0, max: 25, noNaN: true }),
    windMs: fc.double({ min: 1, max: 7, noNaN: true }),
    endDay: fc.integer({ min: 730, max: 1094 }),
  });
  type Drawn = typeof climates extends fc.Arbitrary<infer T> ? T : never;
  const water = (drawn: Drawn, moreC: number): LakeDay => {
    const weather = Array.from({ length: drawn.endDay }, (_, i) => {
      const date = dateAfter(START, i);
      const airC = drawn.meanC + drawn.swingC * Math.cos((2 * Math.PI * (i - 200)) / 365.25);
      const solarWm2 = 0.6 * extraterrestrialWm2(drawn.latDeg, dayOfYear(dayNumber(date)));
      return { date, airC, solarWm2, windMs: drawn.windMs, dewPointC: airC - drawn.belowAirC - moreC };
    });
    return nowcastLake(drawn, weather, []).days.at(-1)!;
  };

  it('is never warmer water in drier air, on any day of the year', () => {
    fc.assert(
      fc.property(climates, fc.double({ min: 0.1, max: 10, noNaN: true }), (drawn, moreC) => {
        expect(water(drawn, moreC).waterC).toBeLessThanOrEqual(water(drawn, 0).waterC + 1e-9);
      }),
      { numRuns: 40 },
    );
  });

  it('comes to a figure in the coldest and driest air there is', () => {
    const weather = Array.from({ length: 60 }, (_, i) => ({
      date: dateAfter(START, i),
      airC: -75,
      dewPointC: -90,
    }));
    expect(nowcastLake(LOW_DESERT.site, weather, []).days.at(-1)!.waterC).toBe(0);
  });

  it('has no step in it, nor has the interval', () => {
    fc.assert(
      fc.property(climates, (drawn) => {
        const [here, near] = [water(drawn, 0), water(drawn, 0.05)];
        expect(Math.abs(here.waterC - near.waterC)).toBeLessThan(0.15);
        expect(Math.abs(here.highC - here.waterC - (near.highC - near.waterC))).toBeLessThan(0.1);
      }),
      { numRuns: 40 },
    );
  });

  it('leaves the interval alone in air like that of the lakes the model learned on', () => {
    fc.assert(
      fc.property(climates, (drawn) => {
        // At 22 degC and 6 K below it the deficit is 8 hPa.
        const mild = { ...drawn, meanC: 10, swingC: 12, belowAirC: Math.min(6, drawn.belowAirC) };
        const { waterC, highC } = water({ ...mild, latDeg: 36 }, 0);
        // What the start of the run left, nothing more.
        expect(highC - waterC).toBeLessThan(1.81);
      }),
      { numRuns: 30 },
    );
  });
});
