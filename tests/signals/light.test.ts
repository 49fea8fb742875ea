/** Sun and light of the day, against an almanac. */
import { describe, expect, it } from 'vitest';
import type { LakeConfig } from '../../src/config/types.ts';
import { readSignals } from '../../src/signals/index.ts';
import { observation, recordView, testLake } from '../helpers/weatherRecord.ts';
import { rowsOf } from '../science/rows.ts';

const bare = (asOf: string, lake: LakeConfig) =>
  readSignals({ ...recordView({ asOf }), observations: [] }, lake);

describe('the sun of a day', () => {
  // fixtures/science/sun.json names the source of each row.
  const rows = rowsOf<{ lat: number; lon: number; localDate: string }, { sunrise: string; sunset: string }>(
    'sun',
    'sunTimesUtc',
  ).filter(({ inputs }) => inputs.lat === 35.9606 && inputs.lon === -83.9207);

  it.each(rows)('rises and sets by the almanac on $inputs.localDate', ({ inputs, expected, tol }) => {
    const lake = { ...testLake, latDeg: inputs.lat, lonDeg: inputs.lon, zone: 'America/New_York' };
    const { sun } = bare(`${inputs.localDate}T10:00:00Z`, lake);
    const rise = Date.parse(`${inputs.localDate}T${expected.sunrise}Z`);
    expect(Math.abs((sun.riseMs ?? Number.NaN) - rise)).toBeLessThan(tol * 1000);
    expect(sun.dawnMs).toBeLessThan(rise);
    expect(sun.duskMs).toBeGreaterThan(sun.setMs ?? Number.NaN);
  });

  it('is known from the calendar alone: its length, and that it grows by quarters of an hour a week in March', () => {
    const { dayLengthH, dayLengthChangeHPerWeek } = bare('2026-03-20T11:15:00Z', testLake).conditions.signals;
    expect(dayLengthH).toMatchObject({ kind: 'estimated', source: { code: 'sunAndCalendar' } });
    // Twelve hours and some minutes at the equinox, wherever it is (refraction and the width of the sun).
    expect(dayLengthH?.value).toBeCloseTo(12.1, 0);
    expect(dayLengthChangeHPerWeek?.value).toBeGreaterThan(0.2);
    expect(dayLengthChangeHPerWeek?.value).toBeLessThan(0.3);
  });
});

describe('light and wind of the fishing day', () => {
  const asOf = '2026-03-06T11:15:00Z';
  const { conditions } = readSignals(
    recordView({
      asOf,
      pastDays: 5,
      weather: ({ hour }) => ({
        wind: hour === 2 ? 20 : hour === 12 ? 9 : 3,
        sun: hour >= 7 && hour <= 17 ? 900 : 0,
      }),
    }),
    testLake,
  );
  it('counts the hours from dawn to dusk, and no wind of the night', () => {
    expect(conditions.signals.windMaxMs?.value).toBe(9);
    expect(conditions.signals.windMs?.value).toBeGreaterThan(3);
    expect(conditions.signals.windMs?.value).toBeLessThan(4);
  });
  it('has the strongest gust and the highest chance of thunder of its hours', () => {
    const midnight = Date.parse('2026-03-06T06:00:00Z');
    const extra = (['wind_gust', 'thunder'] as const).flatMap((variable) =>
      Array.from({ length: 24 }, (_, i) =>
        observation(variable, midnight + (i + 1) * 3_600_000, i < 4 ? 40 : i === 12 ? 17 : 5, {
          kind: 'forecast',
          periodS: 3600,
        }),
      ),
    );
    const { gustMs, thunderPct } = readSignals(recordView({ asOf, pastDays: 5, extra }), testLake).conditions
      .signals;
    expect([gustMs?.value, thunderPct?.value]).toEqual([17, 17]);
  });
  it('is never brighter than a clear sky', () => {
    expect(conditions.signals.clearSkyShare?.value).toBe(1);
  });
  it('is not known where a fifth of its hours is missing', () => {
    const holed = (fromHour: number) => {
      const view = recordView({ asOf, pastDays: 5 });
      const from = Date.parse('2026-03-06T06:00:00Z') + fromHour * 3_600_000;
      const observations = view.observations.filter(
        ({ variable, atMs }) => !['wind_speed', 'cloud'].includes(variable) || atMs < from,
      );
      return readSignals({ ...view, observations }, testLake).conditions.signals;
    };
    // The day lasts from 05:44 to 18:10: twelve hours and a half, of which ten and a half are needed.
    expect(holed(17).windMs).toBeDefined();
    expect(holed(16).windMs).toBeUndefined();
    expect([holed(16).windMaxMs, holed(16).cloudPct, holed(16).lowLightShare]).toEqual([
      undefined,
      undefined,
      undefined,
    ]);
  });
});
