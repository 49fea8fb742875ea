// Sizes are common practice, no source, unless a check's own file names one.
import { describe, expect, it } from 'vitest';
import { judgeSeries } from '../../src/record/quality/index.ts';
import type { Observation } from '../../src/record/index.ts';
import { HOUR, hourly, row, START, wave } from './rows.ts';

/** Reasons by hour from START of the first series. */
function doubts(...series: Observation[][]): Map<number, string> {
  const judged = judgeSeries(series)[0] ?? [];
  return new Map(
    judged.flatMap((o) => (o.doubt === undefined ? [] : [[(o.atMs - START) / HOUR, o.doubt.code]])),
  );
}

const hours = (found: Map<number, string>) => [...found.keys()];
const range = (from: number, to: number) => Array.from({ length: to - from }, (_, i) => from + i);

describe('a healthy sensor', () => {
  it.each([
    ['water near the surface', hourly(wave(240, 12, 1.5))],
    ['air', hourly(wave(240, 10, 8), { variable: 'air_temp' })],
    [
      'a lake that rises a metre a day',
      hourly(
        range(0, 240).map((h) => 200 + h / 24),
        { variable: 'level' },
      ),
    ],
    ['a calm night', hourly(new Array<number>(30).fill(0), { variable: 'wind_speed' })],
    ['fog', hourly(new Array<number>(60).fill(100), { variable: 'humidity' })],
  ])('is believed: %s', (_, rows) => {
    expect(doubts(rows)).toEqual(new Map());
  });
});

describe('spikes', () => {
  it('doubts a lone excursion and not its neighbours, and keeps the raw value', () => {
    const values = wave(48, 12, 1);
    values[20] = 25;
    const [judged = []] = judgeSeries([hourly(values)]);
    expect(hours(doubts(hourly(values)))).toEqual([20]);
    expect(judged[20]).toMatchObject({ value: 25, doubt: { code: 'doubt.spike' } });
  });

  it('waits for a second value before it believes a sudden step of the water', () => {
    const values = [...wave(48, 12, 1), 18];
    expect(doubts(hourly(values)).get(48)).toBe('doubt.unconfirmed');
    expect(doubts(hourly([...values, 18])).has(48)).toBe(false);
  });

  it('waits for a second value before it believes that a lake rose by two metres within the hour', () => {
    const before = new Array<number>(48).fill(200);
    const level = (...after: number[]) => doubts(hourly([...before, ...after], { variable: 'level' }));
    expect([...level(202)]).toEqual([[48, 'doubt.unconfirmed']]);
    expect(level(202, 202.1)).toEqual(new Map());
    expect([...level(202, 200).keys()]).toEqual([48]);
  });

  it('believes at once what a fast flood rises by within the hour, and a turbine from its second value on', () => {
    const level = (...after: number[]) =>
      doubts(hourly([...new Array<number>(48).fill(200), ...after], { variable: 'level' }));
    expect(level(200.8, 201.7)).toEqual(new Map());
    expect(level(201.4, 201.5, 201.5)).toEqual(new Map());
    expect([...level(202, 204).keys()]).toEqual([49]);
  });
});

describe('stuck sensors', () => {
  it('doubts the whole run once it is too long', () => {
    const values = [...wave(24, 12, 1), ...new Array<number>(97).fill(11.5)];
    expect(hours(doubts(hourly(values)))).toEqual(range(24, 121));
    expect(doubts(hourly(values.slice(0, 110)))).toEqual(new Map());
  });
});

describe('a thermometer out of the water', () => {
  it('is known by its daily range, on those days only', () => {
    // Dry sensors showed 11 to 17 K a day in winter, wet ones 0.4 to 3 K.
    const values = [...wave(48, 8, 1, 0), ...wave(48, 8, 5.5, 0)];
    const found = doubts(hourly(values));
    expect(hours(found)).toEqual(range(48, 96));
    expect(found.get(60)).toBe('doubt.dryRange');
  });

  it('is known by following the air even when the day is mild', () => {
    const air = hourly(wave(72, 10, 3, 0), { variable: 'air_temp', source: 'nws' });
    const dry = hourly(wave(72, 10.2, 2.7, 0));
    expect(doubts(dry, air).get(30)).toBe('doubt.tracksAir');
    expect(doubts(dry)).toEqual(new Map());
  });

  it('is not a shallow cove that lags behind the air', () => {
    const air = hourly(wave(72, 10, 6, 0), { variable: 'air_temp', source: 'nws' });
    const cove = hourly(
      wave(75, 12, 2.4, 0)
        .slice(0, 72)
        .map((_, h) => 12 + 2.4 * Math.sin(((h - 13) * Math.PI) / 12)),
    );
    expect(doubts(cove, air)).toEqual(new Map());
  });

  it('is seen on the unfinished day too', () => {
    const rows = hourly(wave(48 + 16, 8, 5.5, 0).map((v, h) => (h < 48 ? 8 + 0.01 * h : v)));
    expect(hours(doubts(rows))).toContain(63);
  });
});

describe('datum jumps', () => {
  const lake = (shift: number, from: number, length = 96) =>
    hourly(
      range(0, length).map((h) => 200 + 0.002 * h + (h >= from ? shift : 0)),
      { variable: 'level' },
    );

  it('doubts what lies before a lasting step, since it cannot be compared', () => {
    const found = doubts(lake(0.45, 48));
    expect(hours(found)).toEqual(range(0, 48));
    expect(found.get(0)).toBe('doubt.datumJump');
  });

  it('leaves a step of less than a day alone, lest it hide a flood', () => {
    expect(doubts(lake(0.45, 80))).toEqual(new Map());
  });

  it('leaves turbines alone that come and go', () => {
    const values = range(0, 96).map((h) => 200 + (h % 24 >= 8 && h % 24 < 14 ? 1 : 0) + 0.001 * h);
    expect(doubts(hourly(values, { variable: 'level' }))).toEqual(new Map());
  });
});

describe('copies and mixtures', () => {
  it('doubts a day that repeats the day before to the last digit', () => {
    const day = wave(24, 12, 1);
    const rows = hourly([...wave(24, 11, 1.1), ...day, ...day]);
    expect(hours(doubts(rows))).toEqual(range(48, 72));
  });

  it('does not take a dry day after a dry day for a copy', () => {
    const rain = hourly(new Array<number>(72).fill(0), { variable: 'rain', periodS: 3600 });
    expect(doubts(rain)).toEqual(new Map());
  });

  it('doubts two depths written as one series', () => {
    const values = [...wave(24, 20, 0.5), ...range(0, 24).map((h) => (h % 2 === 0 ? 20 : 14))];
    const found = doubts(hourly(values));
    expect([...found.values()].every((reason) => reason === 'doubt.twoDepths')).toBe(true);
    expect(found.size).toBeGreaterThanOrEqual(22);
    expect(Math.min(...hours(found))).toBeGreaterThanOrEqual(20);
  });
});

describe('what is left alone', () => {
  it('keeps the doubt that the service itself stated', () => {
    const rows = [row({ value: -9999, doubt: { code: 'doubt.stated', text: 'ice' } })];
    expect(judgeSeries([rows])[0]?.[0]?.doubt).toEqual({ code: 'doubt.stated', text: 'ice' });
  });

  it('judges a model only by what is possible', () => {
    const flat = hourly(new Array<number>(200).fill(9), { kind: 'model', variable: 'air_temp' });
    expect(doubts(flat)).toEqual(new Map());
    expect(doubts([row({ kind: 'model', variable: 'air_temp', value: 99 })]).size).toBe(1);
  });

  it('judges by what was known at the instant: the view of yesterday does not change today', () => {
    const values = [...wave(48, 12, 1), 18, 18, 18];
    const upTo = (h: number) => doubts(hourly(values).filter((o) => o.atMs <= START + h * HOUR));
    expect(upTo(48).has(48)).toBe(true);
    expect(upTo(49).has(48)).toBe(false);
  });
});
