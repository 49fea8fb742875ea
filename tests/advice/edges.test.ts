/** Edges that a small slip would move unseen. */
import { describe, expect, it } from 'vitest';
import { advise } from '../../src/advice/index.ts';
import { phaseMembership } from '../../src/advice/phase.ts';
import { leadBetween } from '../../src/advice/positions/lead.ts';
import { scorePlaces } from '../../src/advice/positions/score.ts';
import { knownOf } from '../../src/advice/rules/known.ts';
import type { HourPoint, SignalId } from '../../src/signals/types.ts';
import { sayAdvice } from '../../src/words/index.ts';
import { COLD_DAY, dayOf, rules, TACKLE } from './support.ts';

const day = (signals: Partial<Record<SignalId, number>>, date = '2026-07-10') =>
  dayOf(signals, 'forecast', `${date}T09:00:00Z`);

describe('hours that heat takes out', () => {
  const hot = { waterC: 30, waterChange7dC: 0, dayLengthH: 14.4, cloudPct: 5, windMs: 1, airMaxTodayC: 40 };
  const hours = (first: number, last: number): HourPoint[] =>
    Array.from({ length: last - first + 1 }, (_, index) => ({
      atMs: Date.parse('2026-07-10T05:00:00Z') + (first + index) * 3_600_000,
      sunAltitudeDeg: 10,
      forecast: true,
    }));
  const bluff = (first: number, last: number) =>
    advise(dayOf(hot, 'forecast', '2026-07-10T05:00:00Z'), rules, {
      tackle: TACKLE,
      hours: hours(first, last),
    }).positions.find(({ place }) => place === 'bluff')!;

  it('begin with the first hour named and not an hour later', () => {
    expect(bluff(6, 18)).toMatchObject({ hours: [6, 11], bound: 'cool', period: 'earlier' });
  });

  it('end before the hour named', () => {
    expect(bluff(12, 23)).toMatchObject({ hours: [20, 24], bound: 'cool', period: 'later' });
  });
});

describe('the outlook', () => {
  const warming = { warmingDays: 4, airTrend3dCPerDay: 2, waterChange3dC: 1.5 };
  const ahead = (...more: Partial<Record<SignalId, number>>[]) =>
    more.map((signals, index) => {
      const date = `2026-03-${String(6 + index).padStart(2, '0')}`;
      return { date, lead: index + 1, conditions: day({ ...COLD_DAY, ...signals }, date) };
    });
  const tendency = (...more: Partial<Record<SignalId, number>>[]) =>
    advise(day(COLD_DAY, '2026-03-05'), rules, { tackle: TACKLE, ahead: ahead(...more) }).tendency!;

  it('is told for a week and no longer', () => {
    expect(tendency(...Array.from({ length: 9 }, () => ({}))).days).toHaveLength(7);
  });

  it('has its word from the next three days: what comes later is told on its own day only', () => {
    const found = tendency({}, {}, {}, warming, warming);
    expect(found.word).toBe('steady');
    expect(found.days[3]!.word).toBe('improving');
    expect(tendency({}, {}, warming).word).not.toBe('declining');
  });

  it('tells each day’s danger, and chooses no dangerous day however good', () => {
    const stormy = { ...warming, thunderPct: 70 };
    const found = tendency({}, stormy, {});
    expect(found.days[1]).toMatchObject({ word: 'improving', level: 4, hazard: { id: 'lightning' } });
    expect(found.bestDay).toBeUndefined();
    expect(tendency({}, warming, {}).bestDay?.date).toBe('2026-03-07');
  });

  it('names a turn of the air of 6 K and more, with the day it is done by, and none below', () => {
    const air = (c: number) => ({ airMean24hC: c });
    const of = (...means: number[]) =>
      advise(day({ ...COLD_DAY, ...air(12) }, '2026-03-05'), rules, {
        tackle: TACKLE,
        ahead: ahead(...means.map(air)),
      });
    const found = of(12, 5, 5);
    expect(found.tendency!.days.flatMap(({ turns }) => turns)).toMatchObject([
      { code: 'airFalls', changeC: 7, byDate: '2026-03-07' },
    ]);
    expect(JSON.stringify(sayAdvice(found, rules.text).tendency!.days)).toMatch(
      /air down \{\{temperatureDifference:7\}\} by Sat/,
    );
    expect(of(12, 6.2, 6.2).tendency!.days.flatMap(({ turns }) => turns)).toEqual([]);
  });
});

describe('a group of rules', () => {
  const wet = {
    ...COLD_DAY,
    rain72Mm: 60,
    rain24Mm: 50,
    hoursSinceRain: 4,
    runoffC: 16,
    rainAirC: 16,
    pocketMinusMainC: 7,
    pocketMeanMinusMainC: 5,
    pocketDawnMinusMainC: 4,
    pocketRenewedShare: 1,
    pocketBuoyancy: 1,
    pocketHalfLifeH: 40,
  };
  const groups = new Map(rules.positions.modifiers.map(({ id, group }) => [id, group]));
  const sums = (book: typeof rules.positions) => {
    const known = knownOf(day(wet, '2026-03-05'));
    const scored = scorePlaces(known, phaseMembership(known, rules.phases), book);
    return scored.flatMap(({ evidence }) => {
      const of = new Map<string, number>();
      for (const { rule, contribution } of evidence) {
        const group = groups.get(rule);
        if (group !== undefined) of.set(group, (of.get(group) ?? 0) + contribution);
      }
      return [...of].map(([group, sum]) => ({ group, sum }));
    });
  };
  const limit = (group: string): number => rules.positions.clamps[group] ?? rules.positions.clampDefault;

  it('adds no more than its clamp, however many of its rules speak', () => {
    for (const { group, sum } of sums(rules.positions)) {
      expect(Math.abs(sum), group).toBeLessThanOrEqual(limit(group) + 1e-9);
    }
  });

  it('is cut by that clamp on such a day, not by chance', () => {
    const free = sums({ ...rules.positions, clampDefault: 99, clamps: {} });
    expect(free.some(({ group, sum }) => Math.abs(sum) > limit(group) + 0.1)).toBe(true);
  });
});

describe('the lead along a signal', () => {
  it('is what scoring both places anew would give', () => {
    const known = knownOf(
      day({ ...COLD_DAY, pocketMinusMainC: 2, rain72Mm: 20, runoffC: 11, hoursSinceRain: 10 }, '2026-03-05'),
    );
    const anew = (signal: SignalId, value: number, first: string, second: string): number => {
      const then = { ...known, signals: { ...known.signals, [signal]: value } };
      const scored = scorePlaces(then, phaseMembership(then, rules.phases), rules.positions);
      const of = (place: string): number => scored.find((entry) => entry.place === place)!.total;
      return of(first) - of(second);
    };
    const cases: [SignalId, number, number][] = [
      ['waterC', 3, 28],
      ['windMs', 0, 12],
      ['pocketMinusMainC', -3, 6],
      ['rain72Mm', 0, 70],
      ['cloudPct', 0, 100],
      ['hoursSinceRain', 0, 90],
    ];
    for (const [signal, from, to] of cases) {
      for (const [first, second] of [
        ['inflow', 'pocket'],
        ['bluff', 'flat'],
        ['main_point', 'secondary_point'],
      ] as const) {
        const leadAt = leadBetween(known, rules, first, second)(signal);
        for (let step = 0; step <= 5; step += 1) {
          const value = from + ((to - from) * step) / 5;
          expect(leadAt(value), `${signal} ${value}`).toBeCloseTo(anew(signal, value, first, second), 9);
        }
      }
    }
  });
});

describe('reasons', () => {
  const because = (signals: Partial<Record<SignalId, number>>, place: string, date = '2026-01-20') => {
    const advice = advise(dayOf(signals, 'observed', `${date}T12:00:00Z`), rules, { tackle: TACKLE });
    const found = sayAdvice(advice, rules.text).positions.find((position) => position.place === place)!;
    return [...found.because, found.limitedBy].join(' ');
  };
  const winter = { waterC: 6, waterChange7dC: -0.3, dayLengthH: 10, dayLengthChangeHPerWeek: 0.1 };

  it('do not call runoff colder than the lake where it is warmer', () => {
    const warm = { ...winter, runoffC: 9, rain72Mm: 25, hoursSinceRain: 10 };
    expect(because(warm, 'inflow')).not.toMatch(/colder than the lake/);
    expect(because({ ...warm, runoffC: 3 }, 'inflow')).toMatch(/colder than the lake/);
  });

  it('do not warm rock in the sun under cloud', () => {
    const spring = { ...winter, waterC: 9, dayLengthH: 11.3, dayLengthChangeHPerWeek: 0.25, airMean24hC: 10 };
    expect(because({ ...spring, cloudPct: 95 }, 'riprap', '2026-03-01')).not.toMatch(/sun/i);
  });

  it('do not let females hold before nesting in July', () => {
    const july = { waterC: 28, waterChange7dC: 0.2, dayLengthH: 14.3, dayLengthChangeHPerWeek: -0.1 };
    expect(because(july, 'secondary_point', '2026-07-15')).not.toMatch(/nesting/);
  });
});
