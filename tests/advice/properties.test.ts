import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { advise } from '../../src/advice/index.ts';
import { phaseMembership } from '../../src/advice/phase.ts';
import { scorePlaces } from '../../src/advice/positions/score.ts';
import { knownOf, type Known } from '../../src/advice/rules/known.ts';
import { PHASES } from '../../src/advice/types.ts';
import {
  SPECIES,
  WATER_BODIES,
  type Conditions,
  type Figure,
  type SignalId,
} from '../../src/signals/types.ts';
import { rules, TACKLE } from './support.ts';

/** Signals the rules read, with the range a day may bring. */
const RANGES: Partial<Record<SignalId, [number, number]>> = {
  waterC: [3, 32],
  waterChange3dC: [-4, 4],
  waterChange7dC: [-6, 6],
  airMean24hC: [-10, 32],
  airTrend3dCPerDay: [-6, 6],
  airTrend7dCPerDay: [-3, 3],
  warmingDays: [-6, 12],
  airDrop24hC: [-8, 14],
  airMinLastNightC: [-12, 26],
  rain72Mm: [0, 90],
  runoffC: [2, 27],
  hoursSinceRain: [0, 96],
  clearColdNightSinceRain: [0, 1],
  pocketMinusMainC: [-4, 7],
  pocketRenewedShare: [0, 1],
  pocketBuoyancy: [-1, 1],
  level6hM: [-0.3, 0.4],
  level24hM: [-0.8, 1],
  level72hM: [-1.5, 2],
  levelVsNormalM: [-3, 3],
  currentMs: [0, 1.5],
  generationOn: [0, 1],
  dischargeRatio: [0.2, 8],
  clarityM: [0.1, 5],
  windMs: [0, 14],
  cloudPct: [0, 100],
  dayLengthH: [9.6, 14.7],
  dayLengthChangeHPerWeek: [-0.26, 0.26],
  lowLightShare: [0, 1],
  bottomOxygenMgL: [0, 10],
  bankDeg: [3, 70],
};

const number = ([low, high]: [number, number]) => fc.double({ min: low, max: high, noNaN: true });
const signalsArb = (requiredKeys: SignalId[]) =>
  fc.record(Object.fromEntries(Object.entries(RANGES).map(([id, range]) => [id, number(range)])), {
    requiredKeys,
  }) as fc.Arbitrary<Partial<Record<SignalId, number>>>;
const knownArb = (requiredKeys: SignalId[]): fc.Arbitrary<Known> =>
  fc.record({
    species: fc.constantFrom(...SPECIES),
    waterBody: fc.constantFrom(...WATER_BODIES),
    signals: signalsArb(requiredKeys),
  });
const everything = Object.keys(RANGES) as SignalId[];

const totals = (known: Known): Map<string, number> =>
  new Map(
    scorePlaces(known, phaseMembership(known, rules.phases), rules.positions).map(({ place, total }) => [
      place,
      total,
    ]),
  );
const moved = (known: Known, id: SignalId, by: number): Known => ({
  ...known,
  signals: { ...known.signals, [id]: known.signals[id]! + by },
});
const largestMove = (known: Known, id: SignalId, by: number): number => {
  const after = totals(moved(known, id, by));
  return Math.max(...[...totals(known)].map(([place, total]) => Math.abs(after.get(place)! - total)));
};

/** The stated bounds, in points: what a change too small to feel may move a total by. */
const BOUND_PER_TENTH_DEGREE = 0.6;
const BOUND_PER_FIVE_CENTIMETRES = 1.2;

describe('properties of the ranking', () => {
  it.each([
    'waterC',
    'waterChange7dC',
    'waterChange3dC',
    'pocketMinusMainC',
    'runoffC',
    'airDrop24hC',
  ] as SignalId[])('no cliff: 0.1 degC of %s never moves a total by more than 0.6 points', (id) => {
    fc.assert(
      fc.property(knownArb(everything), (known) => {
        expect(largestMove(known, id, 0.1)).toBeLessThan(BOUND_PER_TENTH_DEGREE);
      }),
      { numRuns: 400 },
    );
  });

  it('no cliff: 0.05 m of level never moves a total by more than 1.2 points', () => {
    fc.assert(
      fc.property(knownArb(everything), (known) => {
        expect(largestMove(known, 'level24hM', 0.05)).toBeLessThan(BOUND_PER_FIVE_CENTIMETRES);
      }),
      { numRuns: 500 },
    );
  });

  it.each([
    {
      id: 'level24hM',
      from: 0,
      to: 1,
      place: 'flooded_cover',
      sign: 1,
      says: 'rising water opens new cover',
    },
    {
      id: 'level24hM',
      from: -0.8,
      to: 0,
      place: 'flat',
      sign: 1,
      says: 'falling water empties the shallows',
    },
    { id: 'windMs', from: 0, to: 7, place: 'riprap', sign: 1, says: 'a working wind pushes food onto rock' },
    {
      id: 'generationOn',
      from: 0,
      to: 1,
      place: 'river_channel',
      sign: 1,
      says: 'current sets fish on ledges',
    },
    { id: 'clarityM', from: 1.5, to: 5, place: 'bluff', sign: 1, says: 'clear water lets fish use depth' },
    { id: 'waterC', from: 27, to: 34, place: 'flat', sign: -1, says: 'hot shallows empty' },
  ] as const)('monotone where the sentence says so: $says ($id, $place)', ({ id, from, to, place, sign }) => {
    const summer = Object.fromEntries(PHASES.map((phase) => [phase, phase === 'summer' ? 1 : 0])) as Record<
      (typeof PHASES)[number],
      number
    >;
    const at = (value: number): number => {
      const known: Known = { species: 'mixed', waterBody: 'highland-reservoir', signals: { [id]: value } };
      return scorePlaces(known, summer, rules.positions).find((scored) => scored.place === place)!.total;
    };
    fc.assert(
      fc.property(number([from, to]), number([from, to]), (one, other) => {
        const [less, more] = [Math.min(one, other), Math.max(one, other)];
        expect(sign * (at(more) - at(less))).toBeGreaterThanOrEqual(-1e-9);
      }),
    );
    expect(sign * (at(to) - at(from))).toBeGreaterThan(0.3);
  });

  it('monotone: a warmer pocket never lowers the inflow in early March, and more hours since warm rain never raise it', () => {
    const day: Known = {
      species: 'mixed',
      waterBody: 'highland-reservoir',
      signals: {
        waterC: 8.5,
        waterChange7dC: 1,
        dayLengthH: 11.5,
        dayLengthChangeHPerWeek: 0.25,
        rain72Mm: 40,
        runoffC: 14,
        pocketRenewedShare: 0.8,
        pocketMinusMainC: 2,
        hoursSinceRain: 10,
        clearColdNightSinceRain: 0,
      },
    };
    const inflow = (id: SignalId, value: number): number =>
      totals({ ...day, signals: { ...day.signals, [id]: value } }).get('inflow')!;
    fc.assert(
      fc.property(
        fc.double({ min: -2, max: 6, noNaN: true }),
        fc.double({ min: 0, max: 70, noNaN: true }),
        (warmer, hours) => {
          expect(inflow('pocketMinusMainC', warmer + 0.3)).toBeGreaterThanOrEqual(
            inflow('pocketMinusMainC', warmer) - 1e-9,
          );
          expect(inflow('hoursSinceRain', hours + 2)).toBeLessThanOrEqual(
            inflow('hoursSinceRain', hours) + 1e-9,
          );
        },
      ),
    );
  });

  it('the order in which signals and rules are listed changes nothing', () => {
    fc.assert(
      fc.property(knownArb([]), (known) => {
        const reversed: Known = {
          ...known,
          signals: Object.fromEntries(Object.entries(known.signals).reverse()),
        };
        const positions = {
          ...rules.positions,
          modifiers: [...rules.positions.modifiers].reverse(),
          places: [...rules.positions.places].reverse(),
        };
        const membership = phaseMembership(reversed, {
          ...rules.phases,
          phases: [...rules.phases.phases].reverse(),
        });
        const after = new Map(
          scorePlaces(reversed, membership, positions).map((scored) => [scored.place, scored.total]),
        );
        for (const [place, total] of totals(known))
          expect(after.get(place as 'pocket')).toBeCloseTo(total, 9);
      }),
      { numRuns: 100 },
    );
  });

  it('an unknown signal never scores as ideal: no total rises above the best its values could give', () => {
    const tried: SignalId[] = [
      'pocketRenewedShare',
      'pocketMinusMainC',
      'level24hM',
      'clarityM',
      'windMs',
      'cloudPct',
      'rain72Mm',
      'runoffC',
      'clearColdNightSinceRain',
      'currentMs',
    ];
    fc.assert(
      fc.property(knownArb(everything), fc.constantFrom(...tried), (known, id) => {
        const rest = Object.fromEntries(Object.entries(known.signals).filter(([name]) => name !== id));
        const without = totals({ ...known, signals: rest });
        const [low, high] = RANGES[id]!;
        const best = new Map<string, number>();
        for (let step = 0; step <= 40; step += 1) {
          const value = low + ((high - low) * step) / 40;
          for (const [place, total] of totals({ ...known, signals: { ...rest, [id]: value } })) {
            best.set(place, Math.max(best.get(place) ?? -Infinity, total));
          }
        }
        for (const [place, total] of without)
          expect(total, `${id} ${place}`).toBeLessThanOrEqual(best.get(place)! + 0.25 + 1e-9);
      }),
      { numRuns: 60 },
    );
  });

  it('nothing that is unknown appears among the evidence, and a rule that helps adds nothing without its signal', () => {
    fc.assert(
      fc.property(knownArb([]), (known) => {
        const scored = scorePlaces(known, phaseMembership(known, rules.phases), rules.positions);
        for (const { evidence } of scored) {
          for (const entry of evidence.filter((found) => found.value !== null)) {
            expect(known.signals[entry.signal as SignalId]).toBeDefined();
          }
        }
      }),
      { numRuns: 100 },
    );
  });

  it('membership of the phases always adds up to one', () => {
    fc.assert(
      fc.property(knownArb([]), (known) => {
        const membership = phaseMembership(known, rules.phases);
        expect(PHASES.reduce((sum, id) => sum + membership[id], 0)).toBeCloseTo(1, 9);
        for (const id of PHASES) expect(membership[id]).toBeGreaterThanOrEqual(0);
      }),
    );
  });
});

describe('with nothing known', () => {
  const nothing: Conditions = {
    asOfMs: 0,
    date: '2026-03-01',
    zone: 'America/Chicago',
    species: 'mixed',
    waterBody: 'highland-reservoir',
    signals: {},
    gaps: [],
  };

  it('the advice still answers, with all places and low confidence', () => {
    const advice = advise(nothing, rules, { tackle: TACKLE });
    expect(advice.positions).toHaveLength(14);
    expect(advice.confidence.word).toBe('low');
    expect(JSON.stringify(advice.confidence.because)).toContain('waterC');
    expect(advice.swap).toBeNull();
    expect(advice.tendency).toBeNull();
    expect(Math.max(...Object.values(advice.phase.membership))).toBeCloseTo(1 / 9, 9);
  });

  it('a stale number counts as unknown; an ageing one feeds the rules and lowers confidence', () => {
    const water = (freshness: Figure['freshness']): Conditions => ({
      ...nothing,
      signals: {
        waterC: { value: 8, kind: 'observed', asOfMs: 0, freshness, source: { code: 'configuration' } },
      },
    });
    expect(knownOf(water('stale')).signals.waterC).toBeUndefined();
    const stale = advise(water('stale'), rules, { tackle: TACKLE });
    const bare = advise(nothing, rules, { tackle: TACKLE });
    expect(stale.positions.map(({ total }) => total)).toEqual(bare.positions.map(({ total }) => total));
    expect(knownOf(water('ageing')).signals.waterC).toBe(8);
    expect(advise(water('ageing'), rules, { tackle: TACKLE }).confidence.because).toContainEqual(
      expect.objectContaining({ code: 'ageing' }),
    );
  });
});
