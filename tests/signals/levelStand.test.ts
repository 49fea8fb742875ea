import { describe, expect, it } from 'vitest';
import type { GaugeConfig, LakeConfig } from '../../src/config/types.ts';
import type { LevelDay, Observation, RecordView } from '../../src/record/types.ts';
import { isOf, readSignals } from '../../src/signals/index.ts';
import { windSetupM } from '../../src/science/index.ts';
import { gauge, observation, recordView, testLake } from '../helpers/weatherRecord.ts';

const AS_OF = '2026-03-06T11:15:00Z'; // 05:15 at the lake
const NOW = Date.parse(AS_OF);
const LAST = Date.parse('2026-03-06T11:00:00Z');
const HOUR = 3_600_000;
const DAY = 24 * HOUR;

const lakeWith = (more: Partial<LakeConfig>): LakeConfig => ({ ...testLake, ...more });
const level = (value: (back: number) => number, more: Partial<Observation> = {}): Observation[] =>
  gauge('level', LAST, 10, value, { station: 'USGS-1/00062/a', ...more });
/** One level a day for so many days before the last ten. */
const days = (
  count: number,
  levelM: (daysBack: number) => number,
  more: Partial<LevelDay> = {},
): LevelDay[] =>
  Array.from({ length: count }, (_, i) => ({
    source: 'usgs',
    station: 'USGS-1/00062/a',
    datum: '',
    periodS: 0,
    atMs: (Math.floor(NOW / DAY) - count + 0.5 + i) * DAY,
    levelM: levelM(count - i),
    ...more,
  }));
const view = (rows: readonly Observation[], levelDays: readonly LevelDay[] = []): RecordView => ({
  ...recordView({ asOf: AS_OF, extra: rows, pastDays: 30 }),
  levelDays,
});
const read = (record: RecordView, lake: LakeConfig = testLake) => {
  const { conditions, levelBand } = readSignals(record, lake);
  const gapOf = (id: string) => conditions.gaps.find((gap) => gap.id === id)?.fact;
  return { signals: conditions.signals, levelBand, gapOf };
};

describe('level against normal pool', () => {
  const pool = { normalPoolM: 188 };

  it('is the difference where both are on one datum, however it is spelled', () => {
    const { signals } = read(
      view(level(() => 187.6, { datum: 'NAVD 88' })),
      lakeWith({ ...pool, normalPoolDatum: 'NAVD1988' }),
    );
    expect(signals.levelVsNormalM?.value).toBeCloseTo(-0.4, 9);
    expect(signals.levelVsNormalM?.kind).toBe('observed');
  });

  it('does not hang on one wild value', () => {
    const rows = level((back) => (back === 0 ? 190 : 187.6)).concat(
      [10, 20, 30].map((minutes) =>
        observation('level', LAST - minutes * 60_000, 187.6, { station: 'USGS-1/00062/a' }),
      ),
    );
    expect(read(view(rows), lakeWith(pool)).signals.levelVsNormalM?.value).toBeCloseTo(-0.4, 9);
  });

  it('is not computed across datums, and the gap names both', () => {
    const { signals, gapOf } = read(
      view(level(() => 187.6, { datum: 'NGVD29' })),
      lakeWith({ ...pool, normalPoolDatum: 'NAVD88' }),
    );
    expect(signals.levelVsNormalM).toBeUndefined();
    expect(signals.levelM?.value).toBeCloseTo(187.6, 9);
    expect(gapOf('levelVsNormalM')).toEqual({
      code: 'poolOnOtherDatum',
      levelDatum: 'NGVD29',
      poolDatum: 'NAVD88',
    });
  });

  it('is not computed when normal pool names a datum and the gauge does not', () => {
    const { signals, gapOf } = read(
      view(level(() => 187.6)),
      lakeWith({ ...pool, normalPoolDatum: 'NAVD88' }),
    );
    expect(signals.levelVsNormalM).toBeUndefined();
    expect(gapOf('levelVsNormalM')?.code).toBe('levelDatumUnknown');
  });

  it('belongs to the preferred gauge: a fallback on another datum is not set against it', () => {
    const silent = gauge('level', LAST - 3 * DAY, 5, () => 187.5, { datum: 'NAVD88' });
    const second = gauge('level', LAST, 5, () => 187.5, { station: 'USGS-2', datum: 'gage' });
    const { signals, gapOf } = read(view([...silent, ...second]), lakeWith(pool));
    expect(signals.levelM?.source).toMatchObject({ code: 'gauge', fallback: true });
    expect(signals.levelVsNormalM).toBeUndefined();
    expect(gapOf('levelVsNormalM')).toBeDefined();
  });

  it('is not claimed for a gauge height set against an elevation, or feet against metres', () => {
    for (const now of [2.4, 188 / 0.3048]) {
      const { signals, gapOf } = read(view(level(() => now)), lakeWith(pool));
      expect(signals.levelVsNormalM).toBeUndefined();
      expect(gapOf('levelVsNormalM')?.code).toBe('poolTooFar');
    }
    // A shallow lake near the sea: 3 m on the gauge, 12 m above the sea. A flood pool may well stand 9 m higher.
    const shallow = lakeWith({ normalPoolM: 12, meanDepthM: 1.5 });
    expect(read(view(level(() => 3)), shallow).signals.levelVsNormalM).toBeUndefined();
    expect(read(view(level(() => 21)), shallow).signals.levelVsNormalM?.value).toBeCloseTo(9, 9);
    // Half of a deep reservoir drawn down is possible.
    expect(read(view(level(() => 168)), lakeWith(pool)).signals.levelVsNormalM?.value).toBeCloseTo(-20, 9);
  });

  it('says nothing where no normal pool is configured', () => {
    const { signals, gapOf } = read(view(level(() => 187.6)));
    expect(signals.levelVsNormalM).toBeUndefined();
    expect(gapOf('levelVsNormalM')).toBeUndefined();
  });
});

describe('level in the range of the past year', () => {
  const now = level(() => 188);
  const own = days(10, () => 188);
  const daily = (more: Partial<LevelDay> = {}) =>
    days(365, (back) => 188 + 1.5 * Math.sin((Math.PI * back) / 365) ** 2, {
      station: 'USGS-1/00062/daily/d',
      periodS: 86_400,
      ...more,
    });

  it('is told from the first morning where the service keeps daily values', () => {
    const { signals, levelBand } = read(view(now, [...own, ...daily()]));
    expect(signals.levelBandShare?.value).toBeCloseTo(0, 2);
    expect(levelBand?.lowM).toBeCloseTo(188, 2);
    expect(levelBand?.highM).toBeCloseTo(189.5, 2);
    expect(levelBand?.days).toBeGreaterThanOrEqual(364);
  });

  it('is not told from less than half a year, and nothing is claimed', () => {
    const { signals, levelBand } = read(
      view(
        now,
        days(170, () => 188.5),
      ),
    );
    expect(signals.levelBandShare).toBeUndefined();
    expect(levelBand).toBeUndefined();
    expect(
      read(
        view(
          now,
          days(181, (back) => 188 + back / 181),
        ),
      ).signals.levelBandShare?.value,
    ).toBeCloseTo(0, 1);
  });

  it('leaves daily values on another datum, of another parameter or of another gauge alone', () => {
    for (const more of [
      { datum: 'NGVD29' },
      { station: 'USGS-2/00062/daily/d' },
      { source: 'cwms' },
      { station: 'USGS-1/00065/daily/d' },
    ]) {
      const lake = lakeWith({
        gauges: [{ service: 'usgs', station: 'USGS-1', variable: 'level', parameter: '00062', where: 'dam' }],
      });
      expect(read(view(now, [...own, ...daily(more)]), lake).signals.levelBandShare).toBeUndefined();
      expect(read(view(now, [...own, ...daily()]), lake).signals.levelBandShare).toBeDefined();
    }
  });

  it('takes a daily value for the day of the site or of Greenwich, so that a fast fall is no other zero', () => {
    const fallM = 0.5;
    const falling = level((back) => 188 + (fallM * back) / 24);
    // A day's mean of the record stands for noon of Greenwich, half an hour more than half a day before now.
    const ofRecord = days(10, (back) => 188 + fallM * (back - 0.03));
    const year = (shiftDays: number): LevelDay[] =>
      days(365, (back) => 188 + fallM * Math.min(11, back - 0.03 - shiftDays), {
        station: 'USGS-1/00062/daily/d',
        periodS: 86_400,
      });
    // Noon at the lake is six hours later.
    for (const shiftDays of [0.25, 0])
      expect(read(view(falling, [...ofRecord, ...year(shiftDays)])).gapOf('levelBandShare')).toBeUndefined();
    expect(read(view(falling, [...ofRecord, ...year(1)])).gapOf('levelBandShare')).toMatchObject({
      code: 'dailyLevelsDiffer',
    });
  });

  it('believes daily values only where they agree with the gauge, and says when they do not', () => {
    const off = daily().map((day) => ({ ...day, levelM: day.levelM - 0.35 }));
    const { signals, gapOf } = read(view(now, [...own, ...off]));
    expect(signals.levelBandShare).toBeUndefined();
    expect(gapOf('levelBandShare')).toEqual({
      code: 'dailyLevelsDiffer',
      biasM: expect.closeTo(-0.3466, 3) as number,
    });
    // Without shared days nothing shows that they are the same water.
    expect(read(view(now, daily())).signals.levelBandShare).toBeUndefined();
  });

  it('begins after the day on which the zero of the gauge was moved', () => {
    const moved = days(300, (back) => (back > 200 ? 219 : 188 + back / 200)).map((day) =>
      day.levelM > 200 ? { ...day, doubt: { code: 'doubt.datumJump' as const, stepM: 31 } } : day,
    );
    const { levelBand } = read(view(now, [...moved, ...daily()]));
    expect(levelBand?.highM).toBeLessThan(190);
    expect(levelBand?.days).toBe(200);
  });

  it('takes single rows of a long view where no daily means came with it', () => {
    const year = gauge('level', LAST, 200, (back) => 187 + back / 4800, { station: 'USGS-1/00062/a' });
    const { signals, levelBand } = read(recordView({ asOf: AS_OF, extra: year, pastDays: 30 }));
    expect(signals.levelBandShare?.value).toBeCloseTo(0, 1);
    expect(levelBand?.highM).toBeCloseTo(188, 1);
  });
});

describe('a series of the record belongs to a gauge', () => {
  const config = (more: Partial<GaugeConfig>): GaugeConfig => ({
    service: 'usgs',
    station: 'USGS-01234567',
    variable: 'level',
    where: 'dam',
    ...more,
  });
  it.each([
    ['its site', config({}), 'usgs', 'USGS-01234567/00065/a', true],
    ['its site by bare number', config({ station: '01234567' }), 'usgs', 'USGS-01234567/00065/a', true],
    ['a longer number', config({}), 'usgs', 'USGS-012345678/00065/a', false],
    ['its parameter', config({ parameter: '00062' }), 'usgs', 'USGS-01234567/00062/a', true],
    ['another parameter', config({ parameter: '00062' }), 'usgs', 'USGS-01234567/00065/a', false],
    ['another service', config({}), 'nwps', 'USGS-01234567', false],
    [
      'a CWMS series by office and name',
      config({ service: 'cwms', station: 'WOLF', office: 'LRN', parameter: 'WOLF.Elev.Inst.1Hour.0.a' }),
      'cwms',
      'LRN/WOLF.Elev.Inst.1Hour.0.a',
      true,
    ],
    [
      'another CWMS series of the office',
      config({ service: 'cwms', station: 'WOLF', office: 'LRN', parameter: 'WOLF.Elev.Inst.1Hour.0.a' }),
      'cwms',
      'LRN/WOLF.Flow.Inst.1Hour.0.a',
      false,
    ],
    [
      'a measure of the English service',
      config({ service: 'ea', station: '1491TH', parameter: '1491TH-level-stage' }),
      'ea',
      '1491TH/1491TH-level-stage',
      true,
    ],
  ])('%s', (_, wanted, source, station, expected) => {
    expect(isOf({ source, station }, wanted)).toBe(expected);
  });

  it('so that a CWMS level reaches the signals', () => {
    const cwms = config({ service: 'cwms', station: 'WOLF', office: 'LRN', parameter: 'WOLF.Elev.0' });
    const rows = level((back) => 188 - back / 100, { source: 'cwms', station: 'LRN/WOLF.Elev.0' });
    expect(read(view(rows), lakeWith({ gauges: [cwms] })).signals.level24hM?.value).toBeCloseTo(0.24, 2);
  });
});

describe('a wind that tilts the lake', () => {
  // A shallow lake of 20 km: a wind of 15 m/s from the north, which came up eight hours ago.
  const shallow = lakeWith({ meanDepthM: 2, fetchM: 20_000 });
  const rise = windSetupM(15, 20_000, 2);
  const rows = level((back) => 50 + (back <= 7 ? rise * 0.9 : 0));
  const windy = (dir: (backH: number) => number, speed: (backH: number) => number): RecordView => {
    const base = view(rows);
    return {
      ...base,
      observations: base.observations
        .map((row) =>
          row.variable === 'wind_speed' ? { ...row, value: speed((NOW - row.atMs) / HOUR) } : row,
        )
        .concat(
          base.observations
            .filter((row) => row.variable === 'wind_speed')
            .map((row) => ({ ...row, variable: 'wind_dir' as const, value: dir((NOW - row.atMs) / HOUR) })),
        ),
    };
  };

  it('is not reported as a rise of the lake', () => {
    const blown = windy(
      () => 0,
      (back) => (back <= 8 ? 15 : 1),
    );
    expect(rise).toBeGreaterThan(0.15);
    expect(read(blown, shallow).signals.level24hM?.value).toBe(0);
    expect(read(blown, shallow).signals.level24hM?.high).toBeGreaterThan(rise * 0.8);
  });

  it('hides no rise that came without a change of the wind', () => {
    const steady = windy(
      () => 0,
      () => 15,
    );
    expect(read(steady, shallow).signals.level24hM?.value).toBeCloseTo(rise * 0.9, 2);
    // A wind that turned right round has tilted the lake twice as far.
    const turned = windy(
      (back) => (back <= 8 ? 0 : 180),
      () => 15,
    );
    expect(read(turned, shallow).signals.level24hM?.value).toBe(0);
  });

  it('of which no direction is known may have turned right round, and hides what that would', () => {
    const blind = (speed: number): RecordView => {
      const base = windy(
        () => 0,
        () => speed,
      );
      return { ...base, observations: base.observations.filter(({ variable }) => variable !== 'wind_dir') };
    };
    expect(read(blind(15), shallow).signals.level24hM?.value).toBe(0);
    expect(read(blind(2), shallow).signals.level24hM?.value).toBeCloseTo(rise * 0.9, 2);
  });

  it('of which nothing is known is taken for a usual one: the change is told less surely than in a calm', () => {
    const calm = windy(
      () => 0,
      () => 0,
    );
    const unknown = {
      ...calm,
      observations: calm.observations.filter(({ variable }) => !variable.startsWith('wind')),
    };
    const spread = (given: RecordView): number => {
      const { low, high } = read(given, shallow).signals.level24hM ?? {};
      return (high ?? Number.NaN) - (low ?? Number.NaN);
    };
    expect(spread(unknown)).toBeGreaterThan(1.2 * spread(calm));
  });

  it('hides nothing where the lake is deep', () => {
    const blown = windy(
      () => 0,
      (back) => (back <= 8 ? 15 : 1),
    );
    expect(
      read(blown, lakeWith({ meanDepthM: 20, fetchM: 20_000 })).signals.level24hM?.value,
    ).toBeGreaterThan(0.1);
  });
});

describe('the official stage forecast', () => {
  const ahead = (station: string, from: number, perHour: number): Observation[] =>
    [1, 7, 13, 19].map((h) =>
      observation('level', NOW + h * HOUR, from + perHour * h, {
        source: 'nwps',
        station,
        kind: 'forecast',
        issuedMs: NOW - HOUR,
      }),
    );
  const nwps = (station: string): GaugeConfig => ({
    service: 'nwps',
    station,
    variable: 'level',
    where: 'river',
  });

  it('is that of one configured gauge, never a mixture of two', () => {
    const lake = lakeWith({ gauges: [...testLake.gauges, nwps('AAAA1'), nwps('BBBB1')] });
    const rows = [...level(() => 188), ...ahead('BBBB1', 90, 0.1), ...ahead('AAAA1', 4, 0.02)];
    expect(read(view(rows), lake).signals.levelNext24hM?.value).toBeCloseTo(0.36, 9);
    expect(read(view(rows)).signals.levelNext24hM).toBeUndefined();
  });

  it('stands without any level gauge that speaks', () => {
    const lake = lakeWith({ gauges: [nwps('AAAA1')] });
    const { signals } = read(view(ahead('AAAA1', 4, 0.02)), lake);
    expect(signals.levelNext24hM?.kind).toBe('forecast');
    expect(signals.levelM).toBeUndefined();
  });
});
