// Weather that is wrong as a whole. Bounds: records of the World Weather and Climate Extremes Archive of the World
// Meteorological Organization, from memory (air -89.2 and 56.7 degC, rain 1825 mm in 24 h and 305 mm in 42 min, gust 113.2 m/s).
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { judgeSeries } from '../../src/record/quality/index.ts';
import type { Observation, Variable } from '../../src/record/types.ts';
import { withoutHotWater, withoutWrongSeries } from '../../src/services/wholeSeries.ts';

const HOUR_MS = 3_600_000;
/** 26 November, noon UTC. */
const NOW_MS = Date.UTC(2026, 10, 26, 12);

function series(
  variable: Variable,
  valueAt: (hour: number) => number,
  part: Partial<Observation> = {},
  nowMs = NOW_MS,
): Observation[] {
  return Array.from({ length: 14 * 24 }, (_, i) => {
    const hour = i - 7 * 24;
    const isAhead = hour > 0;
    return {
      lake: 'harrow-fork',
      variable,
      source: 'open-meteo',
      station: '',
      kind: isAhead ? 'forecast' : 'model',
      atMs: nowMs + hour * HOUR_MS,
      periodS: variable === 'rain' || variable === 'wind_gust' ? 3600 : 0,
      value: valueAt(hour),
      issuedMs: isAhead ? nowMs : null,
      ...part,
    };
  });
}
const toF = (airC: number): number => airC * 1.8 + 32;
const autumn = (hour: number): number => 11 + 7 * Math.sin(hour / 3.82) + hour / 60;

function refused(
  rows: readonly Observation[],
  latDeg = 36,
  known: readonly Observation[] = [],
): { readonly variables: string[]; readonly notes: string[]; readonly kept: Observation[] } {
  const notes: string[] = [];
  const kept = withoutWrongSeries(rows, latDeg, (problem) => notes.push(problem), known);
  const left = new Set(kept.map(({ variable }) => variable));
  const variables = [...new Set(rows.map(({ variable }) => variable))].filter((one) => !left.has(one));
  return { variables, notes, kept };
}

describe('air in another unit than it says', () => {
  it.each([
    ['degF in November', autumn, toF],
    ['kelvin', autumn, (airC: number) => airC + 273.15],
    ['degF in July', (h: number) => autumn(h) + 18, toF],
    ['tenths of a degree', (h: number) => autumn(h) + 5, (airC: number) => airC * 10],
  ])('is refused as a whole, past and forecast: %s', (_, airC, wrong) => {
    const wind = series('wind_speed', () => 3);
    const found = refused([...series('air_temp', (h) => wrong(airC(h))), ...wind]);
    expect(found.variables).toEqual(['air_temp']);
    expect(found.kept).toEqual(wind);
    expect(found.notes).toEqual([expect.stringContaining('the whole series of air_temp was refused')]);
  });

  it('is refused where it looks possible but contradicts what is known, and is the stranger of the two', () => {
    const winter = Date.UTC(2026, 0, 12);
    const airC = (h: number) => -12 + 6 * Math.sin(h / 3.82);
    const right = series('air_temp', airC, {}, winter);
    const wrong = series('air_temp', (h) => toF(airC(h)), {}, winter);
    expect(refused(wrong, 45).variables).toEqual([]);
    expect(refused(wrong, 45, right).variables).toEqual(['air_temp']);
    expect(refused(wrong, 45, right).notes[0]).toContain('from what is known of the same hours');
    // The record was wrong and the reply is right: nothing is refused for good.
    expect(refused(right, 45, wrong).variables).toEqual([]);
  });

  it('of one of two services costs that one alone', () => {
    const grid = series('air_temp', autumn, { source: 'nws', kind: 'forecast', issuedMs: NOW_MS });
    const found = refused([...series('air_temp', (h) => autumn(h) + 24), ...grid]);
    expect(found.kept).toEqual(grid);
  });
});

describe('other series', () => {
  it.each<[string, Variable, (hour: number) => number]>([
    ['pressure in pascal', 'pressure', (h) => 101_300 + h],
    ['wind beyond the strongest gust ever measured', 'wind_gust', (h) => 100 + (h % 40)],
    ['rain beyond the wettest hour ever measured', 'rain', (h) => 300 + (h % 40)],
    ['humidity in shares of one', 'humidity', (h) => 0.6 + 0.3 * Math.sin(h / 4)],
  ])('are refused as a whole: %s', (_, variable, valueAt) => {
    expect(refused(series(variable, valueAt)).variables).toEqual([variable]);
  });

  it('keep a code for "missing" apart from their values, as before', () => {
    const rows = series('wind_speed', (h) => (h % 8 === 0 ? -9999 : 4));
    expect(refused(rows).variables).toEqual([]);
    const [judged = []] = judgeSeries([rows.filter(({ kind }) => kind === 'forecast')]);
    expect(judged.filter(({ doubt }) => doubt?.code === 'doubt.impossible')).toHaveLength(20);
  });

  it('of instruments are left to the checks of single values', () => {
    const rows = series('air_temp', (h) => toF(autumn(h)), { kind: 'observed', issuedMs: null });
    expect(refused(rows).kept).toEqual(rows);
  });
});

describe('water in degF that is called degC', () => {
  const water = (waterC: number, latDeg: number, day: number) =>
    withoutHotWater(
      series(
        'water_temp',
        () => waterC * 1.8 + 32,
        { kind: 'observed', issuedMs: null },
        Date.UTC(2026, 0, 1) + day * 24 * HOUR_MS,
      ),
      latDeg,
    );
  it.each([
    [4, 36, 20],
    [1, 45, 20],
    [5, 48, 340],
    [4, -38, 200],
  ])(
    'is doubted, each value, in a winter in which it is cold: %d degC at %d degrees',
    (waterC, latDeg, day) => {
      expect(new Set(water(waterC, latDeg, day).map(({ doubt }) => doubt?.code))).toEqual(
        new Set(['doubt.impossible']),
      );
    },
  );
  it('and warm water of a summer is believed', () => {
    const warm = series('water_temp', () => 34, { kind: 'observed', issuedMs: null }, Date.UTC(2026, 6, 20));
    expect(withoutHotWater(warm, 33)).toEqual(warm);
  });
});

describe('weather that was', () => {
  it.each<[string, Variable, number, number]>([
    ['the wettest hour', 'rain', 305, 39],
    ['the strongest gust', 'wind_gust', 113.2, -20.7],
    ['the highest pressure', 'pressure', 1083.8, 66],
  ])('is believed, an hour of it: %s', (_, variable, value, latDeg) => {
    const usual = { rain: 0, wind_gust: 9, pressure: 1015 }[variable as 'rain' | 'wind_gust' | 'pressure'];
    expect(
      refused(
        series(variable, (h) => (h === 5 ? value : usual + 0.01 * h + 2)),
        latDeg,
      ).variables,
    ).toEqual([]);
  });

  it('is believed at any latitude and season near what is usual there', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 25, max: 65, noNaN: true }),
        fc.integer({ min: 0, max: 364 }),
        (latDeg, day) => {
          const warmth = Math.cos((2 * Math.PI * (day - 201)) / 365.25);
          const mean = 27 - 0.7 * (latDeg - 25) + warmth * (4 + 0.35 * (latDeg - 25));
          const rows = series(
            'air_temp',
            (h) => mean + 9 * Math.sin(h / 3.82),
            {},
            Date.UTC(2026, 0, 1) + day * 24 * HOUR_MS,
          );
          expect(refused(rows, latDeg).variables).toEqual([]);
        },
      ),
    );
  });
});

describe('what an older version has stored', () => {
  it('of a forecast is doubted as a whole when many of its values cannot be', () => {
    const rows = series('air_temp', (h) => toF(autumn(h)) + 10).filter(({ kind }) => kind === 'forecast');
    const [judged = []] = judgeSeries([rows]);
    expect(rows.some(({ value }) => value < 50)).toBe(true);
    expect(new Set(judged.map(({ doubt }) => doubt?.code))).toEqual(new Set(['doubt.wrongSeries']));
  });

  it('of a past is doubted for the span of a reply about it, and no further', () => {
    const past = Array.from({ length: 40 * 24 }, (_, h) => ({
      ...row0,
      atMs: NOW_MS + (h - 40 * 24) * HOUR_MS,
      value: h < 33 * 24 ? autumn(h % 24) : toF(autumn(h % 24)) + 12,
    }));
    const [judged = []] = judgeSeries([past]);
    expect(judged.slice(33 * 24).every(({ doubt }) => doubt?.code === 'doubt.wrongSeries')).toBe(true);
    expect(judged.slice(0, 25 * 24).every(({ doubt }) => doubt === undefined)).toBe(true);
  });
});

const row0 = {
  ...(series('air_temp', () => 0)[0] as Observation),
};
