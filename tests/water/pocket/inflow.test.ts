/** What runs into a pocket, and what is not known of it: each doubt against a run of the caller's own. */
import { describe, expect, it } from 'vitest';
import {
  simulatePocket,
  type PocketHour,
  type PocketRun,
  type PocketShape,
} from '../../../src/water/pocket/index.ts';
import { BACK, DRAW, HOUR, OPEN, RAIN_FROM, RAIN_TO, spell } from './weather.ts';

const WET = { basis: 'configured', antecedent5dRainMm: 45, soilC: 12.5 } as const;
const hours = spell({ rainIn: 1.5, days: 3 });
const surface = (run: PocketRun): number[] => run.hours.map(({ surfaceC }) => surfaceC);
const minus = (a: PocketRun, b: PocketRun): number[] =>
  surface(a).map((surfaceC, i) => surfaceC - surface(b)[i]!);
/** The steps that the model takes for differences. */
const coarse = { ...WET, stepsPerHour: 4 };

describe('what is not known of a pocket', () => {
  const base = simulatePocket(OPEN, hours, coarse);
  const { doubts } = simulatePocket(OPEN, hours, WET).error;
  const same = (found: readonly number[] | undefined, own: readonly number[]): void => {
    expect(found).toHaveLength(own.length);
    own.forEach((kelvin, i) => expect(found![i]).toBeCloseTo(kelvin, 9));
    expect(Math.max(...own.map(Math.abs))).toBeGreaterThan(0.05);
  };
  const sunny = (share: number): PocketHour[] =>
    hours.map((hour) => ({ ...hour, shortwaveWm2: share * hour.shortwaveWm2 }));

  it('of its mouth is what a mouth of half and of twice the width would do', () => {
    for (const [side, width] of [
      ['less', 0.5],
      ['more', 2],
    ] as const)
      same(
        doubts[2]![side].surfaceK,
        minus(simulatePocket({ ...OPEN, mouthWidthM: width * OPEN.mouthWidthM }, hours, coarse), base),
      );
  });

  it('of the sun is what a fifth less and a seventh more of it would do', () => {
    same(doubts[3]!.less.surfaceK, minus(simulatePocket(OPEN, sunny(0.8), coarse), base));
    same(doubts[3]!.more.surfaceK, minus(simulatePocket(OPEN, sunny(1.15), coarse), base));
  });

  it('of a class is more, and of its depth what a shallower and a deeper pocket would do', () => {
    const { doubts: wide } = simulatePocket(OPEN, hours, { ...WET, basis: 'class' }).error;
    for (const [side, depth] of [
      ['less', 0.6],
      ['more', 1.7],
    ] as const)
      same(
        wide[4]![side].surfaceK,
        minus(simulatePocket({ ...OPEN, meanDepthM: depth * OPEN.meanDepthM }, hours, coarse), base),
      );
    same(wide[3]!.less.surfaceK, minus(simulatePocket(OPEN, sunny(0.7), coarse), base));
    same(
      wide[2]!.more.surfaceK,
      minus(simulatePocket({ ...OPEN, mouthWidthM: 3 * OPEN.mouthWidthM }, hours, coarse), base),
    );
    same(
      wide[2]!.less.surfaceK,
      minus(simulatePocket({ ...OPEN, mouthWidthM: 0.3 * OPEN.mouthWidthM }, hours, coarse), base),
    );
    for (const i of [0, 1])
      for (const side of ['less', 'more'] as const)
        expect(Math.abs(wide[i]![side].surfaceK[RAIN_TO]!)).toBeGreaterThan(
          Math.abs(doubts[i]![side].surfaceK[RAIN_TO]!),
        );
  });

  it('of the rain’s warmth and the ground’s share goes both ways: a warm rain may come colder or warmer', () => {
    for (const basis of ['configured', 'class'] as const) {
      const [rain] = simulatePocket(OPEN, hours, { ...WET, basis }).error.doubts;
      expect(rain!.less.surfaceK[RAIN_TO]).toBeLessThan(-0.05);
      expect(rain!.more.surfaceK[RAIN_TO]).toBeGreaterThan(0.05);
      // Where the air is full the rain is as warm as the air: what is left is the ground, as much either way.
      const full = hours.map((hour) => ({ ...hour, humidityPct: 100 }));
      const [ground] = simulatePocket(OPEN, full, { ...WET, soilC: 8, basis }).error.doubts;
      const ratio = ground!.less.meanK[RAIN_TO]! / ground!.more.meanK[RAIN_TO]!;
      expect(ratio).toBeLessThan(-0.5);
      expect(ratio).toBeGreaterThan(-2);
    }
  });

  it('of the land goes both ways too: more runoff of a warm rain is a warmer pocket', () => {
    for (const basis of ['configured', 'class'] as const) {
      const land = simulatePocket(DRAW, hours, { ...WET, basis }).error.doubts[1]!;
      expect(land.less.meanK[RAIN_TO]).toBeLessThan(-0.05);
      expect(land.more.meanK[RAIN_TO]).toBeGreaterThan(0.05);
      for (const { meanK } of [land.less, land.more])
        expect(meanK.slice(0, RAIN_FROM).every((kelvin) => kelvin === 0)).toBe(true);
    }
  });

  it('of the land counts where rain, ground and air are of one warmth too', () => {
    const even = hours.map((hour) => ({ ...hour, airC: 12.5, humidityPct: 100 }));
    const land = simulatePocket(DRAW, even, { ...WET, sedimentMgL: 0 }).error.doubts[1]!;
    expect(land.more.meanK[RAIN_TO]).toBeGreaterThan(0.05);
    expect(land.less.meanK[RAIN_TO]).toBeLessThan(-0.05);
  });

  it('of a rain too small to run off is the warmth of what falls on the pocket itself', () => {
    const drizzle = spell({ rainIn: 0.2, rainAirC: 20, days: 2 });
    const run = simulatePocket({ ...OPEN, watershedKm2: 0.3 }, drizzle, { basis: 'configured' });
    expect(run.runoffMm).toBe(0);
    const [rain, land] = run.error.doubts;
    expect(rain!.more.surfaceK[RAIN_TO - 1]).toBeGreaterThan(0);
    expect(rain!.less.surfaceK[RAIN_TO - 1]).toBeLessThan(0);
    expect(land!.more.surfaceK.every((kelvin) => kelvin === 0)).toBe(true);
  });

  it('widens the interval on the side it is on, by the root of the squares', () => {
    const { error, hours: states } = simulatePocket(OPEN, hours, WET);
    for (const i of [10, RAIN_TO, 60]) {
      const shifts = error.doubts.flatMap(({ less, more }) => [less.surfaceK[i]!, more.surfaceK[i]!]);
      const width = (sign: number): number =>
        Math.hypot(error.floorK, ...shifts.map((kelvin) => Math.max(0, sign * kelvin)));
      expect(states[i]!.highC - states[i]!.surfaceC).toBeCloseTo(width(1), 9);
      expect(states[i]!.surfaceC - states[i]!.lowC).toBeCloseTo(width(-1), 9);
    }
  });
});

describe('the stream between storms', () => {
  const dry = (more: Partial<PocketHour>, days = 4): PocketHour[] =>
    Array.from({ length: 24 * days }, (_, i) => ({ ...spell({ days })[i]!, rainMm: 0, ...more }));
  const shape: PocketShape = { ...BACK, watershedKm2: 5 };
  const inflowC = (own: readonly PocketHour[], soilC?: number): number =>
    simulatePocket(shape, own, { basis: 'configured', ...(soilC !== undefined && { soilC }) }).hours.at(-1)!
      .inflowC!;

  it('leaves the ground at its warmth and takes a quarter of the way to the air', () => {
    expect(inflowC(dry({ airC: 18 }), 10)).toBeCloseTo(12, 9);
    expect(inflowC(dry({ airC: 2 }), 10)).toBeCloseTo(8, 9);
    expect(inflowC(dry({ airC: 10 }), 10)).toBeCloseTo(10, 9);
    // Frost cools it no further than water goes.
    expect(inflowC(dry({ airC: -12 }), 8)).toBeCloseTo(6, 9);
  });

  it('has ground that follows the air of three days where nothing is known of it', () => {
    expect(inflowC(dry({ airC: 9 }))).toBeCloseTo(9, 9);
    const step = dry({}).map((hour, i) => ({ ...hour, airC: i < 96 - 36 ? 4 : 10 }));
    // Half of the three days at 4, half at 10: ground of 7, and a quarter of the way on to 10.
    expect(inflowC(step)).toBeCloseTo(7.75, 9);
    expect(inflowC(dry({ airC: -6 }))).toBe(0);
  });

  it('comes at the creek’s own mean where that is known, never below freezing', () => {
    expect(inflowC(dry({ airC: 14, creekC: 6 }))).toBeCloseTo(6, 9);
    const night = dry({ creekC: 0.5 }).map((hour, i) => ({ ...hour, airC: i === 95 ? 1 : 12 }));
    expect(inflowC(night)).toBe(0);
  });

  it('is 8 litres a second from each square kilometre beyond half a one, and none below it', () => {
    const flow = (watershedKm2: number) =>
      simulatePocket({ ...shape, watershedKm2 }, dry({}, 1), { basis: 'configured' }).hours[5]!;
    expect(flow(5).inflowM3s).toBeCloseTo(0.036, 12);
    expect(flow(0.6).inflowM3s).toBeCloseTo(0.0008, 12);
    expect(flow(0.5)).toMatchObject({ inflowM3s: 0, inflowC: null });
  });
});

describe('runoff of a storm', () => {
  const shed = (
    own: readonly PocketHour[],
    more: { antecedent5dRainMm?: number; days?: string } = {},
  ): number => simulatePocket(DRAW, own, { basis: 'configured', stepsPerHour: 1, ...more }).runoffMm;
  /** An inch and a half from the second midnight on, and rain on given hours before or after. */
  const with_ = (
    rain: Readonly<Record<number, number>>,
    days = 8,
    startIso = '2026-03-04T06:00Z',
  ): PocketHour[] =>
    spell({ days, startIso, rainIn: 0 }).map((hour, i) => ({ ...hour, airC: 12, rainMm: rain[i] ?? 0 }));
  const STORM = 38;

  it('is more on ground that rain has wetted in the five days before, in the hours given or before them', () => {
    const late = 150;
    const alone = shed(with_({ [late]: STORM }), { antecedent5dRainMm: 0 });
    const wetted = shed(with_({ [late - 48]: 30, [late]: STORM }), { antecedent5dRainMm: 0 });
    const first = shed(with_({ [late - 48]: 30 }), { antecedent5dRainMm: 0 });
    expect(wetted - first).toBeGreaterThan(1.5 * alone);
    const early = (antecedent5dRainMm: number): number => shed(with_({ 2: STORM }), { antecedent5dRainMm });
    expect(early(60)).toBeGreaterThan(1.5 * early(20));
    expect(early(20)).toBeGreaterThan(1.5 * early(0));
    // Six days on, what fell before the first hour has run off or dried.
    expect(shed(with_({ [late]: STORM }), { antecedent5dRainMm: 60 })).toBeCloseTo(alone, 9);
  });

  it('is that of average ground where nothing is known of the days before', () => {
    const unknown = shed(with_({ 30: STORM }));
    expect(unknown).toBeGreaterThan(shed(with_({ 30: STORM }), { antecedent5dRainMm: 0 }));
    expect(unknown).toBeLessThan(shed(with_({ 30: STORM }), { antecedent5dRainMm: 80 }));
    // With five dry days in the hours themselves the ground is known to be dry.
    expect(shed(with_({ 119: STORM }))).toBeCloseTo(unknown, 9);
    expect(shed(with_({ 120: STORM }))).toBeLessThan(unknown);
  });

  it('needs more rain before it in the growing season, whose ground dries sooner (NEH-4 table 4.2: 36 to 53 mm)', () => {
    const at = (startIso: string, antecedent5dRainMm: number): number =>
      shed(with_({ 0: STORM }, 3, startIso), { antecedent5dRainMm });
    const [winter, summer] = ['2026-01-10T06:00Z', '2026-06-10T06:00Z'];
    expect(at(winter, 40)).toBeGreaterThan(1.2 * at(summer, 40));
    expect(at(winter, 60)).toBeCloseTo(at(summer, 60), 9);
  });

  it('goes on with a storm that pauses for less than twelve hours, and begins anew after them', () => {
    const pair = (gapH: number): number => shed(with_({ 10: 25, [10 + gapH]: 25 }));
    const [one, both] = [shed(with_({ 10: 25 })), shed(with_({ 10: 50 }))];
    expect(pair(5)).toBeCloseTo(both, 9);
    expect(pair(12)).toBeCloseTo(both, 9);
    expect(pair(13)).toBeCloseTo(2 * one, 9);
    expect(both).toBeGreaterThan(3 * one);
  });

  it('is lost to snow, at half a degree and below', () => {
    const rain = (airC: number): number => shed(with_({ 10: STORM }).map((hour) => ({ ...hour, airC })));
    expect(rain(0.5)).toBe(0);
    expect(rain(0.6)).toBeGreaterThan(1);
  });
});

describe('the silt of a storm', () => {
  it('muddies the pocket as the reader says, and by the land it runs over where nobody does', () => {
    const sinks = (landCover: PocketShape['landCover'], sedimentMgL?: number): number =>
      simulatePocket({ ...OPEN, landCover }, hours, {
        ...WET,
        ...(sedimentMgL !== undefined && { sedimentMgL }),
      }).buoyancy!;
    expect(sinks('mixed', 5)).toBeGreaterThan(0.9);
    expect(sinks('mixed', 1500)).toBeLessThan(-0.9);
    expect(sinks('wooded')).toBeGreaterThanOrEqual(sinks('urban'));
  });
});

it('an hour of rain counts by the part of it that lies between two instants', () => {
  const run = simulatePocket(DRAW, hours, WET);
  const start = hours[RAIN_FROM]!.atMs - HOUR;
  const perHourMm = 38.1 / (RAIN_TO - RAIN_FROM);
  expect(run.rainBetweenMm(start, start + HOUR / 4)).toBeCloseTo(perHourMm / 4, 9);
  expect(run.rainBetweenMm(start + HOUR / 2, start + 2.5 * HOUR)).toBeCloseTo(2 * perHourMm, 9);
  expect(run.rainBetweenMm(start + 5 * HOUR, start + 4 * HOUR)).toBe(0);
  const whole = [hours[0]!.atMs - HOUR, hours.at(-1)!.atMs] as const;
  expect(run.runoffBetweenMm(...whole)).toBeCloseTo(run.runoffMm, 9);
  const half = start + 6 * HOUR;
  expect(run.runoffBetweenMm(whole[0], half) + run.runoffBetweenMm(half, whole[1])).toBeCloseTo(
    run.runoffMm,
    9,
  );
  expect(run.renewedShare(whole[0], half)).toBeLessThan(run.renewedShare(...whole));
});
