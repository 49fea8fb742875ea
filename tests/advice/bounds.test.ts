// Where hours, days and groups of rules end: the hour after a stretch is outside of it, the fourth day is no near one,
// and a group speaks as loud as its clamp and no louder.
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { advise } from '../../src/advice/index.ts';
import { phaseMembership } from '../../src/advice/phase.ts';
import { clockOf } from '../../src/advice/plan/clock.ts';
import { closuresOf } from '../../src/advice/plan/closures.ts';
import type { PlanHour } from '../../src/advice/plan/hours.ts';
import { scorePlaces } from '../../src/advice/positions/score.ts';
import { knownOf } from '../../src/advice/rules/known.ts';
import { judgeSafety, type SafetyExtras } from '../../src/advice/safety/index.ts';
import type { SignalId } from '../../src/signals/types.ts';
import { COLD_DAY, dayOf, rules, TACKLE } from './support.ts';

const HOUR_MS = 3_600_000;
const MIDNIGHT_MS = Date.parse('2026-07-10T05:00:00Z');
const ZONE = 'America/Chicago';
/** The local hours of a summer day, each with what a test says of it. */
const day = (of: (hour: number) => Partial<PlanHour> = () => ({})): PlanHour[] =>
  Array.from({ length: 24 }, (_, hour) => ({
    fromMs: MIDNIGHT_MS + hour * HOUR_MS,
    toMs: MIDNIGHT_MS + (hour + 1) * HOUR_MS,
    ...of(hour),
  }));

function closed(
  signals: Partial<Record<SignalId, number>>,
  hours: PlanHour[],
  more: Partial<SafetyExtras> = {},
): [hazard: string, from: string, to: string][] {
  const conditions = dayOf(signals, 'forecast', '2026-07-10T10:00:00Z');
  const extras: SafetyExtras = { alerts: [], alertsChecked: true, belowDam: false, hours, ...more };
  const safety = judgeSafety(conditions, rules.safety, extras);
  const clock = clockOf(ZONE);
  const { closed: found } = closuresOf({
    conditions,
    hours,
    safety,
    table: rules.safety,
    extras,
    closesFromLevel: 3,
    clock,
    day: { fromMs: MIDNIGHT_MS + 5 * HOUR_MS, toMs: MIDNIGHT_MS + 20 * HOUR_MS },
  });
  return found.map(({ hazard, fromMs, toMs }) => [hazard, clock.at(fromMs), clock.at(toMs)]);
}

describe('hours that a hazard closes', () => {
  it('of heat that is only known as the day’s highest are those its row names, from the first to before the last', () => {
    const row = rules.safety.hazards.find(({ id }) => id === 'hot-air')!;
    expect(row.avoidHours).toEqual([11, 20]);
    const spans = closed({ airMaxTodayC: 45, waterC: 28 }, day()).filter(([id]) => id === row.id);
    expect(spans).toEqual([[row.id, '11:00', '20:00']]);
  });

  it('of wind are its own: the hour before and the hour after stay open', () => {
    const spans = closed(
      { windMs: 3, windMaxMs: 16, waterC: 25, airMaxTodayC: 28 },
      day((hour) => ({ windMs: hour >= 13 && hour < 16 ? 16 : 3 })),
    );
    expect(spans.filter(([id]) => id === 'wind')).toEqual([['wind', '13:00', '16:00']]);
  });

  it('that touch are one stretch, and those apart are two', () => {
    const spans = closed(
      { windMs: 3, windMaxMs: 16, waterC: 25, airMaxTodayC: 28 },
      day((hour) => ({ windMs: [9, 10, 12].includes(hour) ? 16 : 3 })),
    );
    expect(spans.filter(([id]) => id === 'wind')).toEqual([
      ['wind', '09:00', '11:00'],
      ['wind', '12:00', '13:00'],
    ]);
  });

  it('are none where no hour of the day has it', () => {
    const calm = { windMs: 3, windMaxMs: 4, waterC: 25, airMaxTodayC: 28, gustMs: 6, thunderPct: 0 };
    expect(
      closed(
        calm,
        day(() => ({ windMs: 3, gustMs: 6, airC: 26, thunderPct: 0 })),
      ),
    ).toEqual([]);
  });
});

describe('a group of rules', () => {
  const { positions } = rules;
  const groupOf = new Map(positions.modifiers.map(({ id, group }) => [id, group]));
  /** Sum of what each group gives each place, by both. */
  function sums(signals: Partial<Record<SignalId, number>>, clamp: number): Map<string, number> {
    const known = knownOf(dayOf(signals, 'forecast', '2026-03-05T12:00:00Z'));
    const scored = scorePlaces(known, phaseMembership(known, rules.phases), {
      ...positions,
      clampDefault: clamp,
      clamps: {},
    });
    const found = new Map<string, number>();
    for (const { place, evidence, total } of scored) {
      expect(evidence.reduce((sum, { contribution }) => sum + contribution, 0)).toBeCloseTo(total, 9);
      for (const { rule, contribution } of evidence) {
        const group = groupOf.get(rule) ?? 'base';
        if (group === 'base') continue;
        const key = `${place} ${group}`;
        found.set(key, (found.get(key) ?? 0) + contribution);
      }
    }
    return found;
  }
  const real = (min: number, max: number) => fc.double({ min, max, noNaN: true });
  const weather = fc.record({
    waterC: real(3, 32),
    waterChange3dC: real(-3, 3),
    waterChange7dC: real(-5, 5),
    warmingDays: fc.integer({ min: -6, max: 6 }),
    airTrend3dCPerDay: real(-4, 4),
    airDrop24hC: real(0, 14),
    windMs: real(0, 14),
    cloudPct: real(0, 100),
    rain24Mm: real(0, 80),
    rain72Mm: real(0, 120),
    level24hM: real(-1, 1),
    dayLengthH: real(9.5, 14.5),
    dayLengthChangeHPerWeek: real(-0.3, 0.3),
    clarityM: real(0.1, 5),
  });

  it('gives no place more than its clamp, either way, and often would', () => {
    let over = 0;
    fc.assert(
      fc.property(weather, (signals) => {
        const clamped = sums(signals, 0.8);
        const free = sums(signals, 1e9);
        for (const [key, sum] of clamped) {
          expect(Math.abs(sum)).toBeLessThanOrEqual(0.8 + 1e-9);
          // Below the clamp nothing is taken away, above it all of the clamp is given.
          const without = free.get(key) ?? NaN;
          expect(sum).toBeCloseTo(Math.sign(without) * Math.min(0.8, Math.abs(without)), 9);
          if (Math.abs(without) > 0.8) over += 1;
        }
      }),
      { numRuns: 60 },
    );
    expect(over).toBeGreaterThan(50);
  });
});

describe('the tendency', () => {
  const warming = { warmingDays: 5, airTrend3dCPerDay: 3, waterChange3dC: 2 };
  const of = (...days: Partial<Record<SignalId, number>>[]) =>
    advise(dayOf(COLD_DAY, 'forecast', '2026-03-05T12:00:00Z'), rules, {
      tackle: TACKLE,
      ahead: days.map((signals, index) => {
        const date = `2026-03-${String(6 + index).padStart(2, '0')}`;
        return {
          date,
          lead: index + 1,
          conditions: dayOf({ ...COLD_DAY, ...signals }, 'forecast', `${date}T12:00:00Z`),
        };
      }),
    }).tendency!;

  it('goes by the next three days: the fourth, however warm, is told of by itself', () => {
    const far = of({}, {}, {}, warming, warming, warming, warming);
    expect(far.word).toBe('steady');
    expect(far.because).toEqual({ code: 'noChange' });
    expect(far.days.map(({ word }) => word)).toEqual([
      'steady',
      'steady',
      'steady',
      'improving',
      'improving',
      'improving',
      'improving',
    ]);
    expect(of({}, warming, warming).word).toBe('improving');
  });

  it('takes the days in the order they come, whatever the order they are given in', () => {
    const found = of(warming, {}, {}, {});
    expect(found.days.map(({ word }) => word)).toEqual(['improving', 'steady', 'steady', 'steady']);
    expect(found.bestDay?.date).toBe('2026-03-06');
    expect(found.days[0]?.because.code).toBe('setsIn');
  });

  it('names no best day where two are alike', () => {
    expect(of(warming, warming, {}).bestDay).toBeUndefined();
  });
});
