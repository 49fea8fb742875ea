/**
 * Does an old record slow the briefing? Times `view()` (60 days, 30 hourly series, quality control included) on a file
 * of ten years and on one of 60 days, alternating, and prints medians and their ratio.
 * Run: npx tsx bench/record.ts [years, default 10]
 */
import { mkdtempSync, rmSync, statSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { openRecord, type Observation, type RecordStore } from '../src/record/index.ts';

const HOUR = 3_600_000;
const DAY = 24 * HOUR;
const END = Date.UTC(2026, 2, 1);
const SERIES = 30;
/** Variables in whose range the invented wave lies, so that quality control does its usual work. */
const VARIABLES = [
  'air_temp',
  'humidity',
  'dew_point',
  'wind_speed',
  'level',
  'discharge',
  'water_temp',
  'turbidity',
] as const;
const ROUNDS = 21;

function month(series: number, fromMs: number, toMs: number): Observation[] {
  const rows: Observation[] = [];
  for (let atMs = fromMs; atMs < toMs; atMs += HOUR) {
    rows.push({
      lake: 'pine-hollow',
      variable: VARIABLES[series % VARIABLES.length] ?? 'level',
      source: 'usgs',
      station: `S${series}`,
      kind: 'observed',
      atMs,
      periodS: 0,
      value: 15 + Math.sin(atMs / DAY) + (atMs % 977) / 9770,
      issuedMs: null,
    });
  }
  return rows;
}

async function fill(record: RecordStore, days: number): Promise<number> {
  let rows = 0;
  for (let back = days; back > 0; back -= 60) {
    const fromMs = END - back * DAY;
    for (let s = 0; s < SERIES; s += 1) {
      const { inserted } = await record.putObservations(month(s, fromMs, Math.min(END, fromMs + 60 * DAY)));
      rows += inserted;
    }
  }
  return rows;
}

const median = (values: number[]): number =>
  values.sort((a, b) => a - b)[Math.floor(values.length / 2)] ?? NaN;

const years = Number(process.argv[2] ?? 10);
const folder = mkdtempSync(join(tmpdir(), 'record-bench-'));
try {
  const path = { young: join(folder, 'young.sqlite'), old: join(folder, 'old.sqlite') };
  const young = await openRecord(path.young);
  const old = await openRecord(path.old);
  await fill(young, 60);
  const started = performance.now();
  const rows = await fill(old, 60 * Math.ceil((years * 365.25) / 60));
  const seconds = (performance.now() - started) / 1000;
  const times = { young: [] as number[], old: [] as number[] };
  for (let round = 0; round < ROUNDS; round += 1) {
    for (const [name, record] of [
      ['young', young],
      ['old', old],
    ] as const) {
      const from = performance.now();
      await record.view('pine-hollow', END);
      if (round > 0) times[name].push(performance.now() - from);
    }
  }
  const [a, b] = [median(times.young), median(times.old)];
  console.log(
    `stored ${rows} rows in ${seconds.toFixed(1)} s (${Math.round(rows / seconds)} rows/s), file ${(statSync(path.old).size / 1e6).toFixed(0)} MB`,
  );
  console.log(
    `view of 60 days: ${a.toFixed(1)} ms on 60 days, ${b.toFixed(1)} ms on ${years} years, ratio ${(b / a).toFixed(3)}`,
  );
  await young.close();
  await old.close();
} finally {
  rmSync(folder, { recursive: true, force: true });
}
