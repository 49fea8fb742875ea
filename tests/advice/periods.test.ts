/** The part of the day a place is proposed for: in what is left of the day, and outside dangerous heat. */
import { describe, expect, it } from 'vitest';
import { advise, type AdviceOptions } from '../../src/advice/index.ts';
import type { Conditions, Figure, HourPoint, SignalId } from '../../src/signals/types.ts';
import { rules, TACKLE } from './support.ts';

const HOUR_MS = 3_600_000;
const figure = (value: number): Figure => ({
  value,
  kind: 'forecast',
  asOfMs: 0,
  freshness: 'fresh',
  source: { code: 'configuration' },
});
/** An issue at a local clock time of 5 March in Chicago (UTC-6). */
const at = (clock: string, signals: Partial<Record<SignalId, number>>, more = {}): Conditions => ({
  asOfMs: Date.parse(`2026-03-05T${clock}:00-06:00`),
  date: '2026-03-05',
  zone: 'America/Chicago',
  species: 'mixed',
  waterBody: 'highland-reservoir',
  signals: Object.fromEntries(Object.entries(signals).map(([id, value]) => [id, figure(value)])),
  gaps: [],
  ...more,
});
const sunny = {
  waterC: 8.5,
  waterChange7dC: 0.5,
  dayLengthH: 11.4,
  dayLengthChangeHPerWeek: 0.25,
  warmingDays: 3,
  windMs: 2,
  cloudPct: 5,
};
/** The whole local day; sun up from 6 to 18, pocket warmest at the hour given. */
const hours = (warmestHour: number): HourPoint[] =>
  Array.from({ length: 24 }, (_, hour) => ({
    atMs: Date.parse('2026-03-05T06:00:00Z') + hour * HOUR_MS,
    sunAltitudeDeg: 45 * Math.sin((Math.PI * (hour - 6)) / 12),
    pocketMinusMainC: 1 + 3 * Math.exp(-(((hour - warmestHour) / 3) ** 2)),
    windMs: 2,
    forecast: true,
  }));
const places = (conditions: Conditions, options: Omit<AdviceOptions, 'tackle'>) =>
  advise(conditions, rules, { tackle: TACKLE, ...options }).positions;
const pocketOf = (clock: string, warmestHour: number) =>
  places(at(clock, sunny), { hours: hours(warmestHour) }).find(({ place }) => place === 'pocket')!;

describe('the hours of a place', () => {
  it('lie in what is left of the day', () => {
    for (const clock of ['05:15', '09:18', '12:30', '16:05']) {
      const issued = Number(clock.slice(0, 2)) + Number(clock.slice(3)) / 60;
      for (const position of places(at(clock, sunny), { hours: hours(8) })) {
        if (position.hours !== undefined) expect(position.hours[0]).toBeGreaterThanOrEqual(issued);
      }
    }
    expect(pocketOf('09:18', 8).hours![0]).toBe(10);
  });

  it('are the whole rest of the day where nothing sets a part of it apart', () => {
    const point = places(at('12:30', sunny), { hours: hours(15) }).find(({ place }) => place === 'bluff')!;
    expect(point).toMatchObject({ period: 'all_day', bound: 'rest', hours: [13, 19] });
  });

  it('are none, and it is said, when no daylight is left', () => {
    expect(pocketOf('19:30', 15)).toMatchObject({ period: 'all_day', bound: 'dark' });
    expect(pocketOf('19:30', 15).hours).toBeUndefined();
  });

  it('stay whole on an ordinary morning', () => {
    const point = places(at('05:15', sunny), { hours: hours(15) }).find(({ place }) => place === 'bluff')!;
    expect(point.bound).toBeUndefined();
    expect(point.hours).toBeUndefined();
  });
});

describe('dangerous heat', () => {
  const summer = {
    waterC: 30,
    waterChange7dC: 0,
    dayLengthH: 14.3,
    dayLengthChangeHPerWeek: -0.05,
    cloudPct: 5,
    windMs: 1,
    airMaxTodayC: 40,
  };

  it('takes the hottest hours out of every place', () => {
    const found = places(at('05:15', summer), { hours: hours(15) });
    for (const { hours: range, bound } of found) {
      expect(bound).toBe('cool');
      expect(range![1]).toBeLessThanOrEqual(11);
    }
  });

  it('leaves nothing but a word when only hot hours are left', () => {
    // The shipped heat lasts to 20:00 and the invented day ends at 18:00.
    for (const { hours: range, bound } of places(at('11:30', summer), { hours: hours(15) })) {
      expect(range).toBeUndefined();
      expect(bound).toBe('hot');
    }
  });

  it('changes nothing below level 3', () => {
    const found = places(at('05:15', { ...summer, airMaxTodayC: 34 }), { hours: hours(15) });
    expect(found.find(({ place }) => place === 'dock')!.hours![0]).toBeGreaterThanOrEqual(12);
  });
});

describe('a named pocket', () => {
  it('names one kind of place, the better ranked, not two', () => {
    const found = places(at('05:15', sunny), { pockets: [{ name: 'Mill Draw' }] });
    const [better] = found.filter(({ place }) => place === 'pocket' || place === 'inflow');
    expect(found.filter(({ named }) => named === 'Mill Draw')).toEqual([better]);
  });
});
