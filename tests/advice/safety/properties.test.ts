import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { judgeSafety, type LakeAlert } from '../../../src/advice/safety/index.ts';
import type { SignalId } from '../../../src/signals/types.ts';
import { CALM, CHECKED, conditions, table } from './day.ts';

const RANGES: Partial<Record<SignalId, readonly [number, number]>> = {
  waterC: [0, 34],
  airMaxTodayC: [-20, 42],
  airMinTodayC: [-30, 30],
  windMs: [0, 22],
  windMaxMs: [0, 25],
  gustMs: [0, 30],
  thunderPct: [0, 100],
  level24hM: [-3, 3],
  levelRateMPerH: [-0.5, 0.5],
  levelVsNormalM: [-5, 5],
  levelNext24hM: [-2, 3],
  dischargeRatio: [0, 12],
  rain72Mm: [0, 120],
  rainNext24Mm: [0, 80],
  generationOn: [0, 1],
};
const NAMES = Object.keys(RANGES) as SignalId[];

const signals = fc.record(
  Object.fromEntries(
    NAMES.map((name) => [name, fc.double({ min: RANGES[name]![0], max: RANGES[name]![1], noNaN: true })]),
  ),
  { requiredKeys: [] },
) as fc.Arbitrary<Partial<Record<SignalId, number>>>;

const alerts = fc.array(
  fc.record<LakeAlert>({
    issuer: fc.constantFrom('office A', 'office B'),
    event: fc.constantFrom('Flood Warning', 'Wind Advisory', 'Frost Advisory'),
    severity: fc.constantFrom('Extreme', 'Severe', 'Moderate', 'Minor', 'Unknown'),
    headline: fc.string(),
    description: fc.string(),
    instruction: fc.string(),
    endsMs: fc.option(fc.integer({ min: Date.UTC(2026, 2, 6), max: Date.UTC(2026, 2, 9) })),
    expiresMs: fc.constant(null),
  }),
  { maxLength: 5 },
);

describe('the level', () => {
  it('is the highest of the hazards', () => {
    fc.assert(
      fc.property(signals, alerts, fc.boolean(), (given, official, belowDam) => {
        const advice = judgeSafety(conditions(given), table, { ...CHECKED, alerts: official, belowDam });
        expect(advice.level).toBe(Math.max(1, ...advice.hazards.map((hazard) => hazard.level)));
      }),
    );
  });

  it('never falls below that of a harmless number when the number is unknown', () => {
    fc.assert(
      fc.property(signals, fc.constantFrom(...NAMES), (given, name) => {
        const harmless = CALM[name];
        if (harmless === undefined) return;
        const rest = Object.fromEntries(Object.entries(given).filter(([id]) => id !== name));
        const unknown = judgeSafety(conditions(rest), table, CHECKED).level;
        const safe = judgeSafety(conditions({ ...rest, [name]: harmless }), table, CHECKED).level;
        expect(unknown).toBeGreaterThanOrEqual(safe);
      }),
      { numRuns: 300 },
    );
  });

  it('never falls when official statements are added', () => {
    fc.assert(
      fc.property(signals, alerts, (given, official) => {
        const without = judgeSafety(conditions(given), table, CHECKED).level;
        expect(
          judgeSafety(conditions(given), table, { ...CHECKED, alerts: official }).level,
        ).toBeGreaterThanOrEqual(without);
      }),
    );
  });

  it('never falls as the wind rises, the water cools or the rise quickens', () => {
    const worse: readonly [SignalId, number][] = [
      ['windMaxMs', 1],
      ['waterC', -1],
      ['level24hM', 0.2],
      ['thunderPct', 5],
      ['gustMs', 1],
    ];
    fc.assert(
      fc.property(
        fc.constantFrom(...worse),
        fc.double({ min: 0, max: 24, noNaN: true }),
        ([name, step], from) => {
          const base = { ...CALM, airMinTodayC: 12 };
          const value = name === 'level24hM' ? from / 10 : name === 'thunderPct' ? from * 4 : from;
          const before = judgeSafety(conditions({ ...base, [name]: value }), table, CHECKED).level;
          const after = judgeSafety(conditions({ ...base, [name]: value + step }), table, CHECKED).level;
          expect(after).toBeGreaterThanOrEqual(before);
        },
      ),
      { numRuns: 200 },
    );
  });

  it('and all its hazards are the same whatever the order of signals and statements', () => {
    fc.assert(
      fc.property(signals, alerts, (given, official) => {
        const turned = Object.fromEntries(Object.entries(given).reverse());
        expect(
          judgeSafety(conditions(turned), table, { ...CHECKED, alerts: [...official].reverse() }),
        ).toEqual(judgeSafety(conditions(given), table, { ...CHECKED, alerts: official }));
      }),
    );
  });
});
