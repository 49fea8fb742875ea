/** What weather, flow and readings do to rivers of each kind: signs and limits, on short invented records. */
import { describe, expect, it } from 'vitest';
import {
  nowcastPool,
  nowcastRiver,
  type RiverKind,
  type RiverOptions,
  type RiverWeatherDay,
} from '../../../src/water/river/index.ts';
import { nowcastLake, waterChange, type LakeDay, type WaterReading } from '../../../src/water/lake/index.ts';
import { dateAfter, gaugeReading, inventedWeather } from '../lake/inventedWeather.ts';

const START = '2020-01-01';
const DAYS = 420;
const weather = inventedWeather(START, DAYS);
const on = (i: number): string => dateAfter(START, i);
const run = (
  own: readonly RiverWeatherDay[],
  options: RiverOptions = {},
  readings: readonly WaterReading[] = [],
  kind: RiverKind = 'lowland',
) => nowcastRiver(kind, own, readings, options);
const waterC = (own: readonly RiverWeatherDay[], options: RiverOptions = {}): number =>
  run(own, options).days.at(-1)!.waterC;
const half = ({ highC, waterC: middleC }: LakeDay): number => highC - middleC;
const BASES = ['creek', 'spring', 'lowland', 'open', 'alpine', 'melt'] as const;
const only = (base: (typeof BASES)[number]): RiverOptions => ({ belief: { [base]: 1 }, latDeg: 36 });

describe('each kind of water that a river may be', () => {
  it.each(BASES)('%s: follows the air the right way, within a share of it', (base) => {
    const warmer = weather.map((day, i) => (i < DAYS - 10 ? day : { ...day, airC: day.airC! + 5 }));
    const rise = waterC(warmer, only(base)) - waterC(weather, only(base));
    expect(rise).toBeGreaterThan(0.1);
    expect(rise).toBeLessThan(5);
  });

  it.each(BASES)('%s: is not sure of its first day, and surer by far after a season', (base) => {
    const { days } = run(weather, only(base));
    expect(half(days[0]!)).toBeGreaterThan(half(days[120]!));
    // What a start leaves is a few kelvins of air at most, damped as the water damps them.
    expect(half(days[0]!)).toBeLessThan(8);
  });

  it.each(BASES)(
    '%s: is less sure with every day without air, and never by more than the air itself can miss',
    (base) => {
      const gap = weather.map((day, i) => (i >= 300 && i < 309 ? { ...day, airC: null } : day));
      const { days } = run(gap, only(base));
      const known = run(weather, only(base)).days;
      const added = (i: number): number => half(days[i]!) ** 2 - half(known[i]!) ** 2;
      expect(added(299)).toBe(0);
      expect(added(304)).toBeGreaterThan(added(300));
      expect(added(308)).toBeGreaterThan(Math.max(0, added(304)));
      // Air is missed by some 4 K, 1.28 standard errors are 80 %; the creeks' interval is wider than their answer to it.
      expect(Math.sqrt(added(308))).toBeLessThan(1.25 * 1.2816 * 4);
      expect(added(330)).toBeLessThan(added(308) / 2);
    },
  );

  it('springs keep their water nearer to the mean of the year than runoff does, open water furthest from it', () => {
    const swing = (base: (typeof BASES)[number]): number => {
      const year = run(weather, only(base))
        .days.slice(-365)
        .map((day) => day.waterC);
      return Math.max(...year) - Math.min(...year);
    };
    expect(swing('spring')).toBeLessThan(0.8 * swing('creek'));
    expect(swing('creek')).toBeLessThan(swing('open'));
    expect(swing('alpine')).toBeLessThan(swing('lowland'));
  });

  it('open: takes sun, wind and dew point as the shallow lake does that it is taken for', () => {
    const whole = weather.map((day, i) => ({
      ...day,
      solarWm2: 150 + (i > 390 ? 120 : 0),
      windMs: 3 + (i % 4),
      dewPointC: day.airC! - 6,
    }));
    const lake = nowcastLake({ latDeg: 36, meanDepthM: 3, areaKm2: 5 }, whole, []).days.at(-1)!.waterC;
    expect(waterC(whole, only('open'))).toBeCloseTo(lake, 9);
    expect(Math.abs(lake - waterC(weather, only('open')))).toBeGreaterThan(0.2);
  });

  it('is mixed by belief: a fifth of one and four fifths of another is in between', () => {
    const at = (belief: RiverOptions['belief']): number => waterC(weather, { belief: belief!, latDeg: 36 });
    const mixed = at({ open: 0.2, spring: 0.8 });
    expect(mixed).toBeCloseTo(0.2 * at({ open: 1 }) + 0.8 * at({ spring: 1 }), 9);
    expect(at({ open: 1, spring: 0 })).toBe(at({ open: 1 }));
  });

  it('belongs to a lowland river by its watershed: a small one is as the kind says, a vast one as a wide river', () => {
    const summer = (options: RiverOptions, kind: RiverKind = 'lowland'): number =>
      run(weather.slice(0, 220), { latDeg: 36, ...options }, [], kind).days.at(-1)!.waterC;
    const by = [1, 1000, 3000, 10_000, 1e7].map((watershedKm2) => summer({ watershedKm2 }));
    for (let i = 1; i < by.length; i++) expect(by[i]).toBeGreaterThan(by[i - 1]!);
    expect(by[0]).toBeCloseTo(summer({}), 4);
    expect(by[4]).toBeCloseTo(summer({}, 'wide'), 4);
    expect(by[2]).toBeCloseTo((summer({}) + summer({}, 'wide')) / 2, 6);
    for (const kind of ['wide', 'snow-fed', 'regulated'] as const)
      expect(summer({ watershedKm2: 1e6 }, kind)).toBe(summer({}, kind));
  });
});

describe('the air of days that nobody measured', () => {
  it('goes back from the last day’s to that of the last weeks', () => {
    // Weeks of 10 degC, one day of 25, then nothing: the water ends between what 10 and what 25 would have made of it.
    const then = (gapC: number | null): number =>
      waterC(
        Array.from({ length: 120 }, (_, i) => ({ date: on(i), airC: i < 110 ? 10 : i === 110 ? 25 : gapC })),
        only('lowland'),
      );
    expect(then(null)).toBeGreaterThan(then(10) + 0.1);
    expect(then(null)).toBeLessThan((then(10) + then(25)) / 2);
  });

  it('is not known at the start of a record: days begin with the first air, and readings before it are refused', () => {
    const late = weather.map((day, i) =>
      i < 5 ? { ...day, airC: null, dischargeM3s: 4 } : { ...day, dischargeM3s: 4 },
    );
    const early = gaugeReading(on(2), 9);
    for (const base of BASES) {
      const { days, refused } = run(late, only(base), [early]);
      expect(days[0]!.date).toBe(on(5));
      expect(refused).toEqual([{ reading: early, reason: { code: 'noWeatherThatDay' } }]);
      expect(days.at(-1)!.waterC).toBeCloseTo(
        run(
          weather.slice(5).map((day) => ({ ...day, dischargeM3s: 4 })),
          only(base),
        ).days.at(-1)!.waterC,
        6,
      );
    }
  });

  it('is foreseen well tomorrow and hardly in ten days: the error of the water grows faster than from day to day alike', () => {
    for (const base of BASES) {
      const firstForecastDate = on(DAYS - 10);
      const ahead = run(weather, { ...only(base), firstForecastDate }).days.slice(-11);
      const known = run(weather, only(base)).days.slice(-11);
      const added = ahead.map((day, i) => half(day) ** 2 - half(known[i]!) ** 2);
      expect(added[0]).toBeCloseTo(0, 12);
      expect(added[1]).toBeGreaterThan(0);
      expect(added[10]!).toBeGreaterThan(10 * added[1]!);
    }
  });
});

describe('the flow of a river', () => {
  const flowing = (flow: (i: number) => number | undefined): RiverWeatherDay[] =>
    weather.map((day, i) => {
      const dischargeM3s = flow(i);
      return { ...day, ...(dischargeM3s !== undefined && { dischargeM3s }) };
    });

  it('counts by its ratio to the usual, up to a twentieth and twenty times of it', () => {
    for (const base of ['lowland', 'alpine'] as const) {
      const after = (flow: number): number =>
        waterC(
          flowing((i) => (i < DAYS - 15 ? 10 : flow)),
          only(base),
        );
      expect(
        waterC(
          flowing(() => 3),
          only(base),
        ),
      ).toBeCloseTo(
        waterC(
          flowing(() => 300),
          only(base),
        ),
        9,
      );
      expect(after(10)).toBeCloseTo(waterC(weather, only(base)), 6);
      expect(Math.abs(after(30) - after(10))).toBeGreaterThan(0.05);
      expect(Math.abs(after(2) - after(10))).toBeGreaterThan(0.05);
      expect(after(0)).toBeCloseTo(after(0.3), 9);
      expect(after(4000)).toBeCloseTo(after(40_000), 0);
      // Less than nothing is a broken gauge: as if it had said nothing.
      expect(after(-5)).toBe(
        waterC(
          flowing((i) => (i < DAYS - 15 ? 10 : undefined)),
          only(base),
        ),
      );
    }
  });

  it('that is missing goes back to the usual within days, and says so in the water', () => {
    const silent = (since: number): number =>
      Math.abs(
        waterC(
          flowing((i) => (i < DAYS - since - 20 ? 10 : i < DAYS - since ? 60 : undefined)),
          only('alpine'),
        ) -
          waterC(
            flowing(() => 10),
            only('alpine'),
          ),
      );
    expect(silent(40)).toBeLessThan(silent(1) / 4);
  });

  it('above that of winter is melt water once a cold season was seen, and cools the river by a share of two thirds', () => {
    // A year of steady winter flow, then three times of it: two thirds of the water came from snow and ice.
    const cold = Array.from({ length: 500 }, (_, i) => ({
      date: on(i),
      airC: i < 250 ? 0 : 15,
      dischargeM3s: i < 300 ? 10 : 30,
    }));
    const [melt, lowland] = [waterC(cold, only('melt')), waterC(cold, only('lowland'))];
    expect(melt / lowland).toBeCloseTo(1 - (2 / 3) * (2 / 3), 2);
    // Not where no winter was seen, not in winter, and not where the flow is as in winter.
    const warm = cold.map((day) => ({ ...day, airC: 15 }));
    expect(waterC(warm, only('melt'))).toBeCloseTo(waterC(warm, only('lowland')), 9);
    const even = cold.map((day) => ({ ...day, dischargeM3s: 10 }));
    expect(waterC(even, only('melt'))).toBeCloseTo(waterC(even, only('lowland')), 6);
    const dry = cold.map((day, i) => ({ ...day, dischargeM3s: i < 300 ? 10 : 5 }));
    expect(waterC(dry, only('melt'))).toBeCloseTo(waterC(dry, only('lowland')), 9);
    // A day on which the gauge says nothing does not take the snow away.
    const silent = cold.map(({ date, airC, dischargeM3s }, i) =>
      i === 480 ? { date, airC } : { date, airC, dischargeM3s },
    );
    expect(waterC(silent, only('melt')) / melt).toBeCloseTo(1, 1);
    const none = cold.map(({ date, airC }) => ({ date, airC }));
    expect(waterC(none, only('melt'))).toBe(waterC(none, only('lowland')));
  });
});

describe('readings of a river', () => {
  const free = run(weather, only('lowland')).days;
  const taught = Array.from({ length: 20 }, (_, i) =>
    gaugeReading(on(150 + 7 * i), free[150 + 7 * i]!.waterC),
  );
  const day = 290;

  it('count little beyond five standard errors, and are left out beyond eight', () => {
    const plain = run(weather, only('lowland'), taught).days[day]!;
    const sdC = half(plain) / 1.2816;
    const off = (standardErrors: number) => {
      const found = run(weather, only('lowland'), [
        ...taught,
        gaugeReading(on(day), plain.waterC + standardErrors * sdC),
      ]);
      return {
        moved: (found.days[day]!.waterC - plain.waterC) / sdC,
        refused: found.refused.map(({ reason }) => reason),
      };
    };
    const usual = off(3);
    expect(usual.refused).toEqual([]);
    // Where the scale of the interval is not one, standard errors of the filter are not those of the interval.
    const doubted = [4, 5, 6, 7, 8, 9, 10, 11, 12, 14, 16]
      .map(off)
      .find(({ refused }) => refused.length > 0)!;
    expect(doubted.refused).toEqual([
      expect.objectContaining({ code: 'tooFar', of: 'river', fate: 'countsLittle' }),
    ]);
    expect(doubted.moved).toBeGreaterThan(0);
    const out = off(40);
    expect(out.refused).toEqual([expect.objectContaining({ code: 'tooFar', of: 'river', fate: 'leftOut' })]);
    expect(out.moved).toBe(0);
  });

  it('are told with what they said, oldest first', () => {
    const { seen, days } = run(weather, only('lowland'), taught);
    expect(seen).toEqual(
      taught.map((reading) => ({ date: reading.date, waterC: expect.closeTo(reading.waterC, 9) as number })),
    );
    expect(days[149]!.readingAgeDays).toBeNull();
    expect(days[150]!.readingAgeDays).toBe(0);
    expect(days[156]!.readingAgeDays).toBe(6);
  });

  it('of one day count as their mean by precision, and are as sure as the surest of them', () => {
    const at = (readings: readonly WaterReading[]): LakeDay =>
      run(weather, only('lowland'), readings).days[day]!;
    const base = free[day]!.waterC;
    const pair = at([
      gaugeReading(on(day), base + 1, { sdC: 0.2 }),
      gaugeReading(on(day), base - 1, { sdC: 0.4 }),
    ]);
    const one = at([
      gaugeReading(on(day), base + (1 / 0.04 - 1 / 0.16) / (1 / 0.04 + 1 / 0.16), { sdC: 0.2 }),
    ]);
    expect(pair.waterC).toBeCloseTo(one.waterC, 9);
    expect(half(pair)).toBeCloseTo(half(one), 9);
    // An hour of a day is half a kelvin about its mean.
    const hour = at([gaugeReading(on(day), base + 1, { sdC: 0.3, hour: 9 })]);
    expect(hour.waterC).toBeCloseTo(
      at([gaugeReading(on(day), base + 1, { sdC: Math.hypot(0.3, 0.5) })]).waterC,
      9,
    );
  });

  it('not given leave the river as unsure after years as after one: what nobody taught cannot grow old', () => {
    const long = run(inventedWeather(START, 1100), only('lowland')).days;
    const same = long.filter(({ date }) => date.slice(5) === '06-15').map(half);
    expect(same).toHaveLength(3);
    expect(same[2]).toBeCloseTo(same[1]!, 1);
    // What was taught does.
    const old = run(inventedWeather(START, 1100), only('lowland'), taught).days;
    const after = old.filter(({ date }) => date.slice(5) === '12-15').map(half);
    expect(after[2]).toBeGreaterThan(after[1]!);
  });

  it('all taken on the days of rest do not hide what a dam does on the others', () => {
    // Water 2 K colder from Monday to Friday, as a dam that rests on Sundays makes it; Saturdays by half.
    const restC = (date: string): number => [0, -2, -2, -2, -2, -2, -1][new Date(date).getUTCDay()]!;
    const daily = free.slice(60, 410).map(({ date, waterC: c }) => gaugeReading(date, c + restC(date)));
    const { days } = run(weather, only('lowland'), daily, 'lowland');
    // Foreseen a week ahead of the last reading: Sunday stands above the days about it.
    const ahead = days
      .slice(411)
      .map((one, i) => ({ date: one.date, offC: one.waterC - free[411 + i]!.waterC }));
    const sunday = ahead.find(({ date }) => new Date(date).getUTCDay() === 0)!;
    const weekday = ahead.find(({ date }) => new Date(date).getUTCDay() === 3)!;
    expect(sunday.offC - weekday.offC).toBeGreaterThan(1.2);
    expect(sunday.offC - weekday.offC).toBeLessThan(2.5);
  });
});

describe('a pool that is looked at again', () => {
  it('mixes what lake and river know of the days before as it mixes the days', () => {
    const readings = [gaugeReading(on(DAYS - 1), 6)];
    const options = { hindsightDays: 10 };
    const lake = nowcastLake({ latDeg: 36, meanDepthM: 5, areaKm2: 3 }, weather, readings, options).days;
    const river = nowcastRiver('regulated', weather, readings, options).days;
    const pool = nowcastPool(lake, river, 10);
    const i = DAYS - 4;
    expect(pool[i]!.hindsight!.waterC).toBeCloseTo(
      (lake[i]!.hindsight!.waterC + river[i]!.hindsight!.waterC) / 2,
      9,
    );
    expect(pool[i]!.hindsight!.halfC).toBeGreaterThan(0);
    expect(pool[i]!.waterC).toBeCloseTo((lake[i]!.waterC + river[i]!.waterC) / 2, 9);
    expect(pool[DAYS - 30]!.hindsight).toBeUndefined();
    const change = waterChange(pool, on(DAYS - 1), 3)!;
    expect(change.changeC).toBeCloseTo(pool[DAYS - 1]!.hindsight!.waterC - pool[i]!.hindsight!.waterC, 9);
    expect(
      nowcastPool(nowcastLake({ latDeg: 36, meanDepthM: 5, areaKm2: 3 }, weather, readings).days, river, 10)[
        i
      ]!.hindsight,
    ).toBeDefined();
  });
});
