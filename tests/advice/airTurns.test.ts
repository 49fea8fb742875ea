import { describe, expect, it } from 'vitest';
import { airTurns, airTurnsOfDays } from '../../src/advice/airTurns.ts';
import type { Config } from '../../src/config/types.ts';
import { adviseFrom } from '../../src/schedule/advice.ts';
import { readSignals } from '../../src/signals/index.ts';
import type { HourPoint } from '../../src/signals/types.ts';
import { recordView, testLake } from '../helpers/weatherRecord.ts';
import { rules, TACKLE } from './support.ts';

const HOUR_MS = 3_600_000;
const start = Date.parse('2026-03-08T00:00:00Z');
const dateOf = (atMs: number): string => new Date(atMs).toISOString().slice(0, 10);
/** Days of hours, stamped as a report's are, with their start, with a daily wave of 5 K either way on a base that may change. */
const hours = (days: number, baseC: (hour: number) => number): HourPoint[] =>
  Array.from({ length: 24 * days }, (_, hour) => ({
    atMs: start + hour * HOUR_MS,
    airC: baseC(hour) + 5 * Math.sin((2 * Math.PI * (hour - 9)) / 24),
    sunAltitudeDeg: 10,
    forecast: true,
  }));
const turns = (points: HourPoint[]) => airTurns(points, 'UTC', dateOf);

describe('a turn of the air', () => {
  it('is named with the hour in which it comes, its size and the day it is done by', () => {
    // A front at 14:00 on the second day: the air falls 10 K and stays there.
    const [front, ...more] = turns(hours(5, (hour) => (hour >= 24 + 14 ? 4 : 14)));
    expect(more).toEqual([]);
    expect(front!.code).toBe('airFalls');
    expect(new Date(front!.atMs!).toISOString()).toBe('2026-03-09T14:00:00.000Z');
    expect(front!.changeC).toBeCloseTo(10, 5);
    expect(front!.byDate).toBe('2026-03-10');
  });

  it('upward is one too', () => {
    const [rise] = turns(hours(4, (hour) => (hour >= 30 ? 18 : 9)));
    expect(rise).toMatchObject({ code: 'airRises', atMs: start + 30 * HOUR_MS });
  });

  it.each([
    [5.9, 0],
    [6.1, 1],
  ])('of %d K gives %d: six is the least', (size, count) => {
    expect(turns(hours(4, (hour) => (hour >= 40 ? 14 - size : 14)))).toHaveLength(count);
  });

  it('is none in an ordinary daily wave, however large', () => {
    expect(turns(hours(5, () => 12))).toEqual([]);
  });

  it('down and up again is two', () => {
    const found = turns(hours(7, (hour) => (hour >= 40 && hour < 100 ? 3 : 13)));
    expect(found.map(({ code }) => code)).toEqual(['airFalls', 'airRises']);
  });

  it('needs most hours of both days', () => {
    const gappy = hours(3, (hour) => (hour >= 24 ? 4 : 14)).filter((_, index) => index > 12);
    expect(turns(gappy)).toEqual([]);
  });
});

it('a front that the forecast has at 14:00 is told of 14:00', () => {
  const lake = { ...testLake, pockets: [], gauges: [] };
  const front = Date.parse('2026-03-07T20:00:00Z');
  const view = recordView({
    asOf: '2026-03-06T11:15:00Z', // 05:15 at the lake
    pastDays: 16,
    weather: (local) => ({ air: local.toMillis() >= front ? 3 : 14 }),
  });
  const config = { tackle: TACKLE } as unknown as Config;
  const { tendency } = adviseFrom({ config, rules }, lake, view, readSignals(view, lake));
  expect(tendency?.days[0]).toMatchObject({ date: '2026-03-07', turns: [{ code: 'airFalls', atMs: front }] });
});

describe('a turn of the air by days', () => {
  const days = (...means: (number | undefined)[]) =>
    means.map((meanC, index) => ({ date: `2026-03-${String(8 + index).padStart(2, '0')}`, meanC }));

  it('is told on the day after the mean it starts from, without an hour', () => {
    expect(airTurnsOfDays(days(12, 11, 4, 4), 'UTC')).toMatchObject([
      { date: '2026-03-09', code: 'airFalls', atMs: null, changeC: 8, byDate: '2026-03-10' },
    ]);
  });

  it('over two days is one turn', () => {
    expect(airTurnsOfDays(days(12, 8, 4, 4), 'UTC')).toHaveLength(1);
    expect(airTurnsOfDays(days(12, 10, 6.1, 6), 'UTC')).toEqual([]);
  });

  it('is not made up across an unknown day', () => {
    expect(airTurnsOfDays(days(12, undefined, undefined, 2), 'UTC')).toEqual([]);
    expect(airTurnsOfDays(days(12, undefined, 2), 'UTC')).toHaveLength(1);
  });
});
