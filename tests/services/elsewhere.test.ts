/** Gauges outside the two big networks, loggers, the archive, and the probe. */
import { afterEach, describe, expect, it } from 'vitest';
import { fetchArchive, probeServices, refreshLakes } from '../../src/services/index.ts';
import { mapEccc } from '../../src/services/canada.ts';
import { mapLogger } from '../../src/services/csv/logger.ts';
import { chooseMeasure, mapReadings, measuresOf } from '../../src/services/environmentAgency.ts';
import type { GaugeConfig } from '../../src/config/types.ts';
import { startReplayServer, type ReplayOptions, type ReplayServer } from '../helpers/replayServer.ts';
import {
  gauge,
  HOUR_MS,
  inventedLake,
  NOW_MS,
  recordedJson,
  testClient,
  testDeps,
  weatherBody,
} from './support.ts';

let server: ReplayServer | null = null;
afterEach(async () => {
  await server?.close();
  server = null;
});
const start = async (options: ReplayOptions): Promise<ReplayServer> =>
  (server = await startReplayServer(options));

const without = (config: GaugeConfig, key: keyof GaugeConfig): GaugeConfig =>
  Object.fromEntries(Object.entries(config).filter(([name]) => name !== key)) as unknown as GaugeConfig;

describe('a station in England', () => {
  const station = recordedJson('ea/flood-monitoring_station_1491TH.json');
  const level = gauge({ service: 'ea', station: '1491TH' });

  it('prefers the stage to the downstream stage, and takes a configured measure', () => {
    const measures = measuresOf(station);
    expect(chooseMeasure(measures, without(level, 'parameter')).notation).toBe(
      '1491TH-level-stage-i-15_min-mASD',
    );
    const downstream = '1491TH-level-downstage-i-15_min-mASD';
    expect(chooseMeasure(measures, { ...level, parameter: downstream }).notation).toBe(downstream);
    expect(() => chooseMeasure(measures, { ...level, parameter: 'x' })).toThrow('name one as "parameter"');
  });

  it('is read over the wire: the station first, then its readings since', async () => {
    const replay = await start({
      ea: (path) =>
        path.endsWith('/readings') ? { items: { dateTime: '2026-03-06T10:00:00Z', value: 1.877 } } : station,
    });
    const lake = inventedLake({ weather: [], gauges: [without(level, 'parameter')] });
    const [refreshed] = await refreshLakes([lake], testDeps(replay, testClient()));
    expect(refreshed?.observations).toMatchObject([
      { value: 1.877, datum: 'ASD', source: 'ea', atMs: Date.UTC(2026, 2, 6, 10) },
    ]);
    expect(replay.seen[1]?.query.get('since')).toBe('2026-03-03T11:15:00Z');
  });

  it('uses no reading whose time names no zone', () => {
    const measure = { notation: 'm', parameter: 'flow', unitName: 'm3/s' };
    const found = mapReadings(
      recordedJson('ea/uk_readings_discharge.json'),
      measure,
      { ...level, variable: 'discharge' },
      'x',
    );
    expect(found).toEqual([]);
  });
});

describe('a station in Canada', () => {
  const feature = recordedJson('eccc/hydrometric-realtime_feature_TRIMMED.json');
  const bow = gauge({ service: 'eccc', station: '05BB001' });

  it('gives level and discharge of the recorded row', () => {
    const body = { features: [feature] };
    expect(mapEccc(body, bow, 'x')).toMatchObject([{ value: 2.395, atMs: Date.UTC(2026, 7, 11) }]);
    expect(mapEccc(body, { ...bow, variable: 'discharge' }, 'x')).toMatchObject([{ value: 56.9 }]);
  });

  it('never returns some rows as all of them', () => {
    expect(() => mapEccc({ features: [feature], numberMatched: 9000 }, bow, 'x')).toThrow(
      'has 9000 rows and sent 1',
    );
  });

  it('is asked once for both of its columns', async () => {
    const replay = await start({ eccc: () => ({ features: [feature] }) });
    const lake = inventedLake({ weather: [], gauges: [bow, { ...bow, variable: 'discharge' }] });
    const nowMs = Date.UTC(2026, 7, 11, 6);
    const [refreshed] = await refreshLakes([lake], testDeps(replay, testClient(), { nowMs }));
    expect(refreshed?.observations.map((o) => o.variable)).toEqual(['level', 'discharge']);
    expect(replay.seen).toHaveLength(1);
  });
});

describe('a logger file', () => {
  const csv = {
    path: 'logger.csv',
    timeColumn: 'Time',
    valueColumn: 'Temp, F',
    unit: '°F',
    zone: 'America/Chicago',
  };
  const logger = gauge({ service: 'csv', station: 'dock', variable: 'water_temp', csv });
  const read = (text: string, over: Partial<typeof csv> & { timeFormat?: string } = {}) =>
    mapLogger(text, { ...logger, csv: { ...csv, ...over } }, 'x', 0, NOW_MS * 2);

  it('reads quoted columns, in the stated zone and unit', () => {
    const { observations, problem } = read(
      '# dock\nTime,"Temp, F"\n2026-03-05 06:00,50\r\n2026-07-05 06:00,"77"\n',
    );
    expect(problem).toBe('');
    expect(observations.map((o) => [o.atMs, o.value])).toEqual([
      [Date.UTC(2026, 2, 5, 12), 10],
      [Date.UTC(2026, 6, 5, 11), 25],
    ]);
  });

  it('leaves out a time that may be two and one that never comes, and says how many', () => {
    const text =
      'Time;"Temp, F"\n2026-11-01 01:30;50\n2026-03-08 02:30;50\n2026-11-01T01:30-05:00;50\n2026-11-01 03:30;50\n';
    const { observations, problem } = read(text);
    expect(observations.map((o) => o.atMs)).toEqual([
      Date.UTC(2026, 10, 1, 6, 30),
      Date.UTC(2026, 10, 1, 9, 30),
    ]);
    expect(problem).toMatch(
      /^The logger file logger\.csv, line 2: column "Time": found "2026-11-01 01:30", expected a time .* 2 of 4 rows were not used\.$/,
    );
  });

  it('tells the hour that comes twice apart by the order of the rows, in either direction', () => {
    const times = ['00:30', '01:00', '01:30', '01:00', '01:30', '02:00'];
    const rows = times.map((time, i) => `2026-11-01 ${time},${50 + i}`);
    // Central Daylight Time until 07:00 UTC, Central Standard Time from then on (NIST: first Sunday of November, 02:00).
    const wanted = times.map((_, i) => Date.UTC(2026, 10, 1, 5, 30 + 30 * i));
    for (const order of [rows, rows.toReversed()]) {
      const { observations, problem } = read(`Time,"Temp, F"\n${order.join('\n')}\n`);
      expect(problem).toBe('');
      expect(observations.map(({ atMs }) => atMs)).toEqual(wanted);
      expect(observations.map(({ value }) => Math.round(value * 1.8 + 32))).toEqual([50, 51, 52, 53, 54, 55]);
    }
  });

  it('guesses nothing where a time of that hour stands there once, or the order says nothing', () => {
    for (const times of [
      ['00:30', '01:00', '01:30', '01:00', '02:00'],
      ['00:30', '01:00', '01:00', '01:30', '01:30', '02:00'],
    ]) {
      const rows = times.map((time, i) => `2026-11-01 ${time},${50 + i}`).join('\n');
      const { observations, problem } = read(`Time,"Temp, F"\n${rows}\n`);
      expect(observations).toHaveLength(2);
      expect(problem).toMatch(/line 3: .* rows were not used\.$/);
    }
  });

  it('does not tell of rows from before the span that is asked for', () => {
    const text =
      'Time,"Temp, F"\n2026-03-01 06:00,--\nlong ago,50\n2026-03-05 06:00,50\n2026-03-05 07:00,--\n';
    const asked = mapLogger(text, logger, 'x', Date.UTC(2026, 2, 4), NOW_MS * 2);
    expect(asked.observations).toHaveLength(1);
    expect(asked.problem).toBe(
      'The logger file logger.csv, line 5: column "Temp, F": found "--", expected a number.',
    );
    const empty = mapLogger(text.replace('--\n', '49\n'), logger, 'x', Date.UTC(2026, 2, 6), NOW_MS * 2);
    expect(empty).toEqual({ observations: [], problem: '' });
  });

  it('reads a stated time format', () => {
    const { observations } = read('Time\t"Temp, F"\n03/05/26 06:00:00 AM\t50\n', {
      timeFormat: 'MM/dd/yy hh:mm:ss a',
    });
    expect(observations[0]?.atMs).toBe(Date.UTC(2026, 2, 5, 12));
  });

  it('takes an empty cell for a gap and text for a fault', () => {
    const { observations, problem } = read(
      'Time,"Temp, F"\n2026-03-05 06:00,\n2026-03-05 07:00,--\n2026-03-05 08:00,50\n',
    );
    expect(observations).toHaveLength(1);
    expect(problem).toBe(
      'The logger file logger.csv, line 3: column "Temp, F": found "--", expected a number.',
    );
  });

  it.each([
    ['a missing column', 'When,Temp\n1,2\n', {}, 'has no column "Time"; it has When, Temp.'],
    ['an unknown zone', 'Time,"Temp, F"\n', { zone: 'Mars/Base' }, 'The zone "Mars/Base"'],
    ['an unknown unit', 'Time,"Temp, F"\n', { unit: 'furlong' }, 'gave the unit "furlong" for water_temp'],
    ['nothing readable', 'Time,"Temp, F"\nyesterday,50\n', {}, 'line 2: column "Time": found "yesterday"'],
    ['an open quote', 'Time,"Temp, F\n', {}, 'a quote that is never closed'],
    ['an empty file', '', {}, 'is empty'],
  ])('names %s', (_, text, over, sentence) => {
    expect(() => read(text, over)).toThrow(sentence);
  });

  it.each([
    [
      'decimal commas between semicolons',
      'Time;"Temp, F"\n2026-03-05 06:00;50,5\n',
      /line 2: column "Temp, F": found "50,5", expected a number; .*decimal point, no comma: write 50\.5/,
    ],
    [
      'decimal commas between commas',
      'Time,"Temp, F"\n2026-03-05 06:00,50,5\n',
      /line 2: 3 fields where the header has 2\. If a comma stands before decimals/,
    ],
    [
      'letters of two bytes',
      Buffer.from('\ufeffTime,T\n', 'utf16le').toString('utf8'),
      /line 1: this is UTF-16/,
    ],
    [
      'letters of two bytes in the other order',
      Buffer.from('\ufeffTime,T\n', 'utf16le').swap16().toString('utf8'),
      /line 1: this is UTF-16/,
    ],
    [
      'two columns of one name',
      'Time,"Temp, F","Temp, F"\n1,2,3\n',
      /line 1: 2 columns are called "Temp, F"/,
    ],
    [
      'a number that is none',
      'Time,"Temp, F"\n2026-03-05 06:00,fifty\n',
      /line 2: column "Temp, F": found "fifty"/,
    ],
    [
      'degrees Celsius called Fahrenheit',
      'Time,"Temp, F"\n2026-03-05 06:00,9.5\n2026-03-05 07:00,9.6\n2026-03-05 08:00,-999999\n',
      /line 1: column "Temp, F": 2 of 3 values, such as 9\.5, cannot be water_temp in °F, and can in °C\. Write unit: °C/,
    ],
  ])('refuses %s with the place', (_, text, sentence) => {
    expect(() => read(text)).toThrow(sentence);
  });

  it('refuses degrees Fahrenheit called Celsius, and minds a column whose name says another unit', () => {
    const text = (value: number): string => `Time,"Temp, F"\n2026-03-05 06:00,${value}\n`;
    expect(() => read(text(50), { unit: '°C' })).toThrow(/cannot be water_temp in °C, and can in °F/);
    const { observations, problem } = read(text(30), { unit: 'C' });
    expect(observations.map(({ value }) => value)).toEqual([30]);
    expect(problem).toMatch(
      /line 1: column "Temp, F": the column calls itself °F, and the configuration says °C/,
    );
  });

  it('uses neither of two values of one instant, and the same one told twice', () => {
    const { observations, problem } = read(
      'Time,"Temp, F"\n2026-03-05 06:00,50\n2026-03-05 07:00,51.8\n2026-03-05 06:00,70\n2026-03-05 07:00,51.8\n',
    );
    expect(observations.map(({ value }) => Math.round(value))).toEqual([11]);
    expect(problem).toMatch(/line 4: column "Temp, F": found 70 for 2026-03-05 06:00, but line 2 has 50/);
  });

  it('is part of a refresh, and its absence is one sentence', async () => {
    const text = 'Time,"Temp, F"\n2026-03-06 04:00,50\n2026-01-01 04:00,40\n';
    const lake = inventedLake({ weather: [], gauges: [logger] });
    const client = testClient();
    const [found] = await refreshLakes(
      [lake],
      testDeps(null, client, { readFile: async () => Promise.resolve(text) }),
    );
    expect(found?.observations.map((o) => o.value)).toEqual([10]);
    const gone = async () => Promise.reject(Object.assign(new Error('no'), { code: 'ENOENT' }));
    const [missing] = await refreshLakes([lake], testDeps(null, client, { readFile: gone }));
    expect(missing?.retrievals).toMatchObject([
      {
        ok: false,
        problem: expect.stringMatching(
          /^The logger file logger\.csv could not be read \(ENOENT\): correct csv\.path/,
        ) as string,
      },
    ]);
  });
});

describe('the archive', () => {
  it('gives hours of the past as model values, never as observations or forecasts', async () => {
    const replay = await start({ openMeteoArchive: weatherBody });
    const found = await fetchArchive(
      inventedLake(),
      '2026-03-01',
      '2026-03-10',
      testDeps(replay, testClient()),
    );
    expect(new Set(found.map((o) => o.kind))).toEqual(new Set(['model']));
    expect(Math.max(...found.map((o) => o.atMs))).toBeLessThanOrEqual(NOW_MS);
    expect(replay.seen[0]?.query.get('start_date')).toBe('2026-03-01');
    expect(replay.seen[0]?.query.get('hourly')).not.toContain('probability');
  });

  it('raises when it cannot be read', async () => {
    const replay = await start({ fault: { 'open-meteo-archive': 'html' } });
    await expect(
      fetchArchive(inventedLake(), '2026-03-01', '2026-03-10', testDeps(replay, testClient())),
    ).rejects.toThrow('Open-Meteo archive answered with a web page instead of data');
  });
});

describe('the probe', () => {
  it('says of each configured service whether it works', async () => {
    const replay = await start({
      openMeteo: weatherBody,
      usgs: [
        {
          site: 'USGS-00000001',
          parameter: '00062',
          series: 's',
          atMs: NOW_MS - HOUR_MS,
          value: '1',
          unit: 'ft',
        },
      ],
      fault: { nws: '500' },
    });
    const config = {
      lakes: [inventedLake({ alerts: 'nws', gauges: [gauge()] })],
      services: testDeps(replay, testClient()).services,
    };
    const rows = await probeServices(config, { client: testClient(), nowMs: NOW_MS });
    expect(rows.map((r) => [r.service, r.ok])).toEqual([
      ['nws', false],
      ['open-meteo', true],
      ['usgs', true],
    ]);
    expect(rows[0]?.sentence).toBe(
      'National Weather Service answered 500: it has a fault of its own ("An unexpected problem has occurred").',
    );
  });
});
