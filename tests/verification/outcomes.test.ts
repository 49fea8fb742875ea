import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { localDateAt } from '../../src/units/time/localTime.ts';
import { sunOf } from '../../src/signals/index.ts';
import { outcomesOf, verify, type Issue } from '../../src/verification/index.ts';
import { at, DAY, dateOf, hours, HOUR, issue, lake, reading, view } from './kit.ts';

const NOW = at(9, 12);
const water = (day: number, more = {}): Issue => issue(day, { water: [10, 9, 11], ...more });
const THERMOMETER = { source: 'usgs', station: 'USGS-1' };
const STATION = { source: 'nws', station: 'KXYZ' };

describe('water', () => {
  it('is compared with readings taken later that day, beside the last one known at issue', () => {
    const readings = [reading(1, 18, 8), reading(2, 5, 9), reading(2, 10, 11), reading(2, 16, 12)];
    const { water: found } = outcomesOf([water(2)], view(NOW, [], readings), lake);
    expect(found).toEqual([{ date: dateOf(2), said: 10, came: 11.5, held: 9, range: [9, 11] }]);
  });

  it('is not compared with a reading that the issue knew, one of another day, of a pocket, or far down', () => {
    const known = reading(2, 5.25, 9);
    for (const other of [
      known,
      reading(3, 0.5, 12),
      reading(2, 10, 12, { pocket: 'draw' }),
      reading(2, 10, 12, { depthM: 5 }),
    ]) {
      const readings = other === known ? [known] : [known, other];
      expect(outcomesOf([water(2)], view(NOW, [], readings), lake).water).toEqual([]);
    }
  });

  it('says nothing where no earlier reading could have been held, or where the issue gave no estimate', () => {
    const first = [reading(2, 10, 12)];
    expect(outcomesOf([water(2)], view(NOW, [], first), lake).water).toEqual([]);
    const later = [reading(1, 10, 9), ...first];
    expect(outcomesOf([water(2)], view(NOW, [], later), lake).water).toHaveLength(1);
    expect(outcomesOf([issue(2, {})], view(NOW, [], later), lake).water).toEqual([]);
  });

  it('takes the day’s mean of the gauge thermometer, and holds its 24 hours before the issue', () => {
    // 10 °C all of day 1, 12 °C from midnight on: the day's mean is 12; of the 24 h before 05:15, 19 read 10 and 5 read 12.
    const rows = hours('water_temp', 1, 3, (hour) => (hour < 24 ? 10 : 12), THERMOMETER);
    const [found] = outcomesOf([water(2)], view(NOW, rows, [reading(2, 9, 20)]), lake).water;
    expect(found).toMatchObject({ came: 12 });
    expect(found?.held).toBeCloseTo((18 * 10 + 6 * 12) / 24, 9);
  });

  it('waits until the day is over', () => {
    const readings = [reading(1, 18, 8), reading(2, 10, 11)];
    expect(outcomesOf([water(2)], view(at(2, 23), [], readings), lake).water).toEqual([]);
    expect(outcomesOf([water(2)], view(at(3, 0), [], readings), lake).water).toHaveLength(1);
  });
});

describe('level', () => {
  const GAUGE = { source: 'usgs', station: 'USGS-1/00062' };
  // Steady to the issue of day 4, then 1 cm an hour for a day.
  const rows = hours(
    'level',
    1,
    9,
    (hour) => 100 + Math.min(24, Math.max(0, hour - 3 * 24 - 5)) * 0.01,
    GAUGE,
  );
  const stage = hours('level', 9, 9, () => 100, { ...GAUGE, kind: 'forecast', issuedMs: NOW });
  const ahead = (day: number, m: number): Issue => issue(day, { levelAheadM: m });

  it('is compared with what the gauge of the forecast did in the 24 hours after the issue', () => {
    const { level } = outcomesOf([ahead(4, 0.3), ahead(3, 0.3)], view(NOW, [...rows, ...stage]), lake);
    const [fourth, third] = level;
    expect(fourth).toMatchObject({ date: dateOf(4), said: 0.3, held: 0 });
    // Medians of the last three hours at both ends: 0, 0, 0 and 22, 23, 24 cm.
    expect(fourth?.came).toBeCloseTo(0.23, 6);
    expect(Math.abs(fourth?.came ?? 0)).toBeGreaterThan(fourth?.deadBand ?? Infinity);
    expect(Math.abs(third?.came ?? 1)).toBeLessThanOrEqual(third?.deadBand ?? 0);
  });

  it('is silent before the 24 hours are over, without an outlook, and where no gauge has a forecast', () => {
    const all = [...rows, ...stage];
    expect(outcomesOf([ahead(6, 0.1)], view(at(7, 5), all), lake).level).toEqual([]);
    expect(outcomesOf([ahead(6, 0.1)], view(at(7, 5.5), all), lake).level).toHaveLength(1);
    expect(outcomesOf([issue(4, {})], view(NOW, all), lake).level).toEqual([]);
    expect(outcomesOf([ahead(4, 0.3)], view(NOW, rows), lake).level).toEqual([]);
  });

  it('is not judged by another gauge than the one forecast', () => {
    const other = rows.map((row) => ({ ...row, station: 'USGS-2' }));
    expect(outcomesOf([ahead(4, 0.3)], view(NOW, [...other, ...stage]), lake).level).toEqual([]);
  });
});

describe('the water three days ahead', () => {
  const made = issue(4, { water: [9, 8, 10] });
  const [first] = made.series.days;
  const told: Issue = {
    ...made,
    series: {
      ...made.series,
      days: [{ ...first!, date: dateOf(7), forecast: true, waterC: 12, waterLowC: 10, waterHighC: 14 }],
    },
  };
  const readings = [reading(4, 4, 9), reading(7, 10, 13)];

  it('is what the issue itself printed, beside holding the last value of its morning', () => {
    const { waterAhead } = outcomesOf([told], view(NOW, [], readings), lake);
    expect(waterAhead).toEqual([{ date: dateOf(7), said: 12, came: 13, held: 9, range: [10, 14] }]);
  });

  it('is not judged before that day is over, nor where the issue said nothing of it', () => {
    expect(outcomesOf([told], view(at(7, 20), [], readings), lake).waterAhead).toEqual([]);
    const silent = { ...told, series: { ...told.series, days: [] } };
    expect(outcomesOf([silent], view(NOW, [], readings), lake).waterAhead).toEqual([]);
  });
});

describe('air and wind', () => {
  // The station's day n has n °C and n m/s.
  const dayOf = (hour: number): number => Math.ceil(hour / 24);
  const measured = [
    ...hours('air_temp', 1, 8, dayOf, STATION),
    ...hours('wind_speed', 1, 8, dayOf, STATION),
  ].map((row) => ({ ...row, kind: 'observed' as const }));
  const said = issue(4, { airC: 5.5, windMs: 3 });

  it('of the fishing hours are compared with the station, beside the day before', () => {
    const found = outcomesOf([said], view(NOW, measured), lake);
    expect(found.air).toEqual([{ date: dateOf(4), said: 5.5, came: 4, held: 3 }]);
    expect(found.wind).toEqual([{ date: dateOf(4), said: 3, came: 4, held: 3 }]);
  });

  it('are never compared with a model’s own past or with a forecast', () => {
    for (const kind of ['model', 'forecast'] as const) {
      const rows = measured.map((row) => ({ ...row, kind, issuedMs: kind === 'forecast' ? at(1, 0) : null }));
      expect(outcomesOf([said], view(NOW, rows), lake)).toMatchObject({ air: [], wind: [] });
    }
  });

  it('look only at hours from dawn to dusk that were still ahead', () => {
    const { dawnMs, duskMs } = sunOf(lake, dateOf(4));
    const night = measured.map((row) =>
      row.atMs > (dawnMs ?? 0) && row.atMs <= (duskMs ?? 0) ? row : { ...row, value: row.value + 20 },
    );
    // The day before has its dusk a minute earlier: its values are left as they are where the hours fall inside.
    const shifted = night.map((row) =>
      row.atMs > (dawnMs ?? 0) - DAY && row.atMs <= (duskMs ?? 0) - DAY ? { ...row, value: 3 } : row,
    );
    expect(outcomesOf([said], view(NOW, shifted), lake).air).toEqual([
      { date: dateOf(4), said: 5.5, came: 4, held: 3 },
    ]);
    const late = issue(4, { airC: 5.5, hour: 11 });
    expect(outcomesOf([late], view(NOW, measured), lake).air).toEqual([]);
    // Made in time, but out at eleven: the morning was no longer ahead of anybody.
    const heldBack = { ...said, issuedMs: at(4, 11) };
    expect(outcomesOf([heldBack], view(NOW, measured), lake).air).toEqual([]);
  });

  it('say nothing of a day on which the station was silent for long', () => {
    const gap = measured.filter(({ atMs }) => atMs < at(4, 9) || atMs > at(4, 9) + 4 * HOUR);
    expect(outcomesOf([said], view(NOW, gap), lake).air).toEqual([]);
  });
});

describe('every item', () => {
  const days = [2, 3, 4, 5, 6, 7, 8];
  const issues = days.map((day) => issue(day, { water: [10, 9, 11], levelAheadM: 0.1, airC: 6, windMs: 4 }));
  const GAUGE = { source: 'usgs', station: 'USGS-1/00062' };
  const wave = (hour: number): number => 8 + 3 * Math.sin(hour / 17);
  const observations = [
    ...hours('level', 1, 9, (hour) => 100 + Math.sin(hour / 30), GAUGE),
    ...hours('water_temp', 1, 8, wave, THERMOMETER),
    ...hours('air_temp', 1, 8, wave, STATION),
    ...hours('wind_speed', 1, 8, wave, STATION),
    ...hours('level', 9, 9, () => 100, { ...GAUGE, kind: 'forecast', issuedMs: NOW }),
  ];
  const readings = days.map((day) => reading(day, 14, 10 + day / 3));

  it('has outcomes in this record, so that the properties below are not empty', () => {
    const found = outcomesOf(issues, view(NOW, observations, readings), lake);
    expect(Object.values(found).map(({ length }) => length)).toEqual([7, 2, 7, 7, 7]);
  });

  it('scores the same in whatever order the issues come', () => {
    const straight = verify(issues, view(NOW, observations, readings), lake);
    fc.assert(
      fc.property(fc.shuffledSubarray(issues, { minLength: issues.length }), (shuffled) => {
        expect(verify(shuffled, view(NOW, observations, readings), lake)).toEqual(straight);
      }),
      { numRuns: 20 },
    );
  });

  it('knows at an earlier instant what it knew then: nothing later leaks, and nothing said is taken back', () => {
    fc.assert(
      fc.property(fc.integer({ min: 2 * 24, max: 8 * 24 }), (hour) => {
        const asOfMs = at(1, hour);
        const then = outcomesOf(issues, view(asOfMs, observations, readings), lake);
        const now = outcomesOf(issues, view(NOW, observations, readings), lake);
        for (const item of ['water', 'level', 'air', 'wind'] as const) {
          expect(now[item]).toEqual(expect.arrayContaining([...then[item]]));
          for (const { date } of then[item]) expect(date < localDateAt(asOfMs, lake.zone)).toBe(true);
        }
      }),
      { numRuns: 25 },
    );
  });
});
