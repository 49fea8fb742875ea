/** A measurement stands by itself, with its own age, until the model has fresh weather to run on. */
import { describe, expect, it } from 'vitest';
import type { Reading, RecordView } from '../../src/record/types.ts';
import { estimateWaters, pastWater, readSignals } from '../../src/signals/index.ts';
import { gauge, recordView, testLake } from '../helpers/weatherRecord.ts';

const AS_OF = '2026-03-06T11:15:00Z';
const NOW = Date.parse(AS_OF);
const HOUR = 3_600_000;
const DAY = 24 * HOUR;

const bare = (extra: RecordView['observations'] = [], readings: readonly Reading[] = []): RecordView => ({
  ...recordView({ asOf: AS_OF }),
  observations: extra,
  readings,
});
const reading = (hoursAgo: number, waterC: number, more: Partial<Reading> = {}): Reading => ({
  id: `r${hoursAgo}`,
  lake: testLake.id,
  atMs: NOW - hoursAgo * HOUR,
  waterC,
  depthM: 0.5,
  sdC: 0.5,
  where: 'dock',
  ...more,
});
const waterOf = (view: RecordView) => readSignals(view, testLake).conditions.signals.waterC;
const codes = (view: RecordView) => readSignals(view, testLake).conditions.gaps.map(({ fact }) => fact.code);

describe('water without any weather', () => {
  it('is what the gauge said 26 minutes ago, as observed and of its own time', () => {
    const at = NOW - 26 * 60_000;
    const water = waterOf(bare(gauge('water_temp', at, 3, () => 12.5)));
    expect(water).toMatchObject({ value: 12.5, kind: 'observed', asOfMs: at, freshness: 'fresh' });
    expect(water?.source).toMatchObject({ code: 'gauge', where: 'at the dam' });
    expect(water!.high! - water!.low!).toBeLessThan(1.2);
  });

  it('is the angler’s reading, which the effect of giving it shows, and the gap says why it stands alone', () => {
    const view = bare([], [reading(2, 11)]);
    expect(waterOf(view)).toMatchObject({ value: 11, source: { code: 'anglerReading' } });
    expect(estimateWaters(view, testLake)).toMatchObject({ mainC: 11, refused: [] });
    expect(codes(view)).toContain('waterAsMeasured');
    expect(readSignals(view, testLake).readingsUsed).toHaveLength(1);
  });

  it('is the newer of both', () => {
    const rows = gauge('water_temp', NOW - HOUR, 3, () => 12.5);
    expect(waterOf(bare(rows, [reading(2, 11)]))?.value).toBe(12.5);
    expect(waterOf(bare(rows, [reading(0.5, 11)]))?.value).toBe(11);
  });

  it('is less and less sure with its age, and not known once it is stale', () => {
    const width = (hoursAgo: number): number => {
      const water = waterOf(bare([], [reading(hoursAgo, 11)]));
      return water === undefined ? Number.NaN : water.high! - water.low!;
    };
    expect(width(48)).toBeGreaterThan(width(1) + 0.5);
    expect(width(101)).toBeGreaterThan(width(48));
    expect(width(103)).toBeNaN();
  });

  it('is no value that cannot be water, none from a pocket and none from the deep', () => {
    expect(waterOf(bare([], [reading(1, 52)]))).toBeUndefined();
    expect(waterOf(bare([], [reading(1, 11, { pocket: 'draw' })]))).toBeUndefined();
    expect(waterOf(bare([], [reading(1, 11, { depthM: 8 })]))).toBeUndefined();
    expect(estimateWaters(bare([], [reading(1, 52)]), testLake).refused).toMatchObject([
      { reason: { code: 'notWater' } },
    ]);
  });
});

it('stale weather does not hide a fresh gauge; fresh weather hands over to the model', () => {
  const rows = gauge('water_temp', NOW - HOUR, 30, () => 12.5);
  const stale = recordView({ asOf: AS_OF, weatherAgeH: 60, extra: rows });
  expect(waterOf(stale)).toMatchObject({ value: 12.5, kind: 'observed', asOfMs: NOW - HOUR });
  const fresh = recordView({ asOf: AS_OF, extra: rows });
  expect(waterOf(fresh)?.kind).toBe('estimated');
  expect(codes(fresh)).not.toContain('waterAsMeasured');
});

it('a measurement of today says nothing of a day ahead', () => {
  const view = bare(gauge('water_temp', NOW - DAY / 24, 3, () => 12.5));
  expect(readSignals(view, testLake).ahead).toEqual([]);
});

it('of several readings of a day and depth each is told its own reason, and a good one none', () => {
  const view = recordView({ asOf: AS_OF });
  const readings = [reading(3, 200), reading(2, -5), { ...reading(1, 8), id: 'good' }];
  const told = new Map(
    estimateWaters({ ...view, readings }, testLake).refused.map((one) => [one.id, one.reason]),
  );
  expect(told.get('r3')).toMatchObject({ code: 'notWater', waterC: 200 });
  expect(told.get('r2')).toMatchObject({ code: 'notWater', waterC: -5 });
  expect(told.get('good')?.code).not.toBe('notWater');
});

it('a reading of a day that no fresh weather reaches is used, and of a day before the weather named', () => {
  const old = recordView({ asOf: AS_OF, weatherAgeH: 100, aheadDays: 2 });
  const used = readSignals({ ...old, readings: [reading(2, 11)] }, testLake);
  expect(used.readingsUsed).toMatchObject([{ waterC: 11 }]);
  expect(used.conditions.gaps.map(({ fact }) => fact.code)).not.toContain('readingRefused');
  const early = readSignals(
    { ...recordView({ asOf: AS_OF, pastDays: 5 }), readings: [reading(7 * 24, 11)] },
    testLake,
  );
  expect(early.conditions.gaps.map(({ fact }) => fact)).toContainEqual({
    code: 'readingRefused',
    reason: { code: 'noWeatherThatDay' },
  });
});

it('the past over which the model may be run ends with yesterday, its readings in order of date', () => {
  const rows = gauge('water_temp', NOW - HOUR, 6, () => 9);
  const flow = gauge('discharge', NOW - HOUR, 3, () => 40, { station: 'USGS-9' });
  const lake = {
    ...testLake,
    gauges: [
      ...testLake.gauges,
      { service: 'usgs', station: 'USGS-9', variable: 'discharge', where: 'below the dam' } as const,
    ],
  };
  const view = {
    ...recordView({ asOf: AS_OF, pastDays: 8, extra: [...rows, ...flow] }),
    readings: [reading(75, 11)],
  };
  const { weather, readings } = pastWater(view, lake);
  expect(weather.map(({ date }) => date)).toEqual(
    ['26', '27', '28']
      .map((day) => `2026-02-${day}`)
      .concat(['01', '02', '03', '04', '05'].map((day) => `2026-03-${day}`)),
  );
  expect(weather.map(({ dischargeM3s }) => dischargeM3s)).toEqual([
    ...Array.from({ length: 5 }, () => undefined),
    ...Array.from({ length: 3 }, () => 40),
  ]);
  const dates = readings.map(({ date }) => date);
  expect(dates).toEqual([...dates].sort());
  expect(dates.at(-1)).toBe('2026-03-05');
  expect(readings.filter(({ source }) => source === 'angler')).toHaveLength(1);
});
