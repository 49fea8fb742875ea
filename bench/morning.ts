/**
 * Processor time of one morning from record to document, in units of a fixed arithmetic loop, so that the machine and
 * its load matter little: a record of 420 days and 30 series, and the view of 60 days out of years.
 *
 * The tree of 2026-11-25 took 41.6 (view), 76.9 (signals), 1.8 (advice), 0.03 (document), 119.8 (morning) and 5.27 (old view).
 * Run: npx tsx bench/morning.ts [years of the old record, default 10]
 */
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { adviceFacts, composeBriefing } from '../src/briefing/index.ts';
import { loadConfig, type LakeConfig } from '../src/config/index.ts';
import { loadRules } from '../src/config/rules.ts';
import { openRecord, type Observation, type RecordStore, type Variable } from '../src/record/index.ts';
import { adviseFrom } from '../src/schedule/advice.ts';
import { briefingView } from '../src/schedule/makeBriefing.ts';
import { readSignals } from '../src/signals/index.ts';
import { withRulesWords } from '../src/words/index.ts';

const HOUR = 3_600_000;
const DAY = 24 * HOUR;
const END = Date.parse('2026-03-06T11:15:00Z');
const LAST = Math.floor(END / HOUR) * HOUR;
const ROUNDS = 5;

/** Fixed work: what everything is measured against. */
function loop(): number {
  let x = 1;
  for (let i = 1; i <= 5_000_000; i += 1) x = Math.sqrt(x * 1.000_001 + i) + (x % 7);
  return x;
}

async function cpuMs(work: () => unknown): Promise<number> {
  const from = process.cpuUsage();
  await work();
  const { user, system } = process.cpuUsage(from);
  return (user + system) / 1000;
}

const wave = (atMs: number, days: number): number => Math.sin((2 * Math.PI * atMs) / (days * DAY));
/** The same every run, and never the same twice in a row, as an instrument's last digit. */
const jitter = (atMs: number, series: number): number => ((atMs / HOUR + series * 131) % 977) / 977;

/** Invented weather and gauges whose values quality control believes. */
const VALUE: Partial<Record<Variable, (atMs: number, j: number) => number>> = {
  air_temp: (t, j) => 12 - 10 * wave(t, 365) + 4 * wave(t, 1) + j,
  humidity: (t, j) => 65 + 20 * wave(t, 1) + 5 * j,
  dew_point: (t, j) => 6 - 8 * wave(t, 365) + j,
  rain: (t, j) => (wave(t, 6) > 0.9 ? 1 + j : 0),
  wind_speed: (t, j) => 3 + 2 * wave(t, 3) + j,
  wind_gust: (t, j) => 6 + 3 * wave(t, 3) + j,
  wind_dir: (t, j) => 180 + 120 * wave(t, 4) + 10 * j,
  cloud: (t, j) => 50 + 40 * wave(t, 5) + 5 * j,
  shortwave: (t, j) => Math.max(0, -600 * wave(t - 6 * HOUR, 1)) * (0.8 + 0.1 * j),
  thunder: (_, j) => 5 * j,
  level: (t, j) => 188 + wave(t, 60) + 0.01 * j,
  discharge: (t, j) => 40 + 20 * wave(t, 9) + j,
  release: (t, j) => 30 + 25 * wave(t, 1) + j,
  water_temp: (t, j) => 14 - 8 * wave(t, 365) + 0.3 * wave(t, 1) + 0.2 * j,
  turbidity: (t, j) => 8 + 5 * wave(t, 11) + j,
};
type Row = readonly [variable: Variable, source: string, station: string, kind: Observation['kind']];
const WEATHER: readonly Variable[] = [
  'air_temp',
  'humidity',
  'rain',
  'wind_speed',
  'wind_gust',
  'wind_dir',
  'cloud',
  'shortwave',
  'thunder',
];
const MEASURED: readonly Row[] = [
  ...WEATHER.map((variable): Row => [variable, 'open-meteo', '', 'model']),
  ...(['air_temp', 'humidity', 'dew_point', 'wind_speed', 'wind_gust', 'rain'] as const).map(
    (variable): Row => [variable, 'nws', 'KXYZ', 'observed'],
  ),
  ['level', 'usgs', 'USGS-01', 'observed'],
  ['level', 'usgs', 'USGS-02', 'observed'],
  ['discharge', 'usgs', 'USGS-03', 'observed'],
  ['release', 'usgs', 'USGS-04', 'observed'],
  ['water_temp', 'usgs', 'USGS-01', 'observed'],
  ['turbidity', 'usgs', 'USGS-01', 'observed'],
];
const FORECAST: readonly Row[] = WEATHER.map((variable) => [variable, 'open-meteo', '', 'forecast']);

const LAKE: Partial<LakeConfig> = {
  gauges: [
    { service: 'usgs', station: 'USGS-01', variable: 'level', where: 'at the dam' },
    { service: 'usgs', station: 'USGS-02', variable: 'level', where: 'at the bridge' },
    { service: 'usgs', station: 'USGS-03', variable: 'discharge', where: 'below the mill' },
    { service: 'usgs', station: 'USGS-04', variable: 'release', where: 'at the dam' },
    { service: 'usgs', station: 'USGS-01', variable: 'water_temp', where: 'at the dam', depthM: 1 },
    { service: 'usgs', station: 'USGS-01', variable: 'turbidity', where: 'at the dam' },
  ],
};

function rowsOf(
  [variable, source, station, kind]: Row,
  series: number,
  fromMs: number,
  toMs: number,
): Observation[] {
  const rows: Observation[] = [];
  const value = VALUE[variable];
  const issuedMs = kind === 'forecast' ? LAST - HOUR : null;
  const periodS = variable === 'rain' || variable === 'shortwave' ? 3600 : 0;
  for (let atMs = fromMs; value !== undefined && atMs <= toMs; atMs += HOUR)
    rows.push({
      lake: 'bench',
      variable,
      source,
      station,
      kind,
      atMs,
      periodS,
      value: value(atMs, jitter(atMs, series)),
      issuedMs,
    });
  return rows;
}

async function fill(record: RecordStore, days: number): Promise<void> {
  for (let back = days; back > 0; back -= 60)
    for (const [series, row] of MEASURED.entries())
      await record.putObservations(
        rowsOf(row, series, LAST - back * DAY + HOUR, Math.min(LAST, LAST - (back - 60) * DAY)),
      );
  for (const [series, row] of FORECAST.entries())
    await record.putObservations(rowsOf(row, series, LAST, LAST + 10 * DAY));
}

const median = (values: number[]): number =>
  [...values].sort((a, b) => a - b)[Math.floor(values.length / 2)] ?? NaN;

const folder = mkdtempSync(join(tmpdir(), 'morning-bench-'));
try {
  const example = await loadConfig('config/thawline.example.yaml');
  const [first] = example.lakes;
  if (first === undefined) throw new Error('The example has no lake.');
  const lake: LakeConfig = { ...first, ...LAKE, id: 'bench' };
  const rules = loadRules();
  const record = await openRecord(join(folder, 'record.sqlite'));
  await fill(record, 420);
  const years = Number(process.argv[2] ?? 10);
  const old = await openRecord(join(folder, 'old.sqlite'));
  await fill(old, 60 * Math.ceil((years * 365.25) / 60));

  const times: Record<string, number[]> = {};
  const note = (name: string, ms: number): void => void (times[name] ??= []).push(ms);
  for (let round = 0; round <= ROUNDS; round += 1) {
    const one: Record<string, number> = {};
    const unit = await cpuMs(loop);
    let view = await briefingView(record, lake, END);
    one.view = await cpuMs(async () => (view = await briefingView(record, lake, END)));
    let report = readSignals(view, lake);
    one.signals = await cpuMs(() => (report = readSignals(view, lake)));
    let advice = adviseFrom({ config: example, rules }, lake, view, report);
    one.advice = await cpuMs(() => (advice = adviseFrom({ config: example, rules }, lake, view, report)));
    one.document = await cpuMs(() =>
      withRulesWords(
        composeBriefing({
          lake,
          report,
          advice: adviceFacts(advice),
          issuedMs: END,
          validUntilMs: END + 12 * HOUR,
          nextIssueMs: END + DAY,
          status: 'scheduled',
          retrievals: [],
          demo: false,
        }),
        rules.texts,
      ),
    );
    one.morning = (one.view ?? 0) + (one.signals ?? 0) + (one.advice ?? 0) + (one.document ?? 0);
    one.oldView = await cpuMs(() => old.view('bench', END));
    if (round === 0) continue;
    note('loop', unit);
    for (const [name, ms] of Object.entries(one)) note(name, ms);
  }
  const unit = median(times.loop ?? []);
  for (const [name, all] of Object.entries(times)) {
    const ms = median(all);
    console.log(
      `${name.padEnd(10)} ${ms.toFixed(1).padStart(8)} ms ${(ms / unit).toFixed(3).padStart(8)} loops`,
    );
  }
  await record.close();
  await old.close();
} finally {
  rmSync(folder, { recursive: true, force: true });
}
