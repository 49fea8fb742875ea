// Where each check begins: at its size a value is believed, a hair beyond it not, and the screen before the checks never
// lets by what one of them would name. Sizes are common practice, no source, unless a line says otherwise.
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { SeriesColumns } from '../../src/record/observations/columns.ts';
import { VARIABLES, type Observation } from '../../src/record/index.ts';
import { doubtSchema, sameDoubt } from '../../src/record/quality/doubt.ts';
import { judgeSeries } from '../../src/record/quality/index.ts';
import { mayBeDoubted } from '../../src/record/quality/screen.ts';
import { HOUR, hourly, row, START, wave } from './rows.ts';

const columnOf = (rows: readonly Observation[]): SeriesColumns => ({
  ...row(rows[0]),
  datum: rows[0]?.datum ?? '',
  atMs: Float64Array.from(rows, ({ atMs }) => atMs),
  values: Float64Array.from(rows, ({ value }) => value),
  doubts: new Map(),
});

/** Doubts by hour from START; a series that has any must not pass the screen. */
function doubts(rows: readonly Observation[], ...beside: Observation[][]): Map<number, string> {
  const found = new Map(
    (judgeSeries([rows, ...beside])[0] ?? []).flatMap((one): [number, string][] =>
      one.doubt === undefined ? [] : [[(one.atMs - START) / HOUR, one.doubt.code]],
    ),
  );
  if (found.size > 0) expect(mayBeDoubted(columnOf(rows))).toBe(true);
  return found;
}
const codes = (found: Map<number, string>): string[] => [...new Set(found.values())];
const every = (hours: number, values: readonly number[], part: Partial<Observation> = {}): Observation[] =>
  values.map((value, i) => row({ ...part, value, atMs: START + i * hours * HOUR }));
/** Values that never rest, repeat or step: nothing but what a test adds to them can be found. */
const restless = (count: number, mean = 10): number[] =>
  Array.from({ length: count }, (_, i) => mean + 0.3 * Math.sin(i * 1.7) + ((i * 37) % 101) / 1000);

describe('what can be', () => {
  // The compass, percent, and WMO code table 4677 have ends of their own.
  it.each([
    ['humidity', 0, 105],
    ['cloud', 0, 100],
    ['thunder', 0, 100],
    ['wind_dir', 0, 360],
    ['weather_code', 0, 99],
    ['wind_speed', 0, 115],
    ['wind_gust', 0, 115],
    ['cape', 0, 10_000],
    ['water_temp', -1, 42],
    ['turbidity', -1, 10_000],
    ['air_temp', -75, 58],
    ['dew_point', -80, 40],
    ['pressure', 550, 1090],
    ['shortwave', -10, 1500],
    ['level', -450, 5500],
    ['discharge', -20_000, 300_000],
    ['inflow', -20_000, 300_000],
    ['release', -1, 300_000],
  ] as const)('%s lies from %d to %d, ends and all', (variable, low, high) => {
    for (const kind of ['observed', 'model'] as const) {
      expect(doubts([row({ variable, kind, value: low })]).size).toBe(0);
      expect(doubts([row({ variable, kind, value: high })]).size).toBe(0);
      for (const value of [low - 0.001, high + 0.001, Number.NaN])
        expect(codes(doubts([row({ variable, kind, value })]))).toEqual(['doubt.impossible']);
    }
  });

  it('rain is held to its own time: 320 mm in an hour or less, 640 in two, 1,900 in a day', () => {
    const rain = (value: number, hours: number) =>
      doubts([row({ variable: 'rain', value, periodS: hours * 3600 })]).size;
    expect([rain(320, 1), rain(320.1, 1), rain(320, 0.25), rain(320.1, 0.25)]).toEqual([0, 1, 0, 1]);
    expect([rain(640, 2), rain(640.1, 2), rain(1900, 24), rain(1900.1, 24)]).toEqual([0, 1, 0, 1]);
    expect(rain(-0.001, 1)).toBe(1);
  });

  it.each(VARIABLES)('a service’s code for missing is none of %s', (variable) => {
    for (const value of [-999_999, -99_999, 999_999])
      expect(codes(doubts([row({ variable, value, periodS: 3600 })]))).toEqual(['doubt.impossible']);
  });
});

describe('a lone excursion', () => {
  const SIZES = [
    ['water_temp', 3],
    ['air_temp', 8],
    ['dew_point', 8],
    ['pressure', 8],
    ['level', 0.5],
  ] as const;
  /** A flat series around nought, where sums are exact, but pressure, which cannot be there. */
  const flat = (variable: Observation['variable'], size: number, hours = 1): Map<number, string> => {
    const base = variable === 'pressure' ? 1000 : 0;
    return doubts(every(hours, [base, base, base + size, base, base], { variable }));
  };
  it.each(SIZES)('of %s is believed up to %d either way, and no further', (variable, size) => {
    for (const sign of variable === 'water_temp' ? [1] : [1, -1]) {
      expect(flat(variable, sign * size).size).toBe(0);
      expect([...flat(variable, sign * size * 1.01)]).toEqual([[2, 'doubt.spike']]);
    }
  });
  it('needs both neighbours within three hours, at three too', () => {
    expect([...flat('water_temp', 3.5, 3)]).toEqual([[6, 'doubt.spike']]);
    expect(flat('water_temp', 3.5, 3.01).size).toBe(0);
    const late = every(1, [5, 5, 9, 5, 5]).map((one, i) =>
      i < 3 ? one : { ...one, atMs: one.atMs + 2.5 * HOUR },
    );
    expect(doubts(late).size).toBe(0);
    const early = every(1, [5, 5, 9, 5, 5]).map((one, i) =>
      i > 1 ? one : { ...one, atMs: one.atMs - 2.5 * HOUR },
    );
    expect(doubts(early).size).toBe(0);
  });
  it('is none where the series goes on from it, as a flood does', () => {
    expect(doubts(every(1, [5, 5, 8.4, 8.5, 8.6])).size).toBe(0);
    expect(doubts(every(1, [5, 5, 8.5, 5.1, 9, 9.1, 9.2])).size).toBe(1);
  });
  it.each(['wind_speed', 'discharge', 'turbidity', 'rain'] as const)('of %s is weather', (variable) => {
    expect(doubts(every(1, [1, 1, 90, 1, 1, 2], { variable, periodS: 3600 })).size).toBe(0);
  });
});

describe('a newest value that jumped', () => {
  it.each([
    ['water_temp', 4],
    ['air_temp', 15],
    ['level', 1],
  ] as const)('of %s is believed up to %d, and waits for the next beyond it', (variable, size) => {
    const after = (step: number, hours = 1) => [...doubts(every(hours, [0, 0, 0, step], { variable }))];
    expect(after(size)).toEqual([]);
    expect(after(size * 1.01)).toEqual([[3, 'doubt.unconfirmed']]);
    if (variable !== 'water_temp') expect(after(-size * 1.01)).toEqual([[3, 'doubt.unconfirmed']]);
    expect(after(size * 1.01, 3)).toEqual([[9, 'doubt.unconfirmed']]);
    expect(after(size * 1.01, 3.01)).toEqual([]);
  });
  it('is not held against a value that is a spike itself', () => {
    expect([...doubts(every(1, [5, 5, 12, 5, 5, 5]))]).toEqual([[2, 'doubt.spike']]);
    expect([...doubts(every(1, [5, 5, 5, 12, 5]))]).toEqual([[3, 'doubt.spike']]);
  });
  it('needs a value before it', () => {
    expect(doubts([row({ value: 30 })]).size).toBe(0);
  });
});

describe('a stuck sensor', () => {
  it.each([
    ['air_temp', 18],
    ['dew_point', 18],
    ['humidity', 36],
    ['pressure', 24],
    ['wind_speed', 24],
    ['wind_dir', 48],
    ['water_temp', 96],
    ['turbidity', 96],
  ] as const)('of %s is one from %d hours on', (variable, hours) => {
    const value = variable === 'pressure' ? 1000 : 33;
    const held = (count: number) => doubts(hourly(new Array<number>(count).fill(value), { variable }));
    expect(held(hours).size).toBe(0);
    expect(held(hours + 1).size).toBe(hours + 1);
    expect(codes(held(hours + 1))).toEqual(['doubt.stuck']);
    // Beyond a day a held value repeats the day before, which the screen looks at too.
    const day = new Array<number>(Math.min(24, hours)).fill(value);
    expect(mayBeDoubted(columnOf(hourly(day, { variable })))).toBe(false);
  });
  it('needs eight values: seven a day and a half apart are a service that says little', () => {
    const held = (count: number) => doubts(every(16, new Array<number>(count).fill(11)));
    expect(held(7).size).toBe(0);
    expect(held(8).size).toBe(8);
  });
  it('is none where weather really rests: calm, its direction, fog; but air may not rest at nought', () => {
    const held = (variable: Observation['variable'], value: number) =>
      doubts(hourly(new Array<number>(120).fill(value), { variable })).size;
    expect([held('wind_speed', 0), held('wind_dir', 0), held('humidity', 99), held('humidity', 100)]).toEqual(
      [0, 0, 0, 0],
    );
    expect([
      held('air_temp', 0),
      held('dew_point', 0),
      held('humidity', 98.9),
      held('wind_speed', 0.1),
    ]).toEqual([120, 120, 120, 120]);
    expect([held('level', 5), held('discharge', 5), held('release', 5), held('cloud', 5)]).toEqual([
      0, 0, 0, 0,
    ]);
  });
  it('is named for its own run alone', () => {
    const values = [...restless(30), ...new Array<number>(100).fill(11), ...restless(30)];
    const found = doubts(hourly(values));
    expect([Math.min(...found.keys()), Math.max(...found.keys()), found.size]).toEqual([30, 129, 100]);
  });
});

describe('a thermometer in the air', () => {
  const DAY = Array.from({ length: 24 }, (_, h) => h);
  /** A day whose range is as told and whose shape is the sun's. */
  const day = (rangeK: number) => DAY.map((h) => 10 + (rangeK / 2) * Math.cos(((h - 15) * Math.PI) / 12));
  const air = hourly(
    DAY.map((h) => 8 + 5 * Math.cos(((h - 15) * Math.PI) / 12)),
    {
      variable: 'air_temp',
      source: 'nws',
    },
  );

  it('has a daily range of more than 7 K', () => {
    expect(doubts(hourly(day(6.99))).size).toBe(0);
    expect(codes(doubts(hourly(day(7.01))))).toEqual(['doubt.dryRange']);
  });
  it('over its last 24 hours too, across midnight, though neither day alone shows it', () => {
    // It warms by a third of a kelvin an hour from noon to noon: 4 K on either day, 8 K in the 24 h.
    const values = Array.from({ length: 36 }, (_, h) => 10 + Math.max(0, h - 11) * 0.33);
    const found = doubts(hourly(values));
    expect([Math.min(...found.keys()), Math.max(...found.keys()), found.size]).toEqual([12, 35, 24]);
    expect(doubts(hourly(values.slice(0, 33))).size).toBe(0);
  });
  it('or of 4 K and more that goes with the air', () => {
    // Slope against this air is the range over 10 K: 4 K would be 0.4, so a colder day with a range of 6 K is needed.
    const mild = hourly(
      DAY.map((h) => 8 + 3 * Math.cos(((h - 15) * Math.PI) / 12)),
      {
        variable: 'air_temp',
        source: 'nws',
      },
    );
    expect(codes(doubts(hourly(day(4)), mild))).toEqual(['doubt.tracksAir']);
    expect(doubts(hourly(day(3.99)), mild).size).toBe(0);
    expect(mayBeDoubted(columnOf(hourly(day(3.9))))).toBe(false);
  });
  it('goes nearly as far as the air: six tenths of it is a shallow cove', () => {
    expect(codes(doubts(hourly(day(6.2)), air))).toEqual(['doubt.tracksAir']);
    expect(doubts(hourly(day(5.8)), air).size).toBe(0);
  });
  it('goes hour by hour with it: a cove that lags two hours and more behind does not', () => {
    // Lag of n hours is a correlation of cos(15 n degrees): 0.966 at one, 0.866 at two, 0.707 at three. As wide as the air.
    const mild = hourly(
      DAY.map((h) => 8 + 3.3 * Math.cos(((h - 15) * Math.PI) / 12)),
      { variable: 'air_temp', source: 'nws' },
    );
    const lagging = (hours: number) =>
      hourly(DAY.map((h) => 10 + 3.3 * Math.cos(((h - 15 - hours) * Math.PI) / 12)));
    expect(codes(doubts(lagging(1), mild))).toEqual(['doubt.tracksAir']);
    expect(doubts(lagging(2), mild).size).toBe(0);
    expect(doubts(lagging(3), mild).size).toBe(0);
  });
  it('is not told from fewer than six values of a day, or of the air', () => {
    const at = (...hours: number[]) => hourly(day(9)).filter((_, h) => hours.includes(h));
    expect(doubts(at(1, 4, 7, 11, 15)).size).toBe(0);
    expect(doubts(at(1, 3, 5, 8, 11, 15)).size).toBe(6);
    const little = (count: number) => air.filter((_, h) => h >= 6 && h < 6 + count);
    expect(doubts(hourly(day(6.8)), little(5)).size).toBe(0);
    expect(doubts(hourly(day(6.8)), little(10)).size).toBe(24);
  });
  it('is nothing beside air that does not move', () => {
    const still = hourly(new Array<number>(24).fill(5), { variable: 'air_temp', kind: 'model' });
    expect(doubts(hourly(day(6)), still).size).toBe(0);
  });
  it('is held against a thermometer before an analysis before a model, and never against a forecast', () => {
    const other = (kind: Observation['kind'], shiftH: number) =>
      hourly(
        DAY.map((h) => 8 + 5 * Math.cos(((h - 15 - shiftH) * Math.PI) / 12)),
        {
          variable: 'air_temp',
          source: 'open-meteo',
          station: kind,
          kind,
        },
      );
    const water = hourly(day(6.8));
    expect(doubts(water, other('model', 6), other('analysis', 0)).size).toBe(24);
    expect(doubts(water, other('model', 0), other('analysis', 6)).size).toBe(0);
    expect(doubts(water, other('analysis', 6), other('observed', 0)).size).toBe(24);
    expect(doubts(water, other('analysis', 0), other('observed', 6)).size).toBe(0);
    expect(doubts(water, other('forecast', 0)).size).toBe(0);
    expect(doubts(water, other('forecast', 6), other('model', 0)).size).toBe(24);
  });
  it('is not held against air that is itself doubted', () => {
    const wild = air.map((one, h) => (h % 2 === 0 ? one : { ...one, value: 99 }));
    // Twelve believed hours are enough, and none of the impossible ones among them.
    expect(codes(doubts(hourly(day(6.8)), wild))).toEqual(['doubt.tracksAir']);
    const none = air.map((one) => ({ ...one, value: one.value + 90 }));
    expect(doubts(hourly(day(6.8)), none).size).toBe(0);
  });
  it('is a matter of water alone', () => {
    expect(doubts(hourly(day(9), { variable: 'air_temp' })).size).toBe(0);
  });
});

describe('a gauge whose zero was moved', () => {
  /** Level around nought, where sums are exact; `from` hours before the step, `to` values from it on. */
  const moved = (stepM: number, from = 30, to = 30, hours = 1, part: Partial<Observation> = {}) =>
    doubts(
      every(hours, [...new Array<number>(from).fill(0), ...new Array<number>(to).fill(stepM)], {
        variable: 'level',
        ...part,
      }),
    );
  it('shows a step above 0.3 m, up or down', () => {
    expect(moved(0.3).size).toBe(0);
    expect(moved(0.31).size).toBe(30);
    expect(moved(-0.31).size).toBe(30);
    expect(codes(moved(0.31))).toEqual(['doubt.datumJump']);
    const down = hourly([...new Array<number>(30).fill(5.5), ...new Array<number>(30).fill(5)], {
      variable: 'level',
    });
    expect(judgeSeries([down])[0]?.[0]?.doubt).toEqual({ code: 'doubt.datumJump', stepM: 0.5 });
    expect(mayBeDoubted(columnOf(every(1, [0, 0, 0.29, 0.29, 0.29], { variable: 'level' })))).toBe(false);
  });
  it('with a whole day on either side', () => {
    expect(moved(0.4, 25, 25).size).toBe(25);
    expect(moved(0.4, 24, 25).size).toBe(0);
    expect(moved(0.4, 25, 24).size).toBe(0);
  });
  it('between values two hours apart or less', () => {
    expect(moved(0.4, 30, 30, 2).size).toBe(30);
    expect(moved(0.4, 30, 30, 2.01).size).toBe(0);
  });
  it('twenty times what the level moves by between values, and no less', () => {
    const rising = (stepM: number) =>
      doubts(
        hourly(
          Array.from({ length: 60 }, (_, h) => 0.02 * h + (h >= 30 ? stepM : 0)),
          { variable: 'level' },
        ),
      ).size;
    expect(rising(0.36)).toBe(0);
    expect(rising(0.39)).toBe(30);
  });
  it('once: two such steps that both last are a lake that is let down', () => {
    const plateau = (levelM: number) => new Array<number>(30).fill(levelM);
    expect(doubts(hourly([...plateau(0), ...plateau(0.5), ...plateau(1)], { variable: 'level' })).size).toBe(
      0,
    );
  });
  it('and is a matter of levels alone', () => {
    expect(moved(0.4, 30, 30, 1, { variable: 'discharge' }).size).toBe(0);
  });
});

describe('a copied day', () => {
  const copy = (variable: Observation['variable'], day: readonly number[]) =>
    doubts([
      ...every(24 / day.length, day, { variable }),
      ...every(24 / day.length, day, { variable }).map((one) => ({ ...one, atMs: one.atMs + 24 * HOUR })),
    ]);
  it('has eight values or more, of five sizes or more', () => {
    expect(copy('humidity', [41, 42, 43, 44, 45, 46, 47]).size).toBe(0);
    expect(codes(copy('humidity', [41, 42, 43, 44, 45, 46, 47, 48]))).toEqual(['doubt.duplicateDay']);
    expect(copy('humidity', [41, 42, 43, 44, 41, 42, 43, 44]).size).toBe(0);
    expect(copy('humidity', [41, 42, 43, 44, 45, 41, 42, 43]).size).toBe(8);
  });
  it('is the second of the two', () => {
    expect(Math.min(...copy('humidity', restless(24, 50)).keys())).toBe(24);
  });
  it('differs in one value, and is a day of its own', () => {
    for (const at of [0, 11, 23]) {
      const day = restless(24, 50);
      const next = day.map((value, h) => (h === at ? value + 0.01 : value));
      const rows = hourly([...day, ...next], { variable: 'humidity' });
      expect(doubts(rows).size).toBe(0);
      expect(mayBeDoubted(columnOf(rows))).toBe(false);
    }
  });
  it.each(['cloud', 'thunder', 'weather_code', 'cape', 'release', 'wind_dir'] as const)(
    'of %s may really come twice',
    (variable) => {
      const rows = hourly([...restless(24, 40), ...restless(24, 40)], { variable });
      expect(doubts(rows).size).toBe(0);
      expect(mayBeDoubted(columnOf(rows))).toBe(false);
    },
  );
});

describe('two depths in one series', () => {
  const zigzag = (stepK: number, hours = 1, count = 24) =>
    doubts(
      every(
        hours,
        Array.from({ length: count }, (_, i) => 15 + (i % 2) * stepK),
      ),
    );
  it('lie more than 0.8 K apart', () => {
    expect(zigzag(0.79).size).toBe(0);
    expect(codes(zigzag(0.81))).toEqual(['doubt.twoDepths']);
    expect(zigzag(0.81).size).toBe(24);
  });
  it('change from value to value within three hours, twelve of them at least', () => {
    expect(zigzag(1, 1.5).size).toBe(24);
    expect(zigzag(1, 1.51).size).toBe(0);
    // Nine of twelve must go to and fro, and the first two cannot.
    expect(zigzag(1, 1, 11).size).toBe(0);
    expect(zigzag(1, 1, 12).size).toBe(12);
  });
  it('come back to where they were: a stair does not', () => {
    const stair = (back: number) =>
      doubts(
        every(
          1,
          Array.from({ length: 12 }, (_, i) => 10 + i * back + (i % 2) * 1),
        ),
      ).size;
    expect(stair(0.15)).toBe(12);
    expect(stair(0.35)).toBe(0);
  });
});

describe('a doubt', () => {
  it('is stored by its code, whichever check it came from, and nothing else is one', () => {
    const all = [
      { code: 'doubt.stated', text: 'ice' },
      { code: 'doubt.impossible', low: 0, high: 1 },
      { code: 'doubt.twoDepths' },
      { code: 'doubt.spike' },
      { code: 'doubt.unconfirmed' },
      { code: 'doubt.stuck', hours: 18 },
      { code: 'doubt.duplicateDay' },
      { code: 'doubt.dryRange', rangeK: 9 },
      { code: 'doubt.tracksAir' },
      { code: 'doubt.datumJump', stepM: null },
      { code: 'doubt.levelStep', stepM: 130 },
      { code: 'doubt.wrongSeries', share: 0.3 },
      { code: 'doubt.clock', aheadMs: 6 * HOUR },
      { code: 'doubt.twoValues', apart: 3.7 },
    ];
    expect(all.map((one) => doubtSchema.parse(one))).toEqual(all);
    for (const { code } of all.filter((one) => Object.keys(one).length > 1))
      expect(doubtSchema.safeParse({ code }).success).toBe(false);
    expect(doubtSchema.safeParse({ code: '' }).success).toBe(false);
  });
  it('is the same as another by all it holds', () => {
    expect(sameDoubt({ code: 'doubt.spike' }, { code: 'doubt.spike' })).toBe(true);
    expect(sameDoubt({ code: 'doubt.stuck', hours: 18 }, { code: 'doubt.stuck', hours: 24 })).toBe(false);
    expect(sameDoubt(undefined, { code: 'doubt.spike' })).toBe(false);
    expect(sameDoubt(undefined, undefined)).toBe(true);
  });
});

describe('what quality control does to a series', () => {
  it('is to doubt: it moves, drops and rounds nothing, and names what is wrong by the first check that saw it', () => {
    fc.assert(
      fc.property(fc.array(fc.double({ min: -20, max: 60, noNaN: true }), { maxLength: 60 }), (values) => {
        const rows = hourly(values);
        const [judged = []] = judgeSeries([rows]);
        expect(judged.map(({ doubt: _, ...rest }) => rest)).toEqual(rows);
        judged.forEach(({ value, doubt }) => {
          expect(doubt?.code === 'doubt.impossible').toBe(value < -1 || value > 42);
        });
      }),
    );
  });
  it('goes on after what an earlier check found: a spike hides no stuck sensor, and no gauge whose zero was moved', () => {
    const stuckAfterSpike = [...restless(20), 18, ...restless(20), ...new Array<number>(100).fill(11)];
    const found = doubts(hourly(stuckAfterSpike));
    expect([found.get(20), found.get(60), found.size]).toEqual(['doubt.spike', 'doubt.stuck', 101]);
    const moved = Array.from({ length: 60 }, (_, h) => (h === 10 ? 5 : h >= 30 ? 0.4 : 0));
    expect(codes(doubts(hourly(moved, { variable: 'level' })))).toEqual(['doubt.datumJump', 'doubt.spike']);
  });
  it('leaves what is well as it was, the very same rows', () => {
    const rows = hourly(wave(72, 12, 1));
    expect(judgeSeries([rows])[0]).toBe(rows);
    expect(judgeSeries([[]])[0]).toEqual([]);
    expect(mayBeDoubted({ ...columnOf(rows), doubts: new Map([[3, { code: 'doubt.spike' }]]) })).toBe(true);
  });
});
