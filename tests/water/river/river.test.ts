import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  nowcastRiver,
  stepStream,
  streamRate,
  type RiverKind,
  type RiverWeatherDay,
} from '../../../src/water/river/index.ts';
import { nowcastLake, type LakeDay } from '../../../src/water/lake/index.ts';
import { dateAfter, gaugeReading, inventedWeather } from '../lake/inventedWeather.ts';

const START = '2020-01-01';
const weather = inventedWeather(START, 400);
const KINDS: readonly RiverKind[] = ['lowland', 'wide', 'snow-fed', 'regulated'];
const half = (day: LakeDay | undefined): number => day!.highC - day!.waterC;

describe('stream equation', () => {
  // Analytic solution of linear relaxation dT/dt = r (E - T): T = E + (T0 - E) exp(-r t).
  it('relaxes to the air exactly as the linear equation says', () => {
    const parameters = { a: [0, 0.3, 0.3, 0, 0, 0, 0, 0] } as const;
    let waterC = 4;
    for (let day = 0; day < 10; day++) waterC = stepStream(parameters, waterC, 20, 1, 100);
    expect(waterC).toBeCloseTo(20 + (4 - 20) * Math.exp(-3), 10);
    expect(streamRate(parameters, 1)).toEqual({ ratePerDay: 0.3, airPerDay: 0.3 });
  });

  it('is warmer under warmer air and never freezes below 0', () => {
    const parameters = { a: [0.5, 0.4, 0.45, 0.1, 0.9, 0.6, 0.6, 0.1] } as const;
    fc.assert(
      fc.property(
        fc.double({ min: -30, max: 40, noNaN: true }),
        fc.double({ min: 0.01, max: 30, noNaN: true }),
        fc.integer({ min: 1, max: 366 }),
        (airC, flow, doy) => {
          const a = stepStream(parameters, 8, airC, flow, doy);
          expect(a).toBeGreaterThanOrEqual(0);
          expect(stepStream(parameters, 8, airC + 1, flow, doy)).toBeGreaterThanOrEqual(a);
        },
      ),
    );
  });
});

describe('nowcast of a river', () => {
  const free = nowcastRiver('lowland', weather, []).days;

  it('moves to a reading and forgets most of it within two weeks', () => {
    const { days } = nowcastRiver('lowland', weather, [
      gaugeReading(dateAfter(START, 200), free[200]!.waterC + 1),
    ]);
    const moved = (i: number): number => days[i]!.waterC - free[i]!.waterC;
    expect(moved(199)).toBe(0);
    expect(moved(200)).toBeGreaterThan(0.75);
    expect(moved(214)).toBeLessThan(moved(200));
    expect(days[201]!.readingAgeDays).toBe(1);
    expect(half(days[200])).toBeLessThan(half(free[200]));
  });

  it('knows nothing of tomorrow', () => {
    const readings = Array.from({ length: 50 }, (_, i) => gaugeReading(dateAfter(START, 7 * i), 12));
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 398 }), fc.constantFrom(...KINDS), (cut, kind) => {
        const whole = nowcastRiver(kind, weather, readings).days[cut];
        const known = readings.filter(({ date }) => date <= dateAfter(START, cut));
        expect(nowcastRiver(kind, weather.slice(0, cut + 1), known).days.at(-1)).toEqual(whole);
      }),
      { numRuns: 15 },
    );
  });

  it('keeps its estimate inside its interval and no lower than a thermometer in freezing water reads', () => {
    fc.assert(
      fc.property(
        fc.constantFrom(...KINDS),
        fc.array(fc.record({ day: fc.nat(399), waterC: fc.double({ min: -5, max: 45, noNaN: true }) }), {
          maxLength: 30,
        }),
        (kind, given) => {
          const readings = given.map(({ day, waterC }) => gaugeReading(dateAfter(START, day), waterC));
          for (const day of nowcastRiver(kind, weather, readings).days) {
            expect(day.waterC).toBeGreaterThanOrEqual(0);
            expect(day.lowC).toBeGreaterThanOrEqual(-0.1);
            expect(day.lowC).toBeLessThanOrEqual(day.waterC);
            expect(day.highC).toBeGreaterThan(day.waterC);
          }
        },
      ),
      { numRuns: 25 },
    );
  });

  it('is steadier where snow or a dam feeds it than in the lowland', () => {
    const swing = (kind: RiverKind): number => {
      const values = nowcastRiver(kind, weather, []).days.map((d) => d.waterC);
      return Math.max(...values) - Math.min(...values);
    };
    expect(swing('snow-fed')).toBeLessThan(swing('lowland') / 2);
    expect(swing('regulated')).toBeLessThan(0.9 * swing('wide'));
  });

  it('spans a warm and a cold release below a dam until a reading tells which it is', () => {
    const summer = 200;
    const unread = nowcastRiver('regulated', weather, []).days[summer]!;
    const cold = nowcastRiver('snow-fed', weather, []).days[summer]!.waterC;
    const warm = nowcastRiver('wide', weather, []).days[summer]!.waterC;
    expect(warm - cold).toBeGreaterThan(5);
    expect(unread.lowC).toBeLessThan(cold);
    expect(unread.highC).toBeGreaterThan(warm);
    for (const truthC of [cold, warm]) {
      const read = nowcastRiver('regulated', weather, [gaugeReading(dateAfter(START, summer), truthC)]);
      expect(Math.abs(read.days[summer + 3]!.waterC - truthC)).toBeLessThan(3);
      expect(half(read.days[summer + 3])).toBeLessThan(half(unread) / 2);
    }
  });

  it('is warmer in summer where it is wide than as a shaded stream, towards a shallow lake', () => {
    const lake = nowcastLake({ latDeg: 36, meanDepthM: 3, areaKm2: 5 }, weather, []).days;
    const wide = nowcastRiver('wide', weather, [], { latDeg: 36 }).days;
    expect(wide[200]!.waterC).toBeGreaterThan(free[200]!.waterC + 1);
    const open = nowcastRiver('wide', weather, [], { latDeg: 36, belief: { open: 1 } }).days;
    expect(open[200]!.waterC).toBeCloseTo(lake[200]!.waterC, 9);
    const south = nowcastRiver('wide', inventedWeather(START, 400, -36), [], { latDeg: -36 }).days;
    expect(south[20]!.waterC).toBeGreaterThan(south[200]!.waterC + 5);
  });

  it('is less sure of a hand reading at some hour than of a daily mean', () => {
    const date = dateAfter(START, 200);
    const at = (hour?: number): LakeDay =>
      nowcastRiver('lowland', weather, [gaugeReading(date, 18, hour === undefined ? {} : { hour })])
        .days[200]!;
    expect(half(at(15))).toBeGreaterThan(half(at()));
  });

  it('takes a shut gate for a low flow and an absent gauge for the usual one', () => {
    const withFlow = (flow: number | undefined): RiverWeatherDay[] =>
      weather.map((day, i) => {
        const dischargeM3s = i < 300 ? 20 : flow;
        return { date: day.date, airC: day.airC, ...(dischargeM3s === undefined ? {} : { dischargeM3s }) };
      });
    const at = (flow: number | undefined): number =>
      nowcastRiver('snow-fed', withFlow(flow), []).days[310]!.waterC;
    expect(at(undefined)).toBeCloseTo(at(20), 6);
    expect(Math.abs(at(0) - at(20))).toBeGreaterThan(0.3);
  });

  it('wants the weather in order', () => {
    expect(() => nowcastRiver('lowland', [weather[1]!, weather[0]!], [])).toThrow(/order/);
    expect(() => nowcastRiver('lowland', weather, [], { belief: {} })).toThrow(
      new RangeError('At least one free run must be believed.'),
    );
    expect(nowcastRiver('lowland', [], [])).toEqual({ days: [], seen: [], refused: [] });
  });
});

describe('gaps and forecasts of a river', () => {
  const readings = [180, 187, 194].map((i) => gaugeReading(dateAfter(START, i), 17));
  const withoutAir = (from: number, to: number): RiverWeatherDay[] =>
    weather.map((day, i) => (i >= from && i < to ? { date: day.date, airC: null } : day));

  it('widens the interval over days without air and recovers within days', () => {
    const whole = nowcastRiver('lowland', weather, readings).days;
    const { days } = nowcastRiver('lowland', withoutAir(200, 206), readings);
    expect(days).toHaveLength(whole.length);
    for (let i = 200; i < 206; i++) expect(half(days[i])).toBeGreaterThan(half(whole[i]));
    expect(half(days[205])).toBeGreaterThan(half(days[200]));
    const wider = (i: number): number => half(days[i]) - half(whole[i]);
    expect(wider(216)).toBeLessThan(wider(205) / 2);
    expect(half(days[260])).toBeCloseTo(half(whole[260]), 1);
  });

  it('bridges a date that is left out like one without air', () => {
    const lines = weather.filter((_, i) => i < 200 || i >= 206);
    expect(nowcastRiver('lowland', lines, readings)).toEqual(
      nowcastRiver('lowland', withoutAir(200, 206), readings),
    );
  });

  it('has no estimate beyond ten days without air and starts anew after them', () => {
    const { days } = nowcastRiver('lowland', withoutAir(200, 230), readings);
    const dates = new Set(days.map((day) => day.date));
    expect(dates.has(dateAfter(START, 209))).toBe(true);
    expect(dates.has(dateAfter(START, 210))).toBe(false);
    const again = days.find((day) => day.date === dateAfter(START, 230));
    expect(half(again)).toBeGreaterThan(half(days.find((day) => day.date === dateAfter(START, 240))));
  });

  it('counts forecast days and widens their interval with the lead', () => {
    const firstForecastDate = dateAfter(START, 196);
    for (const kind of KINDS) {
      const { days } = nowcastRiver(kind, weather, readings, { firstForecastDate });
      const known = nowcastRiver(kind, weather, readings).days;
      expect(days.slice(194, 199).map((day) => day.leadDays)).toEqual([0, 0, 1, 2, 3]);
      for (let i = 196; i < 205; i++) expect(half(days[i])).toBeGreaterThan(half(known[i]));
      expect(half(days[203])).toBeGreaterThan(half(days[196]));
      expect(days[200]!.waterC).toBeCloseTo(known[200]!.waterC, 9);
    }
  });
});

describe('a release below a dam', () => {
  // Invented releases: cold all year and latest in autumn, and one that warms until the reservoir turns over in November.
  const long = inventedWeather(START, 1100);
  const year = (i: number): number => (i % 365.25) / 365.25;
  const releases = {
    'from the depth': (i: number) => 9 + 3 * Math.cos(2 * Math.PI * (year(i) - 0.78)),
    'that turns over': (i: number) =>
      year(i) < 0.85 ? 7 + (9 * year(i)) / 0.85 : 16 - (9 * (year(i) - 0.85)) / 0.15,
    'from the surface': (i: number) => 16 + 9 * Math.cos(2 * Math.PI * (year(i) - 0.62)),
  };

  it.each(Object.entries(releases))('%s is learned from weekly readings within a year', (_, releaseC) => {
    const readings = Array.from({ length: 105 }, (_, i) => 365 + 7 * i).map((i) =>
      gaugeReading(dateAfter(START, i), releaseC(i)),
    );
    const { days, refused } = nowcastRiver('regulated', long, readings, { readingLagDays: 1, latDeg: 36 });
    const rmseC = (from: number, to: number): number =>
      Math.sqrt(
        days.slice(from, to).reduce((sum, day, i) => sum + (day.waterC - releaseC(from + i)) ** 2, 0) /
          (to - from),
      );
    expect(rmseC(366, 730)).toBeLessThan(0.8);
    expect(rmseC(730, 1090)).toBeLessThan(0.6);
    expect(refused).toEqual([]);
  });
});
