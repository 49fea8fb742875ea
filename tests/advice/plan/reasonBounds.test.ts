/** A reason of the hours is told only where their own numbers bear out what its words claim: at its bound, and not beyond. */
import { describe, expect, it } from 'vitest';
import type { PlanHour } from '../../../src/advice/plan/hours.ts';
import {
  factOf,
  standsIn,
  stretchOf,
  type BlockHour,
  type Stretch,
} from '../../../src/advice/plan/reasons.ts';
import { phaseMembership } from '../../../src/advice/phase.ts';
import { HOUR_REASONS, type HourReason } from '../../../src/config/rulesHours.ts';
import { rules } from '../support.ts';

type Numbers = Readonly<Record<string, number>>;
const HOUR = 3_600_000;
const stretch = (means: Numbers, more: Partial<Stretch> = {}): Stretch => ({
  meanOf: (id) => means[id],
  highestSunDeg: undefined,
  lowestSunDeg: undefined,
  windFromDeg: undefined,
  rainMm: undefined,
  keptToLee: false,
  ...more,
});
const told = (reason: HourReason, means: Numbers, more: Partial<Stretch> = {}) =>
  factOf(reason, stretch(means, more));

// The bounds are common practice, no source.
const OPEN = { sunAltitudeDeg: 30, cloudPct: 55, waterC: 15 };
const HIGH = { highestSunDeg: 40, lowestSunDeg: 12.1 };
const WARMS = { airNowC: 11, cloudPct: 55, waterC: 14, localHour: 10.5, sunAltitudeDeg: 12.1 };

describe('a reason of the hours', () => {
  it.each<readonly [HourReason, Numbers, Partial<Stretch>]>([
    ['lowLight', {}, { highestSunDeg: 12, lowestSunDeg: -5.9 }],
    ['lowLight', {}, { highestSunDeg: -5.9, lowestSunDeg: -5.9 }],
    ['dark', {}, { highestSunDeg: -6 }],
    ['highSun', OPEN, HIGH],
    ['cloudCover', { cloudPct: 70 }, {}],
    ['windOnIt', { windMs: 2.5 }, {}],
    ['sheltered', { windMs: 4 }, {}],
    ['calm', { windMs: 2.5 }, {}],
    ['pocketWarmer', { pocketMinusMainC: 0.5 }, {}],
    ['pocketColder', { pocketMinusMainC: -0.5 }, {}],
    ['release', { generationOn: 0.5 }, {}],
    ['release', { currentMs: 0.1 }, {}],
    ['slack', { currentMs: 0.09 }, {}],
    ['frontPassed', { airDrop24hC: 3 }, {}],
    ['rainFalling', {}, { rainMm: 1 }],
    ['sunWarms', WARMS, {}],
    ['heat', { airNowC: 29 }, {}],
  ])('%s is told of %j %j', (reason, means, more) => {
    expect(told(reason, means, more)?.code).toBe(reason);
  });

  it.each<readonly [HourReason, Numbers, Partial<Stretch>]>([
    ['lowLight', {}, { highestSunDeg: 12.1, lowestSunDeg: 2 }],
    ['lowLight', {}, { highestSunDeg: 5, lowestSunDeg: -6 }],
    ['lowLight', {}, { highestSunDeg: 5 }],
    ['dark', {}, { highestSunDeg: -5.9 }],
    ['highSun', OPEN, {}],
    ['highSun', { ...OPEN, sunAltitudeDeg: 29.9 }, HIGH],
    ['highSun', OPEN, { ...HIGH, lowestSunDeg: 12 }],
    ['highSun', { ...OPEN, cloudPct: 55.1 }, HIGH],
    ['highSun', { ...OPEN, waterC: 14.9 }, HIGH],
    ['highSun', { sunAltitudeDeg: 40, waterC: 20 }, HIGH],
    ['highSun', { sunAltitudeDeg: 40, cloudPct: 0 }, HIGH],
    ['cloudCover', { cloudPct: 69.9 }, {}],
    ['windOnIt', { windMs: 2.4 }, {}],
    ['windOnIt', { windMs: 5 }, { keptToLee: true }],
    ['sheltered', { windMs: 3.9 }, {}],
    ['calm', { windMs: 2.6 }, {}],
    ['pocketWarmer', { pocketMinusMainC: 0.49 }, {}],
    ['pocketColder', { pocketMinusMainC: -0.49 }, {}],
    ['release', { generationOn: 0.49, currentMs: 0.09 }, {}],
    ['slack', { currentMs: 0.1 }, {}],
    ['frontPassed', { airDrop24hC: 2.9 }, {}],
    ['rainFalling', {}, { rainMm: 0.9 }],
    ['sunWarms', { ...WARMS, airNowC: 10.9 }, {}],
    ['sunWarms', { ...WARMS, cloudPct: 56 }, {}],
    ['sunWarms', { ...WARMS, airNowC: 20, waterC: 14.1 }, {}],
    ['sunWarms', { ...WARMS, localHour: 10.4 }, {}],
    ['sunWarms', { ...WARMS, sunAltitudeDeg: 12 }, {}],
    ['sunWarms', { airNowC: 12, cloudPct: 0, waterC: 10, localHour: 13 }, {}],
    ['sunWarms', { cloudPct: 0, waterC: 10, localHour: 13, sunAltitudeDeg: 40 }, {}],
    ['sunWarms', { airNowC: 12, waterC: 10, localHour: 13, sunAltitudeDeg: 40 }, {}],
    ['sunWarms', { airNowC: 12, cloudPct: 0, localHour: 13, sunAltitudeDeg: 40 }, {}],
    ['heat', { airNowC: 28.9 }, {}],
  ])('%s is not told of %j %j', (reason, means, more) => {
    expect(told(reason, means, more)).toBeNull();
  });

  it('is never told of what is not known', () => {
    for (const reason of HOUR_REASONS) expect(told(reason, {}), reason).toBeNull();
  });

  it('is told with its numbers', () => {
    expect(told('windOnIt', { windMs: 5 }, { windFromDeg: 270 })).toEqual({
      code: 'windOnIt',
      windMs: 5,
      fromDeg: 270,
    });
    expect(told('sheltered', { windMs: 5 })).toEqual({ code: 'sheltered', windMs: 5 });
    expect(told('dark', {}, { highestSunDeg: -20 })).toEqual({ code: 'dark', sunAltitudeDeg: -20 });
    expect(told('highSun', OPEN, { highestSunDeg: 60, lowestSunDeg: 20 })).toEqual({
      code: 'highSun',
      sunAltitudeDeg: 60,
      cloudPct: 55,
    });
    expect(told('release', { generationOn: 1 })).toEqual({ code: 'release', currentMs: null });
    expect(told('rainFalling', { airNowC: 9 }, { rainMm: 4 })).toEqual({
      code: 'rainFalling',
      rainMm: 4,
      airC: 9,
    });
    expect(told('frontPassed', { airDrop24hC: 8 })).toEqual({ code: 'frontPassed', fallC: 8 });
    expect(told('heat', { airNowC: 33 })).toEqual({ code: 'heat', airC: 33 });
  });
});

const blockHour = (signals: Numbers, weightH = 1, hour?: Partial<PlanHour>): BlockHour => ({
  weightH,
  hour: hour === undefined ? undefined : { fromMs: 0, toMs: HOUR, ...hour },
  score: {
    hour: { known: { species: 'mixed', waterBody: 'pond', signals: {} }, signals },
    membership: phaseMembership({ species: 'mixed', waterBody: 'pond', signals: {} }, rules.phases),
    totals: new Map(),
    scored: new Map(),
    applied: [],
  },
});

describe('the numbers of a stretch', () => {
  it('are means by the time each hour has in it, and unknown where an hour does not know them', () => {
    const { meanOf } = stretchOf([blockHour({ windMs: 2, airNowC: 5 }), blockHour({ windMs: 8 }, 0.5)]);
    expect(meanOf('windMs')).toBeCloseTo(4, 9);
    expect(meanOf('airNowC')).toBeUndefined();
    expect(stretchOf([]).meanOf('windMs')).toBeUndefined();
  });

  it('have the sun at its highest and lowest', () => {
    const { highestSunDeg, lowestSunDeg } = stretchOf(
      [10, 30, 20].map((sunAltitudeDeg) => blockHour({ sunAltitudeDeg })),
    );
    expect([highestSunDeg, lowestSunDeg]).toEqual([30, 10]);
    expect(stretchOf([blockHour({ sunAltitudeDeg: 10 }), blockHour({})]).highestSunDeg).toBeUndefined();
  });

  it('have the rain of the part of each hour that they hold, where all hours know it', () => {
    expect(
      stretchOf([blockHour({}, 1, { rainMm: 3 }), blockHour({}, 0.5, { rainMm: 2 })]).rainMm,
    ).toBeCloseTo(4, 9);
    expect(stretchOf([blockHour({}, 1, { rainMm: 3 }), blockHour({}, 1, {})]).rainMm).toBeUndefined();
  });

  it('have one bearing of the wind, across north too, where all hours know it', () => {
    const from = (...deg: (number | undefined)[]) =>
      stretchOf(deg.map((windFromDeg) => blockHour({}, 1, windFromDeg === undefined ? {} : { windFromDeg })))
        .windFromDeg;
    expect(from(80, 100)).toBeCloseTo(90, 9);
    expect(Math.abs(((from(350, 10) ?? Number.NaN) + 180) % 360) - 180).toBeCloseTo(0, 6);
    expect(from(80, undefined)).toBeUndefined();
  });

  it('bear out a reason of theirs, and none that is no reason of hours', () => {
    const windy = [blockHour({ windMs: 5 })];
    expect(standsIn({ code: 'windOnIt', windMs: 5 }, windy)).toBe(true);
    expect(standsIn({ code: 'calm', windMs: 5 }, windy)).toBe(false);
    const ranks = { code: 'ranks', place: 'dock', atLeast: 1, from: null, to: null } as const;
    expect(standsIn(ranks, windy)).toBe(false);
  });
});
