// The small parts that every water model stands on, each where it begins and ends.
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { AirSpread, ForecastAirError, forecastAirSdC } from '../../src/water/assumedAir.ts';
import { clarityClass, type ClarityInput } from '../../src/water/clarity/index.ts';
import { AirWatch } from '../../src/water/lake/airWatch.ts';
import { intervalFactor } from '../../src/water/lake/interval.ts';
import { shallowExcessC } from '../../src/water/lake/readings.ts';
import { sunFromAirRange } from '../../src/water/lake/sunlight.ts';
import { DOUBTED_Z2, LastDoubt, LEFT_OUT_Z2 } from '../../src/water/lastDoubt.ts';
import { bandPosition, levelChange, sameDatum, type LevelPoint } from '../../src/water/level/index.ts';
import { FOLLOW, IntervalScale, weigh } from '../../src/water/members.ts';
import { impossible } from '../../src/water/refusal.ts';
import { at } from '../../src/water/series.ts';
import { StuckWatch } from '../../src/water/stuckWatch.ts';

const HOUR = 3_600_000;
const DAY = 24 * HOUR;
const NOW = Date.UTC(2026, 2, 10, 12);

describe('a temperature', () => {
  it('can be water from half a degree of error below freezing to 40 degC, both too', () => {
    for (const kind of ['lake', 'river'] as const) {
      expect([-0.5, 0, 40].map((waterC) => impossible(waterC, kind))).toEqual([
        undefined,
        undefined,
        undefined,
      ]);
      for (const waterC of [-0.51, 40.01])
        expect(impossible(waterC, kind)).toEqual({ code: 'notWater', waterC, water: kind });
    }
    for (const waterC of [Number.NaN, Infinity, -Infinity])
      expect(impossible(waterC, 'lake')).toEqual({ code: 'notANumber' });
  });
});

describe('a doubted reading', () => {
  const pair = (days: number, apartC: number): boolean => {
    const doubt = new LastDoubt();
    expect(doubt.agrees(100, 6)).toBe(false);
    return doubt.agrees(100 + days, 6 + apartC);
  };
  it('is believed with a second one less than 1.5 K from it, within ten days', () => {
    expect([pair(10, 1.4), pair(10, -1.4), pair(0, 0)]).toEqual([true, true, true]);
    expect([pair(10, 1.5), pair(10, -1.5), pair(11, 0), pair(11, 1.4)]).toEqual([false, false, false, false]);
  });
  it('is held against the last one, not the one before', () => {
    const doubt = new LastDoubt();
    expect([doubt.agrees(1, 6), doubt.agrees(5, -6), doubt.agrees(6, 6), doubt.agrees(14, 6.5)]).toEqual([
      false,
      false,
      false,
      true,
    ]);
  });
  it('is one beyond five standard errors, and left out beyond eight', () => {
    expect([Math.sqrt(DOUBTED_Z2), Math.sqrt(LEFT_OUT_Z2)]).toEqual([5, 8]);
  });
});

describe('a thermometer that shows one value', () => {
  const refused = (values: readonly number[], modelC: (day: number) => number) => {
    const watch = new StuckWatch('river');
    return values.map((value, day) => watch.judge(day, value, modelC(day)));
  };
  it('is stuck from its fifth on, counted anew with every other value', () => {
    const found = refused([15, 15, 15, 15, 16, 16, 16, 16, 16], (day) => day);
    expect(found.map((one) => one?.code)).toEqual([...new Array<undefined>(8).fill(undefined), 'stuck']);
    expect(found.at(-1)).toEqual({ code: 'stuck', waterC: 16, days: 4, water: 'river', movedC: 4 });
  });
  it('needs water that moved by 2.5 K, whichever way, from highest to lowest', () => {
    const moved = (size: number) =>
      refused([15, 15, 15, 15, 15], (day) => [10, 10 + size, 10, 10, 10][day] ?? 10);
    expect([moved(2.5).at(-1)?.code, moved(-2.5).at(-1)?.code]).toEqual(['stuck', 'stuck']);
    expect([moved(2.49).at(-1), moved(-2.49).at(-1)]).toEqual([undefined, undefined]);
  });
  it('is ice below 1.5 degC and stuck at it', () => {
    expect(refused(new Array<number>(6).fill(1.49), (day) => day).at(-1)).toBeUndefined();
    expect(refused(new Array<number>(6).fill(1.5), (day) => day).at(-1)?.code).toBe('stuck');
  });
});

describe('a thermometer beside the air', () => {
  const AIR = [2, 8, 3, 9, 1, 7, 4];
  const watched = (waterC: (airC: number, i: number) => number, air = AIR, stepDays = 1) => {
    const watch = new AirWatch();
    return air.map((airC, i) => watch.judge(i * stepDays, waterC(airC, i), airC));
  };
  it('is out of the water with its seventh reading that follows it, and is so from the first of them', () => {
    expect(watched((airC) => airC + 1)).toEqual([...new Array<undefined>(6).fill(undefined), 0]);
    const eight = watched((airC) => airC + 1, [...AIR, 6]);
    expect(eight.at(-1)).toBe(1);
  });
  it('is not where it goes its own way, where it stays 4 K off, or where the air itself hardly moves', () => {
    expect(watched(() => 5).at(-1)).toBeUndefined();
    expect(watched((airC) => airC + 4).at(-1)).toBeUndefined();
    expect(watched((airC) => airC - 3.9).at(-1)).toBe(0);
    expect(watched((airC) => airC - 4.1).at(-1)).toBeUndefined();
    expect(
      watched(
        (airC) => airC,
        AIR.map((airC) => 5 + (airC - 5) / 2),
      ).at(-1),
    ).toBeUndefined();
  });
  it('may keep less than a tenth of the air’s variance beside it', () => {
    // Reading minus air is minus a share of the air's own departure: its variance is the share squared.
    const keeping = (share: number) => watched((airC) => airC - share * (airC - 5)).at(-1);
    expect(keeping(0.3)).toBe(0);
    expect(keeping(0.33)).toBeUndefined();
  });
  it('is told from two weeks of readings and from no longer ones', () => {
    expect(watched((airC) => airC, AIR, 14 / 6).at(-1)).toBe(0);
    expect(watched((airC) => airC, AIR, 14.1 / 6).at(-1)).toBeUndefined();
  });
});

describe('the error of a forecast of the air', () => {
  // Its numbers are fitted (bench/outlook.ts) and may be fitted anew; what it is for may not change.
  it('starts below half of the spread of the air, grows by the day, and ends where the season knows as much', () => {
    const share = (lead: number): number => forecastAirSdC(lead, 1);
    expect(share(1)).toBeGreaterThan(0.1);
    expect(share(1)).toBeLessThan(0.5);
    for (let lead = 1; lead < 10; lead += 1) expect(share(lead + 1)).toBeGreaterThan(share(lead));
    expect(share(30)).toBe(share(300));
    expect(share(300)).toBeGreaterThanOrEqual(1);
    expect(share(300)).toBeLessThan(1.5);
    expect(forecastAirSdC(3, 5)).toBeCloseTo(5 * share(3), 12);
  });
  it('adds up in water that remembers, as errors that go on for days do: by one share of a day in the next, whatever the water', () => {
    // Water w' = k w + g e under errors e of variance s2 that keep the share r from day to day has in the end the variance
    // g2 s2 (1 + k r) / ((1 - k2)(1 - k r)), any textbook of time series: r by it must be the same for every k and g.
    const shareBy = (keep: number, gain: number, sdC: number): number => {
      const error = new ForecastAirError();
      let variance = 0;
      for (let day = 0; day < 3000; day += 1)
        variance = keep ** 2 * variance + error.addedVar(sdC, gain, keep);
      const ratio = (variance * (1 - keep ** 2)) / (gain * sdC) ** 2;
      return (ratio - 1) / (keep * (ratio + 1));
    };
    const share = shareBy(0.9, 0.1, 2);
    expect(share).toBeGreaterThan(0.2);
    expect(share).toBeLessThan(0.95);
    for (const [keep, gain, sdC] of [
      [0.5, 0.1, 2],
      [0.98, 0.3, 2],
      [0.9, 0.1, 0.7],
    ] as const)
      expect(shareBy(keep, gain, sdC)).toBeCloseTo(share, 6);
    expect(new ForecastAirError().addedVar(2, 0.3, 0.9)).toBeCloseTo(0.36, 12);
  });
  it('takes the spread for 4 K until it has seen the place, and for what it saw after some months', () => {
    const calm = new AirSpread();
    expect(calm.sdC).toBe(4);
    for (let day = 0; day < 45; day += 1) calm.learn(day % 2 === 0 ? 2 : -2);
    // A share of 1/e of what was assumed is left after 45 days of a memory of 45 days.
    expect(calm.sdC ** 2).toBeCloseTo(4 + 12 * (1 - 1 / 45) ** 45, 9);
    for (let day = 0; day < 900; day += 1) calm.learn(day % 2 === 0 ? 2 : -2);
    expect(calm.sdC).toBeCloseTo(2, 6);
  });
});

describe('the interval of a lake', () => {
  it('is a tenth wider in spring, which begins half a year later south of the equator', () => {
    const far = (latDeg: number, day: number): number => intervalFactor(latDeg, day, 1e6);
    for (const day of [1, 60, 151]) expect([far(36, day), far(-36, day)]).toEqual([1.1, 1]);
    for (const day of [183, 250, 333]) expect([far(36, day), far(-36, day)]).toEqual([1, 1.1]);
    expect([far(36, 152), far(-36, 181), far(-36, 334)]).toEqual([1, 1, 1]);
    // The equator counts as north.
    expect(far(0, 60)).toBe(1.1);
  });
  it('is 8 % narrower right after a reading, which fades over days', () => {
    expect(intervalFactor(36, 200, 0)).toBeCloseTo(0.92, 12);
    expect(intervalFactor(36, 200, 2)).toBeCloseTo(1 - 0.08 / Math.E, 12);
  });
});

describe('filters beside each other', () => {
  it('weigh by their support and sum to one, however far apart', () => {
    fc.assert(
      fc.property(
        fc.array(fc.double({ min: -2000, max: 2000, noNaN: true }), { minLength: 1, maxLength: 12 }),
        fc.double({ min: -500, max: 500, noNaN: true }),
        (support, shift) => {
          const weights = (of: readonly number[]): Float64Array => {
            const made = new Float64Array(of.length);
            weigh(Float64Array.from(of), made);
            return made;
          };
          const own = weights(support);
          expect(own.reduce((sum, one) => sum + one, 0)).toBeCloseTo(1, 9);
          weights(support.map((one) => one + shift)).forEach((one, i) =>
            expect(one).toBeCloseTo(own[i] ?? NaN, 6),
          );
          const [a = 0, b = 0] = support;
          if (support.length > 1 && Math.abs(a - b) < 20 && (own[0] ?? 0) > 1e-12)
            expect(Math.log((own[0] ?? 0) / (own[1] ?? 0))).toBeCloseTo(a - b, 6);
        },
      ),
    );
  });
  it('widen four times as much by a reading outside as they narrow by one inside, so that a fifth outside holds', () => {
    const scale = new IntervalScale(1);
    for (const outside of [true, false, false, false, false]) scale.learn(outside);
    expect(scale.value).toBeCloseTo(1, 12);
    scale.learn(true);
    expect(scale.value).toBeCloseTo(Math.exp(0.8 * FOLLOW), 12);
  });
  it('stop at four times and at 0.15 of what they began with', () => {
    const [wide, narrow] = [new IntervalScale(1), new IntervalScale(1)];
    for (let i = 0; i < 500; i += 1) {
      wide.learn(true);
      narrow.learn(false);
    }
    expect([wide.value, narrow.value]).toEqual([4, 0.15]);
    const copy = new IntervalScale(1);
    copy.copyFrom(wide);
    expect(copy.value).toBe(4);
  });
  it('that are eager take ten times as much from the first reading, half of it after eight, and end like the rest', () => {
    const eager = new IntervalScale(1, true);
    eager.learn(true);
    expect(Math.log(eager.value)).toBeCloseTo(0.8 * 0.5, 12);
    for (let i = 1; i < 8; i += 1) eager.learn(i % 5 === 0);
    const before = eager.value;
    eager.learn(true);
    expect(Math.log(eager.value / before)).toBeCloseTo(0.8 * 0.25, 12);
    for (let i = 9; i < 200; i += 1) eager.learn(i % 5 === 0);
    const late = eager.value;
    eager.learn(true);
    expect(Math.log(eager.value / late)).toBeCloseTo(0.8 * FOLLOW, 12);
    const copy = new IntervalScale(1, true);
    copy.copyFrom(eager);
    copy.learn(true);
    // The copy has the readings too: it is no beginner.
    expect(Math.log(copy.value / eager.value)).toBeCloseTo(0.8 * FOLLOW, 12);
  });
});

describe('sun that is guessed from the day’s range of air', () => {
  it('is the worked example of FAO-56 (example 15, Lyon in July: 22.3 MJ/m2), within the 3 % by which its factor differs', () => {
    // 26.6 to 14.8 degC under 40.6 MJ/m2 above the air (from memory); the paper takes 0.16 inland and 0.19 at the coast.
    const MJ = 1e6 / 86_400;
    expect(sunFromAirRange(40.6 * MJ, 26.6 - 14.8) / MJ / 22.3).toBeCloseTo(0.165 / 0.16, 2);
  });
  it('takes a range of 1 to 25 K for what it is, and nothing beyond', () => {
    expect(sunFromAirRange(100, 0)).toBe(sunFromAirRange(100, 1));
    expect(sunFromAirRange(100, -5)).toBe(sunFromAirRange(100, 1));
    expect(sunFromAirRange(100, 1)).toBeCloseTo(16.5, 9);
    expect(sunFromAirRange(100, 16)).toBeCloseTo(66, 9);
    expect(sunFromAirRange(100, 30)).toBe(75);
  });
});

describe('a shallow thermometer', () => {
  it('stands above the mean by 0.32 K for each 100 W/m2, on top in the afternoon, below it at dawn', () => {
    expect(shallowExcessC(17.5, 0.5, 100, 3)).toBeCloseTo(0.32, 12);
    expect(shallowExcessC(17.5, 0.5, 250, 3)).toBeCloseTo(0.8, 12);
    expect(shallowExcessC(5.5, 0.2, 100, 3)).toBeCloseTo(-0.32, 12);
    expect(shallowExcessC(11.5, 0.2, 100, 3)).toBeCloseTo(0, 12);
  });
  it('and by nothing from 1 m on, by half at 0.75 m', () => {
    expect(shallowExcessC(17.5, 0.75, 100, 3)).toBeCloseTo(0.16, 12);
    expect(shallowExcessC(17.5, 1, 100, 3)).toBe(0);
    expect(shallowExcessC(17.5, 2, 100, 3)).toBe(0);
  });
  it('by more in a calm and less in a wind, within bounds; a wind that is not known is a usual one', () => {
    const by = (windMs: number) => shallowExcessC(17.5, 0.2, 100, windMs) / 0.32;
    expect(
      [by(3), by(Number.NaN), by(2), by(6), by(0), by(1), by(20)].map((one) => Math.round(one * 100) / 100),
    ).toEqual([1, 1, 1.5, 0.5, 1.5, 1.5, 0.4]);
  });
});

describe('the band of the year', () => {
  const daily = (days: number, levelM: (back: number) => number) =>
    Array.from({ length: days }, (_, back) => ({ atMs: NOW - back * DAY, levelM: levelM(back) }));
  it('needs 180 days, and says how many it has', () => {
    expect(
      bandPosition(
        daily(179, () => 10),
        NOW,
        10,
      ),
    ).toMatchObject({ lowM: null, highM: null, share: null, days: 179 });
    expect(
      bandPosition(
        daily(180, (back) => back / 180),
        NOW,
        0.5,
      ),
    ).toMatchObject({ lowM: 0, days: 180 });
  });
  it('goes from 0 at the lowest to 1 at the highest day, and beyond on either side', () => {
    const points = daily(200, (back) => 10 + (back % 5));
    const share = (levelM: number) => bandPosition(points, NOW, levelM).share;
    expect([share(10), share(14), share(11), share(9), share(16)]).toEqual([0, 1, 0.25, -0.25, 1.5]);
    expect(
      bandPosition(
        daily(200, () => 12),
        NOW,
        12,
      ),
    ).toMatchObject({ lowM: 12, highM: 12, share: null });
  });
  it('looks at the 365 days up to the instant: neither at what is older nor at what comes', () => {
    const year = daily(365, () => 10);
    expect(bandPosition([...year, { atMs: NOW - 365 * DAY, levelM: 99 }], NOW, 10)).toMatchObject({
      highM: 10,
      days: 365,
    });
    expect(bandPosition([...year, { atMs: NOW + 1, levelM: 99 }], NOW, 10).highM).toBe(10);
    expect(bandPosition([...year, { atMs: NOW - 365 * DAY + 1, levelM: 99 }], NOW, 10).highM).toBe(99);
    expect(bandPosition([...year, { atMs: NOW - 5, levelM: Number.NaN }], NOW, 10).highM).toBe(10);
  });
  it('takes the mean of a day, so that one value of many is no flood', () => {
    const points = [...daily(200, () => 10), { atMs: NOW - HOUR, levelM: 12 }];
    expect(bandPosition(points, NOW, 10).highM).toBe(11);
  });
  it('stands against normal pool where that is known', () => {
    expect(bandPosition([], NOW, 187, 188.5).vsNormalM).toBe(-1.5);
    expect(bandPosition([], NOW, 187).vsNormalM).toBeNull();
  });
});

describe('a change of level', () => {
  const gauge = (levelM: (backH: number) => number, hours = 60, everyH = 1): LevelPoint[] =>
    Array.from({ length: hours / everyH + 1 }, (_, i) => ({
      atMs: NOW - i * everyH * HOUR,
      levelM: levelM(i * everyH),
    }));
  it('is asked for over an hour to 31 days', () => {
    for (const span of [1, 744]) expect(() => levelChange([], NOW, span)).not.toThrow();
    for (const span of [0.99, 744.1, Number.NaN])
      expect(() => levelChange([], NOW, span)).toThrow(/between 1 and 744/);
  });
  it('is noise up to a centimetre on the best of gauges, and up to three where little is known of it', () => {
    const rise = (cm: number, hours = 60) =>
      levelChange(
        gauge((back) => 10 - (cm / 100 / 24) * back, hours),
        NOW,
        24,
      );
    expect(rise(0.9)).toMatchObject({ noiseM: 0.01, significant: false });
    expect(rise(1.1)).toMatchObject({ noiseM: 0.01, significant: true });
    const few = levelChange(
      [
        { atMs: NOW, levelM: 10.025 },
        { atMs: NOW - 24 * HOUR, levelM: 10 },
      ],
      NOW,
      24,
    );
    expect(few).toMatchObject({ noiseM: 0.03, significant: false });
  });
  it('is not significant where the wind alone can have tilted the water that far', () => {
    const points = gauge((back) => 10 - 0.002 * back);
    expect(levelChange(points, NOW, 24, 0.04)?.significant).toBe(true);
    expect(levelChange(points, NOW, 24, 0.05)).toMatchObject({ significant: false, noiseM: 0.05 });
  });
  it('falls as it rises: the sign is the water’s', () => {
    const rising = levelChange(
      gauge((back) => -0.01 * back),
      NOW,
      12,
    );
    const falling = levelChange(
      gauge((back) => 0.01 * back),
      NOW,
      12,
    );
    expect(rising?.rateMPerH).toBeCloseTo(0.01, 9);
    expect(rising?.changeM).toBeCloseTo(0.12, 9);
    expect(falling?.changeM).toBeCloseTo(-0.12, 9);
    expect(falling?.significant).toBe(true);
  });
  it('looks at nothing that comes, and needs a value at both ends', () => {
    const points = gauge((back) => 10 - 0.01 * back);
    const later = { atMs: NOW + HOUR, levelM: 99 };
    expect(levelChange([...points, later], NOW, 24)).toEqual(levelChange(points, NOW, 24));
    expect(levelChange([...points, { atMs: NOW - 30 * 60_000, levelM: Number.NaN }], NOW, 24)).toEqual(
      levelChange(points, NOW, 24),
    );
    expect(levelChange(points.slice(8), NOW, 6)).toBeNull();
    expect(
      levelChange(
        points.filter(({ atMs }) => atMs > NOW - 20 * HOUR),
        NOW,
        24,
      ),
    ).toBeNull();
    expect(levelChange([], NOW, 24)).toBeNull();
  });
  it('is not told by one spike at its end', () => {
    const quarter = gauge(() => 10, 60, 0.25);
    expect(levelChange([{ atMs: NOW, levelM: 13 }, ...quarter.slice(1)], NOW, 24)?.changeM).toBeCloseTo(0, 9);
  });
});

describe('a vertical datum', () => {
  it('is the same however it is spelt, another where its year is another, and unknown without a name', () => {
    expect(sameDatum('NAVD 88', 'navd1988')).toBe(true);
    expect(sameDatum('NAVD-88', 'NAVD88')).toBe(true);
    expect(sameDatum('NGVD29', 'NGVD 1929')).toBe(true);
    expect(sameDatum('NAVD88', 'NGVD29')).toBe(false);
    expect(sameDatum('LMSL 1988', 'LMSL88')).toBe(false);
    for (const none of [undefined, '']) {
      expect(sameDatum(none, 'NAVD88')).toBeNull();
      expect(sameDatum('NAVD88', none)).toBeNull();
    }
  });
});

describe('clarity', () => {
  type Known = ClarityInput & { runoffMmByDay: NonNullable<ClarityInput['runoffMmByDay']> };
  const clarity = (more: Partial<Known>) =>
    clarityClass({ runoffMmByDay: [], waterBody: 'hill-land-reservoir', ...more });
  const read = (ageDays: number, more: Partial<Known> = {}) =>
    clarity({ readingM: { value: 2, ageDays }, ...more });
  it('is what was read for three days, and what runoff makes of it after', () => {
    expect(read(3)).toMatchObject({ from: 'reading', secchiM: 2 });
    expect(read(3.01)).toMatchObject({ from: 'runoff', secchiM: null });
    expect([read(2).confidence, read(2.01).confidence]).toEqual(['high', 'medium']);
  });
  it('is not what was read where a millimetre has run off since', () => {
    const since = (mm: number, ageDays: number) => read(2, { runoffMmByDay: [{ ageDays, mm }] }).from;
    expect([since(0.99, 1), since(1, 1), since(1, 2), since(50, 2)]).toEqual([
      'reading',
      'runoff',
      'reading',
      'reading',
    ]);
  });
  it('is the gauge’s for a day, but a reading’s of the same day', () => {
    const both = (ageDays: number, ageH: number) => read(ageDays, { turbidityFnu: { value: 8, ageH } }).from;
    expect([both(1, 2), both(1.01, 2), both(1.01, 24), both(2, 24.01)]).toEqual([
      'reading',
      'gauge',
      'gauge',
      'reading',
    ]);
    expect(clarity({ turbidityFnu: { value: 8, ageH: 24 } }).secchiM).toBeCloseTo(0.9, 2);
    // A gauge at nought is a clear one, not an endless view.
    expect(clarity({ turbidityFnu: { value: 0, ageH: 1 } }).secchiM).toBe(
      clarity({ turbidityFnu: { value: 0.2, ageH: 1 } }).secchiM,
    );
  });
  it('has an interval about itself, wider the less is known', () => {
    const width = ({ lowM, highM }: ReturnType<typeof clarity>) => highM / lowM;
    expect(read(0).lowM).toBeCloseTo(2 / 1.15, 9);
    expect(read(0).highM).toBeCloseTo(2 * 1.15, 9);
    expect(width(read(3))).toBeCloseTo(1.45 ** 2, 9);
    expect(width(clarity({ turbidityFnu: { value: 8, ageH: 1 } }))).toBeCloseTo(1.7 ** 2, 9);
    expect(width(read(10))).toBeCloseTo(1.6 ** 2, 9);
    expect(width(read(10, { runoffMmByDay: [{ ageDays: 2, mm: 5 }] }))).toBeCloseTo(4, 9);
    expect(width(clarity({}))).toBeCloseTo(2.2 ** 2, 9);
  });
  it('keeps what a reading taught for six weeks, by less and less', () => {
    const seen = [4, 10, 20, 45].map((age) => read(age).highM / 1.6);
    const alone = clarity({}).highM / 2.2;
    expect(alone).toBeCloseTo(1.3, 9);
    for (const [i, secchiM] of seen.entries()) {
      expect(secchiM).toBeGreaterThan(alone);
      expect(secchiM).toBeLessThan(seen[i - 1] ?? 2);
    }
    expect(read(45).because).toMatchObject({ code: 'oldReading', ageDays: 45, runoffMm: null });
    expect(read(45.01).because).toMatchObject({ code: 'runoffAlone' });
    expect([read(10).confidence, read(10.1).confidence]).toEqual(['medium', 'low']);
    // By hand: 1/2 m read against 1/1.3 m expected, an e-fold of it forgotten after 14 days.
    expect(read(14).highM / 1.6).toBeCloseTo(1 / (1 / 1.3 + (1 / 2 - 1 / 1.3) / Math.E), 9);
  });
  it('dims with each millimetre of runoff and clears by the days of its own water', () => {
    const after = (mm: number, ageDays: number, waterBody = 'hill-land-reservoir') =>
      1 / (clarity({ runoffMmByDay: [{ ageDays, mm }], waterBody }).highM / 2.2);
    const none = (waterBody?: string) => after(0, 0, waterBody);
    expect(after(10, 0) - none()).toBeCloseTo(1.5, 9);
    expect(after(20, 0) - none()).toBeCloseTo(3, 9);
    expect(after(10, 8) - none()).toBeCloseTo(1.5 / Math.E, 9);
    expect(after(10, 4, 'run-of-river') - none('run-of-river')).toBeCloseTo(2 / Math.E, 9);
    expect(after(10, 3, 'tailwater') - none('tailwater')).toBeCloseTo(0.6 / Math.E, 9);
    expect(none('nothing of the list')).toBe(none());
  });
  it('tells of runoff from one settled millimetre on', () => {
    const told = (mm: number, ageDays: number) => clarity({ runoffMmByDay: [{ ageDays, mm }] }).because;
    expect(told(0.99, 0)).toEqual({ code: 'runoffAlone', runoffMm: null });
    expect(told(1, 0)).toEqual({ code: 'runoffAlone', runoffMm: 1 });
    expect(told(2, 8)).toEqual({ code: 'runoffAlone', runoffMm: null });
  });
  it('is told of nothing that cannot be', () => {
    expect(() => read(-0.1)).toThrow(/not of the future/);
    expect(() => clarity({ readingM: { value: 0, ageDays: 1 } })).toThrow(/above 0 m/);
    expect(() => clarity({ turbidityFnu: { value: -1, ageH: 1 } })).toThrow(/turbidity must be 0 or more/);
    expect(() => clarity({ turbidityFnu: { value: 1, ageH: -1 } })).toThrow(RangeError);
    expect(() => clarity({ runoffMmByDay: [{ ageDays: -1, mm: 1 }] })).toThrow(/runoff and its age/);
    expect(() => clarity({ runoffMmByDay: [{ ageDays: 1, mm: -1 }] })).toThrow(RangeError);
    expect(() =>
      clarity({ readingM: { value: 1, ageDays: 0 }, turbidityFnu: { value: 0, ageH: 0 } }),
    ).not.toThrow();
  });
});

it('a series has no value outside of itself, and says so', () => {
  const series = Float64Array.of(1, 2);
  expect([at(series, 0), at(series, 1)]).toEqual([1, 2]);
  for (const index of [-1, 2, 0.5])
    expect(() => at(series, index)).toThrow(`Index ${index} is outside a series of 2`);
});
