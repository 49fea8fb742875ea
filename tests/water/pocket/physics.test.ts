import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  dewPointC,
  evaporationWm2,
  longwaveDownWm2,
  longwaveUpWm2,
  sensibleWm2,
  WATER_HEAT_CAPACITY,
} from '../../../src/science/index.ts';
import { simulatePocket, type PocketHour } from '../../../src/water/pocket/index.ts';
import { runLayers, skyOver } from '../../../src/water/pocket/layers.ts';
import { anyShape, anyWeather, BACK, DRAW, HOUR, OPEN, RAIN_FROM, spell } from './weather.ts';

const CONFIGURED = { basis: 'configured' } as const;

/** Heat a surface of that temperature loses, from the same published terms, wind at 2 m. */
const lossWm2 = (waterC: number, hour: PocketHour, wind2Ms: number): number =>
  longwaveUpWm2(waterC) +
  evaporationWm2(waterC, dewPointC(hour.airC, hour.humidityPct), wind2Ms) +
  sensibleWm2(waterC, hour.airC, wind2Ms) -
  longwaveDownWm2(hour.airC, hour.cloudPct);

/** Temperature at which nothing is lost (bisection; the loss rises with temperature). */
function balanceC(hour: PocketHour, wind2Ms: number, sunWm2 = 0): number {
  let [low, high] = [-1.9, 45];
  for (let i = 0; i < 60; i++) {
    const mid = (low + high) / 2;
    if (lossWm2(mid, hour, wind2Ms) < sunWm2) low = mid;
    else high = mid;
  }
  return (low + high) / 2;
}

describe('the books', () => {
  it('close to 1e-9 for heat and volume, whatever the pocket and the weather', () => {
    fc.assert(
      fc.property(anyShape, anyWeather, fc.integer({ min: 1, max: 20 }), (shape, hours, stepsPerHour) => {
        const { books } = simulatePocket(shape, hours, { ...CONFIGURED, stepsPerHour });
        const throughput =
          Math.abs(books.heatStartJ) +
          Math.abs(books.heatInflowJ) +
          Math.abs(books.heatLakeJ) +
          Math.abs(books.heatSurfaceJ);
        const left =
          books.heatEndJ - books.heatStartJ - books.heatInflowJ - books.heatLakeJ - books.heatSurfaceJ;
        expect(Math.abs(left) / throughput).toBeLessThan(1e-9);
        expect(
          Math.abs(books.volumeInM3 - books.volumeOutM3) / (books.volumeM3 + books.volumeInM3),
        ).toBeLessThan(1e-9);
        expect(books.heatEndJ / books.volumeM3 / WATER_HEAT_CAPACITY).toBeGreaterThanOrEqual(-1e-12);
      }),
      { numRuns: 40 },
    );
  });

  it('all runoff arrives: what the land shed is what the stream carried, once it has run out', () => {
    // Ten days after the rain the slow part has fallen to e^-17.
    const hours = spell({ rainIn: 1.5, days: 14 });
    const got = simulatePocket(DRAW, hours, { ...CONFIGURED, antecedent5dRainMm: 45 });
    const arrived = got.hours.reduce((sum, h) => sum + h.inflowM3s * 3600, 0);
    const shed = got.runoffMm * DRAW.watershedKm2 * 1000;
    expect(shed).toBeGreaterThan(1000);
    expect(Math.abs(arrived / shed - 1)).toBeLessThan(1e-6);
  });
});

describe('temperatures', () => {
  it('stay between those of lake, inflow, rain and air (radiation to the sky below), plus what the sun brought', () => {
    fc.assert(
      fc.property(anyShape, anyWeather, (shape, hours) => {
        const got = simulatePocket(shape, hours, CONFIGURED);
        const inflows = got.hours.flatMap((h) => (h.inflowC === null ? [] : [h.inflowC]));
        const sources = [...hours.flatMap((h) => [h.lakeC, Math.max(0, h.airC)]), ...inflows];
        const coldest = Math.min(...sources, ...hours.map((h) => Math.max(0, balanceC(h, 0))));
        const sunJ = hours.reduce((sum, h) => sum + h.shortwaveWm2 * 3600, 0);
        const sunK = sunJ / (WATER_HEAT_CAPACITY * 0.4 * shape.meanDepthM);
        for (const h of got.hours) {
          expect(h.surfaceC).toBeGreaterThanOrEqual(coldest - 1e-6);
          expect(h.surfaceC).toBeLessThanOrEqual(Math.max(...sources) + sunK + 1e-6);
          expect(h.meanC).toBeGreaterThanOrEqual(coldest - 1e-6);
          expect(h.lowC).toBeLessThanOrEqual(h.surfaceC);
          expect(h.highC).toBeGreaterThanOrEqual(h.surfaceC);
        }
      }),
      { numRuns: 40 },
    );
  });

  it('do not change for want of an inflow: a draw without runoff is a pocket without a watershed', () => {
    fc.assert(
      fc.property(anyShape, anyWeather, (shape, hours) => {
        const dry = hours.map((h) => ({ ...h, rainMm: 0 }));
        const draw = simulatePocket({ ...shape, watershedKm2: 0.4 }, dry, CONFIGURED);
        const none = simulatePocket({ ...shape, watershedKm2: 0 }, dry, CONFIGURED);
        expect(draw.hours.map((h) => h.surfaceC)).toEqual(none.hours.map((h) => h.surfaceC));
        expect(draw.hours.every((h) => h.inflowM3s === 0 && h.inflowC === null)).toBe(true);
        expect(draw.buoyancy).toBeNull();
        expect(draw.halfLifeH).toBeNull();
        expect(draw.runoffMm).toBe(0);
        expect(draw.renewedShare(0, Number.MAX_SAFE_INTEGER)).toBe(0);
      }),
      { numRuns: 15 },
    );
  });

  it('rise with the amount of a warm rain, and so do runoff and the share renewed', () => {
    const inches = fc.double({ min: 0.3, max: 3, noNaN: true });
    fc.assert(
      fc.property(inches, fc.double({ min: 1.05, max: 2, noNaN: true }), (rainIn, factor) => {
        const options = { ...CONFIGURED, antecedent5dRainMm: 45, sedimentMgL: 0 };
        const less = simulatePocket(BACK, spell({ rainIn }), options);
        const more = simulatePocket(BACK, spell({ rainIn: rainIn * factor }), options);
        const top = (r: typeof less): number => Math.max(...r.hours.slice(RAIN_FROM, 48).map((h) => h.meanC));
        expect(top(more)).toBeGreaterThan(top(less) - 1e-9);
        expect(more.runoffMm).toBeGreaterThan(less.runoffMm);
        const whole = [0, Number.MAX_SAFE_INTEGER] as const;
        expect(more.renewedShare(...whole)).toBeGreaterThanOrEqual(less.renewedShare(...whole));
      }),
      { numRuns: 25 },
    );
  });

  it('rise with the temperature of the rain, at every hour', () => {
    fc.assert(
      fc.property(fc.double({ min: 9, max: 18, noNaN: true }), (rainAirC) => {
        const options = { ...CONFIGURED, antecedent5dRainMm: 45, sedimentMgL: 0, soilC: 11 };
        const cooler = simulatePocket(OPEN, spell({ rainIn: 1.5, rainAirC }), options);
        const warmer = simulatePocket(OPEN, spell({ rainIn: 1.5, rainAirC: rainAirC + 1 }), options);
        for (const [i, h] of warmer.hours.entries()) {
          expect(h.meanC).toBeGreaterThanOrEqual((cooler.hours[i]?.meanC ?? NaN) - 0.02);
        }
      }),
      { numRuns: 20 },
    );
  });
});

describe('the solver', () => {
  it('converges: each halving of the step halves the error, and the default is within 0.05 K', () => {
    const hours = spell({ rainIn: 1.5 });
    const surface = (stepsPerHour: number): number[] =>
      simulatePocket(BACK, hours, { ...CONFIGURED, antecedent5dRainMm: 45, stepsPerHour }).hours.map(
        (h) => h.surfaceC,
      );
    const fine = surface(384);
    const error = (steps: number): number =>
      Math.max(...surface(steps).map((t, i) => Math.abs(t - (fine[i] ?? NaN))));
    const errors = [3, 6, 12, 24].map(error);
    for (let i = 1; i < errors.length; i++) expect(errors[i]).toBeLessThan(0.7 * (errors[i - 1] ?? 0));
    expect(error(12)).toBeLessThan(0.05);
  });

  it('reproduces linear relaxation: a closed pocket nears its balance as exp(-K t / rho c z)', () => {
    // dT/dt = K (Te - T) / (rho c z) has the solution Te + (T0 - Te) exp(-K t / rho c z); 1.5 K away K is constant.
    const [hour] = spell();
    const steady = {
      ...hour!,
      airC: 9,
      humidityPct: 80,
      windMs: 9,
      shortwaveWm2: 0,
      cloudPct: 60,
      rainMm: 0,
    };
    const wind2Ms = steady.windMs * 0.75 * 0.2 ** (1 / 7);
    const balance = balanceC(steady, wind2Ms);
    const lakeC = balance + 1.5;
    const depthM = 1;
    const middle = balance + 0.75;
    const exchange = (lossWm2(middle + 0.5, steady, wind2Ms) - lossWm2(middle - 0.5, steady, wind2Ms)) / 1;
    const hours = Array.from({ length: 96 }, (_, i) => ({ ...steady, lakeC, atMs: i * HOUR }));
    const closed = { ...BACK, watershedKm2: 0, mouthWidthM: 0, meanDepthM: depthM };
    const got = simulatePocket(closed, hours, { ...CONFIGURED, stepsPerHour: 60 });
    for (const after of [12, 24, 48, 96]) {
      // dT/dt = K (Te - T) / (rho c z), solved.
      const responseS = (999.7 * 4195 * depthM) / exchange;
      const exact = balance + (lakeC - balance) * Math.exp((-after * 3600) / responseS);
      expect(Math.abs((got.hours[after - 1]?.meanC ?? NaN) - exact)).toBeLessThan(0.03);
    }
  });

  it('reproduces full mixing: inflow of equal density renews a stirred pocket as exp(-Q t / V)', () => {
    // V dT/dt = Q (Tin - T): T = Tin + (T0 - Tin) exp(-Q t / V). Around 3.98 degC water of 3.5 and 4.5 weighs the same.
    const [hour] = spell();
    const calm = {
      ...hour!,
      humidityPct: 100,
      cloudPct: 100,
      windMs: 10,
      rainMm: 0,
      shortwaveWm2: 0,
      lakeC: 3.5,
    };
    let airC = 0;
    while (balanceC({ ...calm, airC }, 6) < 4) airC += 0.01;
    const n = 24;
    const hours = Array.from({ length: n }, (_, i) => ({ ...calm, airC, atMs: i * HOUR }));
    const shape = { ...BACK, areaM2: 5000, meanDepthM: 4, mouthWidthM: 0 };
    const hourlyM3 = (shape.areaM2 * shape.meanDepthM) / 8;
    const each = (value: number): number[] => new Array<number>(n).fill(value);
    const inflow = {
      stormM3: each(hourlyM3),
      baseM3: each(0),
      streamC: each(4.5),
      sedimentMgL: each(0),
      rainM3: each(0),
      rainC: each(0),
      excessMm: each(0),
    };
    const got = runLayers(shape, skyOver(shape, hours), inflow, {
      stepsPerHour: 240,
      mouthFactor: 1,
      sunFactor: 1,
    });
    for (const after of [2, 4, 8, 16, 24]) {
      const exact = 4.5 + (3.5 - 4.5) * Math.exp(-after / 8);
      expect(Math.abs((got.meanC[after - 1] ?? NaN) - exact)).toBeLessThan(0.04);
    }
  });
});
