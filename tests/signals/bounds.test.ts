/** The bounds that the whole mornings alone would not show when they move. */
import { describe, expect, it } from 'vitest';
import type { GaugeConfig, LakeConfig } from '../../src/config/types.ts';
import type { Observation } from '../../src/record/types.ts';
import { isOf, lakeReadings, readSignals } from '../../src/signals/index.ts';
import { gauge, observation, recordView, testLake } from '../helpers/weatherRecord.ts';

const AS_OF = '2026-03-06T11:15:00Z'; // 05:15 at the lake
const HOUR = 3_600_000;
const LAST = Date.parse('2026-03-06T11:00:00Z');
const signalsOf = (view: ReturnType<typeof recordView>, lake: LakeConfig = testLake) =>
  readSignals(view, lake).conditions.signals;

describe('the official stage forecast', () => {
  const stage = (hours: number, levelM: number): Observation =>
    observation('level', LAST + hours * HOUR, levelM, {
      kind: 'forecast',
      issuedMs: LAST - 6 * HOUR,
    });

  it('counts from the instant of the morning: what it said of hours that are past is no change ahead', () => {
    const forecast = [-30, -18, -6].map((hours) => stage(hours, 190));
    const ahead = [1, 7, 13, 19].map((hours, i) => stage(hours, 188 + 0.1 * i));
    const view = recordView({ asOf: AS_OF, extra: [...forecast, ...ahead] });
    expect(signalsOf(view).levelNext24hM?.value).toBeCloseTo(0.3, 9);
  });

  it('must span half of the day ahead', () => {
    const view = recordView({ asOf: AS_OF, extra: [stage(1, 188), stage(12, 188.5)] });
    expect(signalsOf(view).levelNext24hM).toBeUndefined();
  });
});

it('a parameter is the whole code, not its beginning', () => {
  const wanted: GaugeConfig = {
    service: 'usgs',
    station: 'USGS-1',
    variable: 'level',
    parameter: '0006',
    where: 'dam',
  };
  expect(isOf({ source: 'usgs', station: 'USGS-1/0006/a' }, wanted)).toBe(true);
  expect(isOf({ source: 'usgs', station: 'USGS-1/00062/a' }, wanted)).toBe(false);
  expect(isOf({ source: 'usgs', station: 'USGS-12/0006/a' }, wanted)).toBe(false);
});

describe('a fall of rain', () => {
  /** Two showers of 1.5 mm, each too little alone, with dry hours between; the later one ends 10 h ago. */
  const since = (dryHours: number): number | undefined =>
    signalsOf(
      recordView({
        asOf: AS_OF,
        weather: (local) => {
          const back = Math.round((LAST - local.toMillis()) / HOUR);
          return { rain: back === 10 || back === 11 + dryHours ? 1.5 : 0 };
        },
      }),
    ).hoursSinceRain?.value;

  it('goes on over a gap of six hours between its drops, and not over one of seven', () => {
    expect(since(5)).toBeCloseTo(10.25, 9);
    expect(since(6)).toBeUndefined();
  });
});

it('turbines count as running from two fifths of what they release in the highest twentieth of hours', () => {
  const lake: LakeConfig = {
    ...testLake,
    gauges: [{ service: 'usgs', station: 'USGS-9', variable: 'release', where: 'at the dam' }],
  };
  // 6 % of the hours at 100 m3/s, the rest at 10: the 95th percentile is 100, the 90th would be 10.
  const on = (nowM3s: number): number | undefined =>
    signalsOf(
      recordView({
        asOf: AS_OF,
        extra: gauge('release', LAST, 10, (back) => (back === 0 ? nowM3s : back % 16 === 1 ? 100 : 9), {
          station: 'USGS-9',
        }),
      }),
      lake,
    ).generationOn?.value;
  expect(on(40)).toBe(1);
  expect(on(25)).toBeCloseTo(0.5, 9);
  expect(on(10)).toBe(0);
});

describe('a day of the gauge thermometer', () => {
  const readingOf = (hours: readonly number[]) => {
    const day = Date.parse('2026-03-04T06:00:00Z'); // local midnight
    const rows = hours.map((hour) => observation('water_temp', day + hour * HOUR, 9));
    return lakeReadings(recordView({ asOf: AS_OF, extra: rows }), testLake)[0];
  };

  it('is a daily mean from twelve values that span more than three quarters of it', () => {
    const spread = Array.from({ length: 12 }, (_, i) => (i * 18.5) / 11);
    expect(readingOf(spread)?.hour).toBeUndefined();
    expect(readingOf(spread.slice(1))?.hour).toBeDefined();
    expect(readingOf(Array.from({ length: 12 }, (_, i) => (i * 17.5) / 11))?.hour).toBeDefined();
  });
});

it('light is low below six degrees of sun or under at least 85 % of cloud', () => {
  const share = (cloud: number): number =>
    signalsOf(recordView({ asOf: AS_OF, weather: () => ({ cloud }) })).lowLightShare?.value ?? NaN;
  expect(share(85)).toBe(1);
  // Fourteen hours from civil dawn (05:44) to dusk (18:10); in the middle of the first two and the last two of them the sun
  // stands below six degrees (own sun position, which tests/science holds against published tables).
  expect(share(84)).toBeCloseTo(4 / 14, 9);
});
