/**
 * What does the year's range of the level cost a morning? Times `view()` over 420 days of one gauge that speaks every
 * quarter hour, with all its rows and with daily means averaged by the database, alternating, and prints medians.
 * Run: npx tsx bench/level-year.ts
 */
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { openRecord, type Observation } from '../src/record/index.ts';

const DAY = 86_400_000;
const END = Date.UTC(2026, 2, 1);
const DAYS = 420;
const ROUNDS = 11;

const median = (values: number[]): number =>
  values.sort((a, b) => a - b)[Math.floor(values.length / 2)] ?? NaN;

const folder = mkdtempSync(join(tmpdir(), 'level-bench-'));
try {
  const record = await openRecord(join(folder, 'record.sqlite'));
  const rows: Observation[] = [];
  for (let atMs = END - DAYS * DAY; atMs <= END; atMs += 900_000)
    rows.push({
      lake: 'pine-hollow',
      variable: 'level',
      source: 'usgs',
      station: 'L',
      kind: 'observed',
      atMs,
      periodS: 0,
      value: 188 + Math.sin(atMs / (60 * DAY)) + 0.01 * Math.sin(atMs / 7e6),
      issuedMs: null,
    });
  await record.putObservations(rows);
  const times = { rows: [] as number[], means: [] as number[] };
  for (let round = 0; round < ROUNDS; round += 1)
    for (const [name, options] of [
      ['rows', { days: DAYS }],
      ['means', { days: DAYS, levelRowDays: 45 }],
    ] as const) {
      const from = performance.now();
      await record.view('pine-hollow', END, options);
      if (round > 0) times[name].push(performance.now() - from);
    }
  console.log(
    `view of ${DAYS} days, ${rows.length} level rows: ${median(times.rows).toFixed(0)} ms with all rows, ${median(times.means).toFixed(0)} ms with daily means and 45 days of rows`,
  );
  await record.close();
} finally {
  rmSync(folder, { recursive: true, force: true });
}
