// The small parts of the advice: curves, limits, cues, decay, phases, slots of the day, fog, depths. Their numbers stand in
// the rules; how they combine stands here.
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { beginsAbove, cutAt, depthLimitM } from '../../src/advice/depthLimit.ts';
import { phaseAdvice, phaseMembership } from '../../src/advice/phase.ts';
import { giveUpOf } from '../../src/advice/plan/giveUp.ts';
import { rounded, slotsOf } from '../../src/advice/plan/slots.ts';
import { applyWhen, phaseShare } from '../../src/advice/rules/apply.ts';
import { curveAt } from '../../src/advice/rules/curve.ts';
import { knownOf, knownOnBoth, type Known } from '../../src/advice/rules/known.ts';
import { fogHours } from '../../src/advice/safety/fog.ts';
import { spansOf } from '../../src/advice/safety/hours.ts';
import type { SafetyHour } from '../../src/advice/safety/types.ts';
import { PHASES } from '../../src/advice/types.ts';
import type { Curve } from '../../src/config/rulesPlaces.ts';
import type { SignalId } from '../../src/signals/types.ts';
import { dayOf, figureOf, rules } from './support.ts';

type When = Parameters<typeof applyWhen>[0];

const knownWith = (signals: Partial<Record<SignalId, number>>, more: Partial<Known> = {}): Known => ({
  species: 'mixed',
  waterBody: 'highland-reservoir',
  signals,
  ...more,
});

describe('a curve', () => {
  const curve: Curve = [
    [0, 1],
    [10, 3],
    [20, 0],
  ];
  it('goes straight from point to point, and level beyond its ends', () => {
    expect([-5, 0, 5, 10, 15, 20, 99].map((x) => curveAt(curve, x))).toEqual([1, 1, 2, 3, 1.5, 0, 0]);
  });
  it('never leaves what its points hold, nor jumps', () => {
    fc.assert(
      fc.property(fc.double({ min: -10, max: 30, noNaN: true }), (x) => {
        const y = curveAt(curve, x);
        expect(y).toBeGreaterThanOrEqual(0);
        expect(y).toBeLessThanOrEqual(3);
        expect(Math.abs(curveAt(curve, x + 1e-6) - y)).toBeLessThan(1e-5);
      }),
    );
  });
});

describe('a rule', () => {
  const up: Curve = [
    [0, 0],
    [10, 1],
  ];
  const limit = (signal: SignalId, more = {}) => ({ signal, curve: up, ...more });
  const share = (when: When, signals: Partial<Record<SignalId, number>>) =>
    applyWhen(when, knownWith(signals))?.share ?? null;

  it('goes by the scarcest of its limits and names it', () => {
    const when = { limits: [limit('windMs'), limit('cloudPct')] };
    expect(applyWhen(when, knownWith({ windMs: 8, cloudPct: 3 }))).toEqual({
      share: 0.3,
      signal: 'cloudPct',
      value: 3,
    });
    expect(applyWhen(when, knownWith({ windMs: 2, cloudPct: 9 }))).toEqual({
      share: 0.2,
      signal: 'windMs',
      value: 2,
    });
    expect(share(when, { windMs: 8 })).toBeNull();
  });
  it('multiplies its scales, and both with its limits', () => {
    expect(share({ scales: [limit('windMs'), limit('cloudPct')] }, { windMs: 5, cloudPct: 5 })).toBeCloseTo(
      0.25,
      12,
    );
    expect(
      share({ limits: [limit('rain24Mm')], scales: [limit('windMs')] }, { rain24Mm: 5, windMs: 4 }),
    ).toBeCloseTo(0.2, 12);
    expect(share({ scales: [limit('windMs')] }, {})).toBeNull();
  });
  it('adds its cues up to one, what is not known adding nothing', () => {
    const cues = [
      { ...limit('windMs'), weight: 0.5 },
      { ...limit('cloudPct'), weight: 0.8 },
    ];
    expect(share({ cues }, { windMs: 10 })).toBe(0.5);
    expect(share({ cues }, { windMs: 10, cloudPct: 5 })).toBeCloseTo(0.9, 12);
    expect(share({ cues }, { windMs: 10, cloudPct: 10 })).toBe(1);
    expect(applyWhen({ cues }, knownWith({ windMs: 10, cloudPct: 10 }))).toMatchObject({
      signal: 'cloudPct',
      value: 10,
    });
    expect(share({ cues }, {})).toBeNull();
  });
  it('reads a difference, another signal instead, or what it is told to take for unknown', () => {
    const minus = { limits: [limit('airMaxTodayC', { minus: 'waterC' })] };
    expect(share(minus, { airMaxTodayC: 12, waterC: 8 })).toBeCloseTo(0.4, 12);
    expect([share(minus, { airMaxTodayC: 12 }), share(minus, { waterC: 8 })]).toEqual([null, null]);
    const or = { limits: [limit('windMs', { or: [limit('windMaxMs'), limit('gustMs')] })] };
    expect([
      share(or, { windMs: 1, gustMs: 9 }),
      share(or, { gustMs: 9 }),
      share(or, { windMaxMs: 2, gustMs: 9 }),
    ]).toEqual([0.1, 0.9, 0.2]);
    const told = { limits: [limit('windMs', { ifUnknown: 0.3 })] };
    expect(applyWhen(told, knownWith({}))).toEqual({ share: 0.3, signal: 'windMs', value: null });
    expect(share(told, { windMs: 7 })).toBe(0.7);
  });
  it('fades by half with each of its half-lives, never backwards, by the water’s own where that is known', () => {
    const when = {
      fade: { signal: 'hoursSinceRain', halfLifeH: 12, halfLifeSignal: 'pocketHalfLifeH' },
    } as const;
    const after = (hours: number, own?: number) =>
      share(when, { hoursSinceRain: hours, ...(own === undefined ? {} : { pocketHalfLifeH: own }) });
    expect([after(0), after(12), after(24), after(-5)]).toEqual([1, 0.5, 0.25, 1]);
    expect(after(24, 24)).toBe(0.5);
    // No half-life is shorter than an hour.
    expect(after(1, 0.1)).toBe(0.5);
    expect(share(when, {})).toBeNull();
  });
  it('is taken back by what cancels it, and not by what is not known', () => {
    const when: When = {
      cancel: {
        signal: 'windMs',
        curve: [
          [0, 1],
          [10, 0],
        ],
      },
    };
    expect([share(when, { windMs: 4 }), share(when, { windMs: 20 }), share(when, {})]).toEqual([0.6, 0, 1]);
  });
  it('speaks of its own fish and waters alone', () => {
    const spotted: When = { species: ['spotted'] };
    expect(applyWhen(spotted, knownWith({}))).toBeNull();
    expect(applyWhen(spotted, knownWith({}, { species: 'spotted' }))).toEqual({
      share: 1,
      signal: 'species',
      value: null,
    });
    const river: When = { waterBody: ['tailwater'] };
    expect(applyWhen(river, knownWith({}))).toBeNull();
    expect(applyWhen(river, knownWith({}, { waterBody: 'tailwater' }))).toMatchObject({
      share: 1,
      signal: 'waterBody',
    });
  });
  it('speaks in its phases by how far the day is in them', () => {
    const membership = { ...phaseMembership(knownWith({ waterC: 5 }), rules.phases) };
    expect(phaseShare(undefined, membership)).toBe(1);
    expect(phaseShare(Object.fromEntries(PHASES.map((id) => [id, 1])), membership)).toBeCloseTo(1, 9);
    expect(phaseShare({ winter: 0.5 }, membership)).toBeCloseTo(0.5 * membership.winter, 12);
    expect(phaseShare({}, membership)).toBe(0);
  });
});

describe('what is known of a day', () => {
  it('is what is fresh or ageing and a number', () => {
    const day = dayOf({ windMs: 3, waterC: 8 }, 'forecast', '2026-03-05T12:00:00Z');
    const signals = {
      ...day.signals,
      gustMs: { ...figureOf(9, 'forecast'), freshness: 'stale' as const },
      cloudPct: { ...figureOf(5, 'forecast'), freshness: 'ageing' as const },
      airNowC: figureOf(Number.NaN, 'forecast'),
    };
    expect(knownOf({ ...day, signals }).signals).toEqual({ windMs: 3, waterC: 8, cloudPct: 5 });
  });
  it('and on two days what is known of both, each its own', () => {
    const [a, b] = knownOnBoth(knownWith({ windMs: 1, waterC: 8 }), knownWith({ windMs: 2, cloudPct: 5 }));
    expect([a.signals, b.signals]).toEqual([{ windMs: 1 }, { windMs: 2 }]);
  });
});

describe('the season', () => {
  const real = (min: number, max: number) =>
    fc.option(fc.double({ min, max, noNaN: true }), { nil: undefined });
  const season = fc.record({
    waterC: real(0, 36),
    waterChange7dC: real(-6, 6),
    pocketMinusMainC: real(-4, 6),
    dayLengthH: real(9, 15),
    dayLengthChangeHPerWeek: real(-0.4, 0.4),
  });
  const given = (signals: Record<string, number | undefined>): Partial<Record<SignalId, number>> =>
    Object.fromEntries(Object.entries(signals).filter(([, value]) => value !== undefined));

  it('is spread over its nine phases and sums to one, whatever is known', () => {
    fc.assert(
      fc.property(season, (signals) => {
        const membership = phaseMembership(knownWith(given(signals)), rules.phases);
        const all = PHASES.map((id) => membership[id]);
        expect(all.reduce((sum, one) => sum + one, 0)).toBeCloseTo(1, 9);
        expect(Math.min(...all)).toBeGreaterThanOrEqual(0);
      }),
    );
  });
  it('does not jump with any of its numbers, over the solstices either', () => {
    fc.assert(
      fc.property(
        season,
        fc.constantFrom('waterC', 'waterChange7dC', 'dayLengthH', 'dayLengthChangeHPerWeek'),
        (signals, id) => {
          const value = signals[id];
          fc.pre(value !== undefined);
          const near = { ...signals, [id]: value + 1e-4 };
          const [a, b] = [signals, near].map((one) => phaseMembership(knownWith(given(one)), rules.phases));
          for (const phase of PHASES) expect(Math.abs(a![phase] - b![phase])).toBeLessThan(0.02);
        },
      ),
    );
  });
  it('is led by its largest phase, names a second from a quarter on, and says when the water is not known', () => {
    fc.assert(
      fc.property(season, (signals) => {
        const { membership, leading, because } = phaseAdvice(knownWith(given(signals)), rules.phases);
        const ranked = [...PHASES].sort((a, b) => membership[b] - membership[a]);
        expect(membership[leading]).toBe(membership[ranked[0]!]);
        expect(because.code).toBe(signals.waterC === undefined ? 'waterUnknown' : 'byWater');
        const second = membership[ranked[1]!];
        expect(because.partly !== null).toBe(second > 0.25);
      }),
    );
  });
  it('spawns in water that is warmer by what the rules say of its fish', () => {
    const spawn = (species: Known['species'], waterC: number) =>
      phaseMembership(knownWith({ waterC }, { species }), rules.phases).spawn;
    const { largemouth, smallmouth } = rules.phases.shiftC;
    expect(smallmouth).not.toBe(largemouth);
    const middle = (species: 'largemouth' | 'smallmouth'): number => {
      const waters = Array.from({ length: 200 }, (_, i) => 8 + i / 10);
      const all = waters.reduce((sum, waterC) => sum + spawn(species, waterC), 0);
      return waters.reduce((sum, waterC) => sum + waterC * spawn(species, waterC), 0) / all;
    };
    expect(middle('smallmouth') - middle('largemouth')).toBeCloseTo(smallmouth - largemouth, 0);
  });
});

describe('the slots of a day', () => {
  const MIN = 60_000;
  const at = (hour: number, minute = 0): number => Date.UTC(2026, 2, 5, hour, minute);
  const hours = Array.from({ length: 24 }, (_, hour) => ({ fromMs: at(hour), toMs: at(hour + 1) }));
  it('begin after the first light and end before the last, to five minutes', () => {
    expect(rounded({ fromMs: at(6, 1), toMs: at(18, 4) })).toEqual({ fromMs: at(6, 5), toMs: at(18) });
    expect(rounded({ fromMs: at(6, 5), toMs: at(18, 5) })).toEqual({ fromMs: at(6, 5), toMs: at(18, 5) });
  });
  it('cover it without gap or overlap, half an hour at most, and lie each in one hour', () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 0, max: 287 }),
        fc.integer({ min: 0, max: 287 }),
        fc.array(fc.tuple(fc.integer({ min: 0, max: 287 }), fc.integer({ min: 1, max: 60 })), {
          maxLength: 3,
        }),
        (a, b, shut) => {
          const [fromMs, toMs] = [at(0) + 5 * MIN * Math.min(a, b), at(0) + 5 * MIN * Math.max(a, b)];
          const closed = shut.map(([start, length]) => ({
            fromMs: at(0) + 5 * MIN * start,
            toMs: at(0) + 5 * MIN * (start + length),
          }));
          const slots = slotsOf({ fromMs, toMs }, hours, closed);
          if (fromMs === toMs) {
            expect(slots).toEqual([]);
            return;
          }
          expect([slots[0]?.fromMs, slots.at(-1)?.toMs]).toEqual([fromMs, toMs]);
          for (const [i, slot] of slots.entries()) {
            if (i > 0) expect(slot.fromMs).toBe(slots[i - 1]?.toMs);
            expect(slot.toMs - slot.fromMs).toBeLessThanOrEqual(30 * MIN);
            expect(slot.toMs).toBeGreaterThan(slot.fromMs);
            expect(slot.hour).toBe(new Date(slot.fromMs).getUTCHours());
            const middle = (slot.fromMs + slot.toMs) / 2;
            expect(slot.open).toBe(!closed.some((one) => one.fromMs < middle && middle < one.toMs));
          }
        },
      ),
    );
  });
  it('name no hour where none is known', () => {
    expect(slotsOf({ fromMs: at(6), toMs: at(7) }, [], []).map(({ hour }) => hour)).toEqual([-1, -1]);
  });
});

describe('hours in which something stands', () => {
  const hour = (at: number): SafetyHour => ({ fromMs: at, toMs: at + 1 });
  it('are joined where they touch and apart where they do not', () => {
    const hours = [0, 1, 2, 3, 5, 6].map(hour);
    expect(spansOf(hours, [true, true, false, true, true, true])).toEqual([
      { fromMs: 0, toMs: 2 },
      { fromMs: 3, toMs: 4 },
      { fromMs: 5, toMs: 7 },
    ]);
    expect(spansOf(hours, [])).toEqual([]);
  });
});

describe('fog', () => {
  const hour = (more: Partial<SafetyHour>): SafetyHour => ({
    fromMs: 0,
    toMs: 1,
    airC: 8,
    humidityPct: 97,
    windMs: 1,
    sunAltitudeDeg: 5,
    ...more,
  });
  const isFoggy = (more: Partial<SafetyHour>, waterC?: number) => fogHours([hour(more)], waterC) === 1;
  it('forms in still, moist air under a low sun (common practice, no source)', () => {
    expect([
      isFoggy({}),
      isFoggy({ humidityPct: 96 }),
      isFoggy({ windMs: 2.5 }),
      isFoggy({ sunAltitudeDeg: 15 }),
    ]).toEqual([true, true, true, true]);
    expect([
      isFoggy({ humidityPct: 95.9 }),
      isFoggy({ windMs: 2.6 }),
      isFoggy({ sunAltitudeDeg: 15.1 }),
    ]).toEqual([false, false, false]);
  });
  it('rises as steam from water twelve kelvins warmer than the air', () => {
    expect([
      isFoggy({ humidityPct: 60 }, 20),
      isFoggy({ humidityPct: 60 }, 19.9),
      isFoggy({ humidityPct: 60 }),
    ]).toEqual([true, false, false]);
    expect(isFoggy({ humidityPct: 60, windMs: 3 }, 20)).toBe(false);
  });
  it('is what the weather model has, wind or not; and none is told of an hour whose wind or sun nobody knows', () => {
    expect(isFoggy({ fogCode: 1, windMs: 9, sunAltitudeDeg: 50 })).toBe(true);
    expect(isFoggy({ fogCode: 0, windMs: 9 })).toBe(false);
    const { windMs: _, ...windless } = hour({});
    const { sunAltitudeDeg: __, ...sunless } = hour({});
    expect(fogHours([windless, sunless], 8)).toBe(0);
    expect(fogHours([hour({}), hour({ windMs: 9 }), hour({})], 8)).toBe(2);
  });
});

describe('a depth limit', () => {
  it('cuts a band a little above itself to a tenth of a metre, and leaves what lies above it', () => {
    expect(cutAt([2, 5], undefined)).toEqual([2, 5]);
    expect(cutAt([2, 5], 5)).toEqual([2, 5]);
    expect(cutAt([2, 5], 4.37)).toEqual([2, 4.3]);
    expect(cutAt([4.2, 9], 4.37)).toEqual([4, 4.3]);
  });
  it('leaves a place some water above it, 0.3 m at least', () => {
    const place = { depthM: [3, 6] } as const;
    expect([beginsAbove(place, undefined), beginsAbove(place, 3.3), beginsAbove(place, 3.29)]).toEqual([
      true,
      true,
      false,
    ]);
  });
  it('is a foot above the end of the oxygen, or two feet into the layer, whichever is higher; none where neither is known', () => {
    const FT = 0.3048;
    expect(depthLimitM({})).toBeUndefined();
    expect(depthLimitM({ oxygenM: 20 * FT })).toBeCloseTo(19 * FT, 9);
    expect(depthLimitM({ layerM: 20 * FT })).toBeCloseTo(22 * FT, 9);
    expect(depthLimitM({ layerM: 20 * FT, oxygenM: 18 * FT })).toBeCloseTo(17 * FT, 9);
    expect(depthLimitM({ layerM: 20 * FT, oxygenM: 30 * FT })).toBeCloseTo(22 * FT, 9);
    expect(depthLimitM({ oxygenM: 0.5 * FT })).toBeCloseTo(2 * FT, 9);
  });
});

describe('giving a place up', () => {
  const how = {
    windBelowMs: 2,
    windNearMs: 4,
    windMinutes: 15,
    warmthLeastC: 0.5,
    warmthMinutes: 10,
    currentMinutes: 20,
  };
  it('goes by bites where nothing else speaks for it', () => {
    const point = rules.positions.places.find(({ id }) => id === 'main_point');
    if (point === undefined) throw new Error('no such place');
    expect(giveUpOf(point, [], how)).toEqual({ code: 'noBite', minutes: point.search.minutes });
  });
});
