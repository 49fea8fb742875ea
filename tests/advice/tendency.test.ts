import { describe, expect, it } from 'vitest';
import type { HourPoint, SignalId } from '../../src/signals/types.ts';
import {
  adviceFor,
  adviseInWords as advise,
  COLD_DAY,
  dayOf,
  figureOf,
  rules,
  table,
  TACKLE,
} from './support.ts';

const day = (signals: Partial<Record<SignalId, number>>, date = '2026-03-05') =>
  dayOf(signals, 'forecast', `${date}T12:00:00Z`);
const ahead = (...days: Partial<Record<SignalId, number>>[]) =>
  days.map((signals, index) => {
    const date = `2026-03-${String(6 + index).padStart(2, '0')}`;
    return { date, lead: index + 1, conditions: day({ ...COLD_DAY, ...signals }, date) };
  });
const tendency = (...days: Partial<Record<SignalId, number>>[]) =>
  advise(day(COLD_DAY), rules, { tackle: TACKLE, ahead: ahead(...days) }).tendency!;

describe('the tendency of the coming days (common practice, no source)', () => {
  it('improves on a cold lake with a warming forecast, and names the best day', () => {
    const found = tendency(
      { warmingDays: 1, airTrend3dCPerDay: 0.5 },
      { warmingDays: 2, airTrend3dCPerDay: 1.5, waterChange3dC: 0.5 },
      { warmingDays: 4, airTrend3dCPerDay: 2, waterChange3dC: 1.5 },
    );
    expect(found.word).toBe('improving');
    expect(found.because).toMatch(/warming/);
    expect(found.bestDay?.date).toBe('2026-03-08');
    expect(found.trigger).toMatch(/front|drop|cold/);
  });

  it('declines behind a front', () => {
    const found = tendency(
      { airDrop24hC: 9, warmingDays: -1 },
      { warmingDays: -2, airTrend3dCPerDay: -2, waterChange3dC: -1 },
    );
    expect(found.word).toBe('declining');
    expect(found.days.every(({ word }) => word === 'declining')).toBe(true);
    expect(found.bestDay).toBeUndefined();
  });

  it('is steady, and says so, when nothing changes', () => {
    const found = tendency({}, {}, {});
    expect(found.word).toBe('steady');
    expect(found.because).toMatch(/no significant change/);
    expect(found.bestDay).toBeUndefined();
  });

  it('covers one to seven days and no more', () => {
    expect(tendency({}).days).toHaveLength(1);
    expect(tendency({}, {}, {}, {}, {}, {}, {}, {}, {}).days).toHaveLength(7);
  });
});

describe('the day’s hours', () => {
  const sunny = { ...COLD_DAY, cloudPct: 5, warmingDays: 3 };
  /** Local hours 5 to 19 in Chicago (UTC-6), pocket warmest at 15. */
  const hours: HourPoint[] = Array.from({ length: 15 }, (_, index) => ({
    atMs: Date.parse('2026-03-05T11:00:00Z') + index * 3_600_000,
    sunAltitudeDeg: 45 * Math.sin((Math.PI * (index - 1)) / 12),
    pocketMinusMainC: 1 + 3 * Math.exp(-(((index - 10) / 3) ** 2)),
    windMs: 2,
    forecast: true,
  }));

  it('put sun-warmed pockets later in the day, with the warmest hours named', () => {
    const pocket = advise(day(sunny), rules, { tackle: TACKLE, hours }).positions.find(
      ({ place }) => place === 'pocket',
    )!;
    expect(pocket.period).toBe('later');
    expect(pocket.hours![0]).toBeGreaterThanOrEqual(12);
    expect(pocket.hours![0]).toBeLessThanOrEqual(15);
    expect(pocket.hours![1]).toBeGreaterThan(pocket.hours![0]);
  });

  it('put summer flats early', () => {
    const summer = day(
      {
        waterC: 28,
        waterChange7dC: 0,
        dayLengthH: 14.3,
        dayLengthChangeHPerWeek: -0.05,
        cloudPct: 10,
        windMs: 2,
      },
      '2026-07-10',
    );
    const flat = advise(summer, rules, { tackle: TACKLE }).positions.find(({ place }) => place === 'flat')!;
    expect(flat.period).toBe('earlier');
  });

  it('name the lake’s own places', () => {
    const advice = advise(day(sunny), rules, {
      tackle: TACKLE,
      pockets: [{ name: 'Mill Draw' }],
      points: [{ name: 'Cedar Point', place: 'main_point', bankDeg: 22 }],
    });
    const of = (place: string) => advice.positions.find((position) => position.place === place);
    expect(of('pocket')?.named).toBe('Mill Draw');
    expect(of('main_point')?.named).toBe('Cedar Point');
    expect(of('main_point')?.bankDeg).toBe(22);
    expect(of('bluff')?.named).toBeUndefined();
  });
});

describe('what would swap first and second', () => {
  it('gives the smallest change of one known signal, and that change does swap them', () => {
    const conditions = day({
      ...COLD_DAY,
      waterC: 10,
      level24hM: 0,
      clarityM: 1.5,
      pocketMinusMainC: 1,
      rain72Mm: 0,
    });
    const before = advise(conditions, rules, { tackle: TACKLE });
    const { swap } = before;
    expect(swap).not.toBeNull();
    const changed = {
      ...conditions,
      signals: { ...conditions.signals, [swap!.signal]: figureOf(swap!.to, 'forecast') },
    };
    const after = advise(changed, rules, { tackle: TACKLE });
    const rank = (place: string) => after.positions.findIndex((position) => position.place === place);
    expect(rank(before.positions[1]!.place)).toBeLessThan(rank(before.positions[0]!.place));
    expect(swap!.sentence).toContain(before.positions[1]!.name);
  });

  it('stays within a day’s reach, and beyond what a reading cannot tell apart (common practice, no source)', () => {
    const swaps = table.scenarios.flatMap(({ conditions }) => adviceFor(conditions).swap ?? []);
    expect(swaps.length).toBeGreaterThan(5);
    for (const { code, signal, from, to } of swaps) {
      const matter = rules.positions.matters.find((one) => one.signal === signal);
      expect(Math.abs(to - from), signal).toBeGreaterThanOrEqual(matter!.noise - 1e-9);
      if (code === 'changed') expect(Math.abs(to - from), signal).toBeLessThanOrEqual(matter!.reach! + 1e-9);
    }
  });
});
