/** What the advice says of a day, as sentences a reader can believe. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { SignalId } from '../../src/signals/types.ts';
import { expandQuantities } from '../../src/units/placeholder.ts';
import { advice as words } from '../../src/words/en/advice.ts';
import { say } from '../../src/words/index.ts';
import { adviseInWords as advise, COLD_DAY, dayOf, rules, TACKLE } from './support.ts';

const day = (signals: Partial<Record<SignalId, number>>, date = '2026-03-05') =>
  dayOf(signals, 'observed', `${date}T11:00:00Z`);
const known = {
  ...COLD_DAY,
  level24hM: 0,
  level72hM: 0,
  clarityM: 1.5,
  pocketMinusMainC: 1,
  pocketRenewedShare: 0,
  rain72Mm: 0,
};
const us = (text: string): string => expandQuantities(text, 'us');

describe('the tendency compares only what is known on both days', () => {
  const ahead = (signals: Partial<Record<SignalId, number>>) => [
    { date: '2026-03-06', lead: 1, conditions: day(signals, '2026-03-06') },
  ];
  const without = (...ids: SignalId[]) =>
    Object.fromEntries(Object.entries(known).filter(([id]) => !ids.includes(id as SignalId)));

  it('does not take a level without a forecast for the end of its fall', () => {
    const today = { ...known, level24hM: -0.3 };
    const found = advise(day(today), rules, { tackle: TACKLE, ahead: ahead(without('level24hM')) }).tendency!;
    expect(found.word).toBe('steady');
    expect(found.bestDay).toBeUndefined();
    expect(JSON.stringify(found)).not.toMatch(/falling water/);
  });

  it('does not take air without a forecast for the end of warming', () => {
    const today = { ...known, warmingDays: 4, airTrend3dCPerDay: 2 };
    const then = without('warmingDays', 'airTrend3dCPerDay');
    expect(advise(day(today), rules, { tackle: TACKLE, ahead: ahead(then) }).tendency!.word).toBe('steady');
  });

  it('speaks of no cold lake where the lake is warm', () => {
    const spring = { ...known, waterC: 19.4, dayLengthH: 13.6, waterChange7dC: 3 };
    const options = { tackle: TACKLE, ahead: ahead({ ...spring, warmingDays: 4, airTrend3dCPerDay: 2 }) };
    expect(advise(day(spring), rules, options).tendency!.because).toBe('warming days');
  });

  it('says that warming eases, not that it ends, where some of it is left', () => {
    const today = { ...known, warmingDays: 4, airTrend3dCPerDay: 2, waterChange3dC: 1.5 };
    const options = { tackle: TACKLE, ahead: ahead({ ...known, warmingDays: 1, waterChange3dC: 1 }) };
    const found = advise(day(today), rules, options).tendency!;
    expect(found.word).toBe('declining');
    expect(found.because).toMatch(/less so than today/);
  });

  it('is not worse through a small dip while the air stays far warmer than the lake', () => {
    const today = { ...known, warmingDays: 4, airTrend3dCPerDay: 1, waterChange3dC: 1, airMean3dC: 13 };
    const then = { ...known, warmingDays: -1, airTrend3dCPerDay: 0.4, waterChange3dC: 1, airMean3dC: 13.5 };
    const options = { tackle: TACKLE, ahead: ahead(then) };
    expect(advise(day(today), rules, options).tendency!.word).toBe('steady');
  });
});

describe('what would swap the first two', () => {
  const swapped = (signal: SignalId, to: number, from: number): string =>
    us(
      say(words.swap(rules.text), { code: 'changed', signal, to, from, first: 'dock', second: 'flat' }),
    ).replace(/, [^,]* would come before .*/, '');

  it('says a signed change by its verb', () => {
    expect(swapped('level24hM', -0.12, 0.12)).toBe(
      'Had the lake fallen 0.4 ft in a day instead of rising 0.4 ft',
    );
    expect(swapped('airDrop24hC', 5, 0)).toBe('Had the air cooled 9 °F in a day instead of holding steady');
    expect(swapped('warmingDays', 3, -1.2)).toBe('With 3 warming days in a row instead of 1 cooling day');
    expect(swapped('pocketMinusMainC', -1, 2)).toBe(
      'If the pockets were 2 °F colder than the main lake instead of 4 °F warmer',
    );
  });

  it('never names the same printed value twice, in either unit system', () => {
    const signals = fc.record({
      waterC: fc.double({ min: 3, max: 31, noNaN: true }),
      warmingDays: fc.integer({ min: -6, max: 9 }),
      level24hM: fc.double({ min: -0.5, max: 0.5, noNaN: true }),
      pocketMinusMainC: fc.double({ min: -3, max: 5, noNaN: true }),
      clarityM: fc.double({ min: 0.2, max: 4, noNaN: true }),
      windMs: fc.double({ min: 0, max: 11, noNaN: true }),
    });
    let told = 0;
    fc.assert(
      fc.property(signals, (varied) => {
        const { swap } = advise(day({ ...known, ...varied }), rules, { tackle: TACKLE });
        if (swap === null) return;
        told += 1;
        for (const units of ['us', 'metric'] as const) {
          const text = expandQuantities(swap.sentence, units);
          const pair = /(?:were |With )(.+) instead of (.+?),/.exec(text);
          if (pair !== null) expect(pair[1]).not.toBe(pair[2]);
          expect(text).not.toMatch(/(risen|fallen|warmed|cooled) 0(\.0+)? /);
        }
      }),
      { numRuns: 60, seed: 7 },
    );
    expect(told).toBeGreaterThan(5);
  });
});

describe('the season', () => {
  it('is told by the calendar only where the lake is unknown', () => {
    const { because } = advise(day({ dayLengthH: 10.2 }, '2026-01-20'), rules, { tackle: TACKLE }).phase;
    expect(because).toMatch(/^By the calendar only: the day is 10\.2 hours long/);
    expect(because).not.toMatch(/cold|warm/i);
  });

  it('needs no sentence of more than twenty-five words', () => {
    const { because } = advise(day(known), rules, { tackle: TACKLE }).phase;
    for (const sentence of us(because).split(/(?<=\.) /)) {
      expect(sentence.split(' ').length).toBeLessThanOrEqual(25);
    }
    expect(us(because)).toContain(', and the day is 11.4 hours long.');
  });
});

describe('the confidence', () => {
  const sure = { ...known, runoffC: 8, hoursSinceRain: 40, lowLightShare: 0.3 };
  const of = (signals: Partial<Record<SignalId, number>>) =>
    advise(day(signals), rules, { tackle: TACKLE }).confidence;
  const noLevel = Object.fromEntries(Object.entries(sure).filter(([id]) => id !== 'level24hM'));

  it('is not high while the level is unknown', () => {
    expect(of(sure).word).toBe('high');
    expect(of(noLevel).word).toBe('medium');
    expect(of(noLevel).because).toContain('unknown: level change in a day');
  });

  it('does not name what hardly counts, and puts what is clear first', () => {
    expect(of(sure).because).not.toContain('current');
    expect(of(sure).because).toMatch(/^[^;]*is clear/);
  });
});
