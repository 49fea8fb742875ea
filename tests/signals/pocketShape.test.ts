/** What is known of a pocket's shape decides how much rain moves it, and what is not known stays a coarse guess. */
import type { DateTime } from 'luxon';
import { describe, expect, it } from 'vitest';
import type { LakeConfig, PocketConfig } from '../../src/config/types.ts';
import { estimateWaters, readSignals, type PocketReport } from '../../src/signals/index.ts';
import { recordView, testLake } from '../helpers/weatherRecord.ts';

const AS_OF = '2026-03-06T11:15:00Z'; // 05:15 at the lake
const light = (local: DateTime): number => Math.max(0, Math.sin(((local.hour - 6) / 12) * Math.PI));
/** 60 mm of rain on the day before, on ground that four days earlier took 40, under mild days and cool nights. */
const wet = (local: DateTime) => {
  const rains =
    ['2026-03-01', '2026-03-05'].includes(local.toISODate() ?? '') && local.hour >= 8 && local.hour < 16;
  return rains
    ? { air: 13, humidity: 97, cloud: 100, rain: local.day === 5 ? 7.5 : 5, sun: 40 }
    : { air: 6 + 6 * light(local), sun: 500 * light(local), humidity: 70 };
};
const view = recordView({ asOf: AS_OF, pastDays: 16, weather: wet });
const shape: PocketConfig = {
  id: 'a',
  name: 'A',
  landCover: 'pasture',
  areaM2: 6000,
  meanDepthM: 1.5,
  watershedKm2: 0.15,
  mouthWidthM: 24,
  channelLengthM: 1200,
  slope: 0.02,
};
const reports = (pockets: readonly PocketConfig[], more: Partial<LakeConfig> = {}): readonly PocketReport[] =>
  readSignals(view, { ...testLake, pockets, ...more }).pockets;
const report = (pocket: PocketConfig, more: Partial<LakeConfig> = {}): PocketReport => {
  const [only] = reports([pocket], more);
  if (only === undefined) throw new Error('no report');
  return only;
};
const without = (...names: (keyof PocketConfig)[]): PocketConfig => {
  const left = Object.entries(shape).filter(([name]) => !names.some((one) => one === name));
  return Object.fromEntries(left) as unknown as PocketConfig;
};

describe('of the same rain', () => {
  it('more of a pocket is renewed the larger its watershed, the smaller and the shallower it is', () => {
    const usual = report(shape).renewedShare;
    expect(usual).toBeGreaterThan(0.05);
    expect(usual).toBeLessThan(0.95);
    expect(report({ ...shape, watershedKm2: 0.09 }).renewedShare).toBeLessThan(0.8 * usual);
    expect(report({ ...shape, areaM2: 12_000 }).renewedShare).toBeLessThan(0.8 * usual);
    expect(report({ ...shape, meanDepthM: 3 }).renewedShare).toBeLessThan(0.8 * usual);
  });

  it('more runs off land that drinks less: by its curve number, else by what covers it', () => {
    // TR-55 table 2-2: woods 63, urban districts 83 and more, in the soils between B and C.
    const share = (more: Partial<PocketConfig>): number => report({ ...shape, ...more }).renewedShare;
    const [wooded, pasture, urban] = (['wooded', 'pasture', 'urban'] as const).map((landCover) =>
      share({ landCover }),
    );
    expect(wooded).toBeLessThan(pasture ?? Number.NaN);
    expect(pasture).toBeLessThan(urban ?? Number.NaN);
    expect(share({ curveNumber: 95 })).toBeGreaterThan(share({}));
  });

  it('the pulse comes sooner down a short steep channel', () => {
    const [quick, slow] = [
      report({ ...shape, channelLengthM: 300, slope: 0.2 }),
      report({ ...shape, channelLengthM: 6000, slope: 0.002 }),
    ];
    expect(quick.surfaceC.value).not.toBeCloseTo(slow.surfaceC.value, 2);
    expect(report({ ...shape, slope: 0.2 }).surfaceC.value).not.toBeCloseTo(report(shape).surfaceC.value, 4);
    expect(report({ ...shape, mouthWidthM: 120 }).surfaceC.value).not.toBeCloseTo(
      report(shape).surfaceC.value,
      4,
    );
  });
});

describe('a shape that is not configured', () => {
  it('is a coarse class, with a wider interval, from the first of area, depth and watershed that is missing', () => {
    const width = ({ surfaceC }: PocketReport): number => (surfaceC.high ?? NaN) - (surfaceC.low ?? NaN);
    expect(report(shape).basis).toBe('configured');
    expect(report(shape).surfaceC.source).toMatchObject({ coarse: false });
    for (const name of ['areaM2', 'meanDepthM', 'watershedKm2'] as const) {
      const coarse = report(without(name));
      expect(coarse.basis, name).toBe('class');
      expect(coarse.surfaceC.source).toMatchObject({ coarse: true });
      expect(width(coarse)).toBeGreaterThan(width(report(shape)));
      expect(coarse.surfaceC.value, name).not.toBeNaN();
    }
    for (const name of ['mouthWidthM', 'channelLengthM', 'slope', 'curveNumber'] as const)
      expect(report(without(name)).basis, name).toBe('configured');
  });

  it('is that of a larger cove where its area is over two hectares', () => {
    const coarse = (areaM2: number): number => report({ ...without('watershedKm2'), areaM2 }).renewedShare;
    // The class of a larger cove has a watershed nearly seven times as large.
    expect(coarse(20_001)).toBeGreaterThan(1.5 * coarse(20_000));
  });

  it('is guessed of a lake without pockets, which are told of as one', () => {
    const [only, ...others] = reports([]);
    expect(others).toEqual([]);
    expect(only).toMatchObject({ id: 'typical', basis: 'class' });
    expect(only?.surfaceC.value).toBeGreaterThan(0);
  });
});

describe('several pockets', () => {
  it('are told in the order in which they stand out, and the first of them is what the day is judged on', () => {
    const small = { ...shape, id: 'b', name: 'B', watershedKm2: 0.05, meanDepthM: 3 };
    for (const pockets of [
      [shape, small],
      [small, shape],
    ]) {
      const lake = { ...testLake, pockets };
      const { pockets: told, conditions } = readSignals(view, lake);
      expect(told.map(({ id }) => id)).toEqual(['a', 'b']);
      expect(conditions.signals.pocketC?.value).toBe(told[0]?.surfaceC.value);
      expect(conditions.signals.pocketC?.source).toMatchObject({ code: 'pocketModel', pocket: 'A' });
    }
  });

  it('are warmest in the afternoon of a sunny day, and not at its end', () => {
    const hour = new Date((report(shape).warmestHourMs ?? Number.NaN) - 6 * 3_600_000).getUTCHours();
    expect(hour).toBeGreaterThanOrEqual(12);
    expect(hour).toBeLessThan(17);
  });

  it('have their warmest and coldest hours among those that are left of the day', () => {
    const { warmestHourMs, coldest, minusMainC } = report(shape);
    expect(coldest?.minusMainC).toBeLessThan(minusMainC.value);
    for (const atMs of [warmestHourMs, coldest?.atMs]) {
      expect(atMs).toBeGreaterThan(Date.parse(AS_OF));
      expect(atMs).toBeLessThan(Date.parse('2026-03-07T01:00:00Z'));
    }
  });
});

describe('what runs in', () => {
  it('has a temperature of its own while its storm is eight days old or less', () => {
    const after = (date: string) =>
      readSignals(
        recordView({
          asOf: AS_OF,
          pastDays: 16,
          weather: (local) => ({
            air: 9,
            ...(local.toISODate() === date ? { rain: 4, air: 13, humidity: 95 } : {}),
          }),
        }),
        { ...testLake, pockets: [{ ...shape, watershedKm2: 2.6 }] },
      ).conditions.signals.runoffC;
    const storm = after('2026-03-05');
    expect(storm?.value).toBeGreaterThan(9);
    expect(storm?.value).toBeLessThan(14);
    expect(after('2026-01-01')).toBeUndefined();
  });
});

describe('a forecast that ends early', () => {
  const ending = (aheadDays: number, asOf = AS_OF) =>
    recordView({ asOf, pastDays: 16, aheadDays, weather: wet });
  const lake = { ...testLake, pockets: [shape] };

  it('still tells of the pocket today, as a longer one does', () => {
    const [short] = readSignals(ending(1), lake).pockets;
    expect(short?.surfaceC.value).toBeCloseTo(report(shape).surfaceC.value, 1);
  });

  it('tells of no day whose dusk it does not reach', () => {
    const half = ending(0.25); // six hours: noon
    expect(readSignals(half, lake).pockets).toEqual([]);
    expect(readSignals(half, lake).conditions.signals.pocketC).toBeUndefined();
    const { ahead } = readSignals(ending(7), lake);
    for (const { date, conditions } of ahead) expect(conditions.signals.pocketC, date).toBeDefined();
  });

  it('leaves an estimate of the hour that a reading is compared with, the hour itself included', () => {
    expect(estimateWaters(ending(0.25), lake).pockets).toHaveLength(1);
    const whole = '2026-03-06T11:00:00Z';
    const [at] = estimateWaters(ending(7, whole), lake).pockets;
    const [before] = estimateWaters(ending(7, '2026-03-06T10:15:00Z'), lake).pockets;
    expect(at?.surfaceC).toBeCloseTo(before?.surfaceC ?? Number.NaN, 1);
  });

  it('or a gap in the past begins the run anew, and within two days of now ends what is told', () => {
    const holed = (hoursBack: number) => {
      const full = ending(7);
      const at = Math.floor(full.asOfMs / 3_600_000) * 3_600_000 - hoursBack * 3_600_000;
      return {
        ...full,
        observations: full.observations.filter(({ variable, atMs }) => variable !== 'cloud' || atMs !== at),
      };
    };
    expect(readSignals(holed(30), lake).pockets).toEqual([]);
    expect(readSignals(holed(60), lake).pockets).toHaveLength(1);
  });
});

it('where the sun stays down a pocket behind hills has no hour of it', () => {
  // Utqiagvik, Alaska, from 18 November to 22 January (United States Naval Observatory, from memory).
  const dark: LakeConfig = {
    ...testLake,
    latDeg: 71.3,
    lonDeg: -156.8,
    zone: 'America/Anchorage',
    horizonDeg: [5],
  };
  const dim = recordView({
    asOf: '2026-12-10T15:00:00Z',
    pastDays: 14,
    zone: dark.zone,
    weather: () => ({ air: 1, sun: 0 }),
  });
  const { pockets } = readSignals(dim, dark);
  expect(pockets).toHaveLength(1);
  expect(pockets[0]?.story.find(({ code }) => code === 'shaded')).toMatchObject({ sunH: 0, guessed: false });
});
