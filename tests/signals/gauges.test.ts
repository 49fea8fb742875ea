/** What of a gauge's series stands for the present. */
import { describe, expect, it } from 'vitest';
import type { LakeConfig } from '../../src/config/types.ts';
import { gaugeSeries, readSignals } from '../../src/signals/index.ts';
import type { Observation } from '../../src/record/types.ts';
import { gauge, observation, recordView, testLake } from '../helpers/weatherRecord.ts';

const AS_OF = '2026-03-06T11:15:00Z';
const HOUR = 3_600_000;
const LAST = Date.parse('2026-03-06T11:00:00Z');
const level = gauge('level', LAST, 5, () => 100);
const bare = (...extra: Observation[]) => ({
  ...recordView({ asOf: AS_OF, pastDays: 1 }),
  observations: extra,
});
const signals = (lake: LakeConfig, ...extra: Observation[]) =>
  readSignals(bare(...extra), lake).conditions.signals;

describe('the level now', () => {
  it('is no mean of a day, however new', () => {
    const days = [0, 1, 2].map((back) =>
      observation('level', LAST + 10 * 60_000 - back * 24 * HOUR, 300, { periodS: 86_400 }),
    );
    expect(signals(testLake, ...level, ...days).levelM?.value).toBe(100);
  });

  it('is no value that is only forecast', () => {
    const ahead = [1, 7, 13, 19].map((hours) =>
      observation('level', LAST + hours * HOUR, 190 + hours / 10, {
        kind: 'forecast',
        issuedMs: LAST - HOUR,
      }),
    );
    const { levelM, levelNext24hM } = signals(testLake, ...level, ...ahead);
    expect(levelM).toMatchObject({ value: 100, kind: 'observed', asOfMs: LAST });
    expect(levelNext24hM).toMatchObject({
      kind: 'forecast',
      asOfMs: LAST - HOUR,
      source: { code: 'stageForecast' },
    });
    expect(levelNext24hM?.value).toBeCloseTo(1.8, 9);
  });

  it('is known although a thermometer at the same site has a wrong clock', () => {
    const doubt = { code: 'doubt.clock', aheadMs: HOUR } as const;
    const water = gauge('water_temp', LAST + 5 * 60_000, 5, () => 9).map((row) => ({ ...row, doubt }));
    expect(signals(testLake, ...level, ...water).levelM?.value).toBe(100);
  });

  it('is set against normal pool on the datum of the gauge that is preferred, in whatever order they are kept', () => {
    const preferred = level.map((row) => ({ ...row, datum: 'NAVD88' }));
    const second = gauge('level', LAST, 5, () => 3, { station: 'USGS-2', datum: 'gage' });
    const lake = { ...testLake, normalPoolM: 101 };
    for (const rows of [
      [...second, ...preferred],
      [...preferred, ...second],
    ])
      expect(signals(lake, ...rows).levelVsNormalM?.value).toBeCloseTo(-1, 9);
  });
});

describe('several series at one site', () => {
  it('are never mixed: the one with the newest value is taken, its values in order of time', () => {
    const a = gauge('level', LAST - HOUR, 5, () => 100, { station: 'USGS-1/00062/a' });
    const b = gauge('level', LAST, 5, () => 7, { station: 'USGS-1/00065/b' });
    for (const rows of [
      [...a, ...b],
      [...b, ...a],
    ]) {
      const [series, ...others] = gaugeSeries(bare(...rows), testLake, 'level');
      expect(others).toEqual([]);
      expect(series).toMatchObject({ lastValue: 7, lastMs: LAST, station: 'USGS-1/00065/b' });
      expect(series?.values.every((value) => value === 7)).toBe(true);
    }
  });

  it('of one station, of several kinds, lie among each other', () => {
    const kinds = level.map((row, i) => (i % 2 === 0 ? row : { ...row, kind: 'analysis' as const }));
    const [series] = gaugeSeries(bare(...kinds), testLake, 'level');
    expect([...(series?.atMs ?? [])]).toEqual(level.map(({ atMs }) => atMs));
  });
});

describe('a thermometer', () => {
  const water = (lastMs: number) => gauge('water_temp', lastMs, 5, (back) => 9 + Math.sin(back));
  const gapOf = (...extra: Observation[]) =>
    readSignals(recordView({ asOf: AS_OF, pastDays: 14, extra }), testLake).conditions.gaps.find(
      ({ id }) => id === 'waterC',
    );
  it('that fell silent is named with its last value, one that speaks is not', () => {
    const silentMs = LAST - 60 * HOUR;
    expect(gapOf(...water(silentMs))).toMatchObject({
      fact: { code: 'thermometerSilent', ageMs: 60.25 * HOUR },
      last: {
        value: 9,
        kind: 'observed',
        freshness: 'stale',
        asOfMs: silentMs,
        source: { code: 'lakeThermometer' },
      },
    });
    expect(gapOf(...water(LAST))).toBeUndefined();
    expect(gapOf()?.fact).toEqual({ code: 'noWaterReading' });
  });
});
