/**
 * What does scoring the past issues cost a morning? A record of 30 issues and 420 days (weather model, a station's air
 * and wind, an hourly thermometer, a quarter-hourly level with its forecast); prints medians of loading and scoring,
 * and of the whole briefing.
 * Run: npx tsx bench/verification.ts
 */
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { Briefing } from '../src/briefing/index.ts';
import { loadConfig } from '../src/config/index.ts';
import { loadRules } from '../src/config/rules.ts';
import { storeBriefing } from '../src/record/schedule/briefings.ts';
import { openRecord, type Observation, type Variable } from '../src/record/index.ts';
import { briefingView, makeBriefing } from '../src/schedule/makeBriefing.ts';
import { verificationOf } from '../src/schedule/verification.ts';
import { localDateAt } from '../src/units/time/localTime.ts';
import { observation, recordView, testLake } from '../tests/helpers/weatherRecord.ts';

const HOUR = 3_600_000;
const DAY = 24 * HOUR;
const NOW = Date.parse('2026-02-09T11:15:00Z');
const ISSUES = 30;
const ROUNDS = 11;

const median = (values: number[]): number =>
  values.sort((a, b) => a - b)[Math.floor(values.length / 2)] ?? NaN;
async function timed(work: () => Promise<unknown>): Promise<number> {
  const times: number[] = [];
  for (let round = 0; round < ROUNDS; round += 1) {
    const from = performance.now();
    await work();
    times.push(performance.now() - from);
  }
  return median(times);
}

function series(
  variable: Variable,
  fromMs: number,
  stepMs: number,
  value: (atMs: number) => number,
  more: Partial<Observation>,
): Observation[] {
  const first = Math.ceil(fromMs / stepMs) * stepMs;
  return Array.from({ length: Math.floor((NOW - first) / stepMs) + 1 }, (_, index) =>
    observation(variable, first + index * stepMs, value(first + index * stepMs), more),
  );
}

/** The document of this morning as that of a morning before. */
function movedBack(document: Briefing, days: number): Briefing {
  const by = days * DAY;
  return {
    ...document,
    date: localDateAt(NOW - by, testLake.zone),
    issuedMs: NOW - by,
    series: {
      ...document.series,
      hours: document.series.hours.map((hour) => ({ ...hour, atMs: hour.atMs - by })),
    },
  };
}

const folder = mkdtempSync(join(tmpdir(), 'verification-bench-'));
try {
  const path = join(folder, 'thawline.yaml');
  writeFileSync(
    path,
    `record: ${join(folder, 'record.sqlite')}
lakes:
  - id: ${testLake.id}
    name: Tarn Water
    position: { lat: 35.9, lon: -86.4 }
    zone: ${testLake.zone}
    waterBody: highland-reservoir
    meanDepth: 12 m
    area: 25 km2
    weather: [nws, open-meteo]
    gauges:
      - { service: usgs, station: "USGS-1", variable: water_temp, where: dam }
      - { service: nwps, station: "LVL", variable: level, where: dam }
`,
  );
  const config = await loadConfig(path);
  const [lake] = config.lakes;
  if (!lake) throw new Error('the configuration holds no lake');
  const record = await openRecord(config.recordPath);
  const ctx = { config, record, rules: loadRules(), env: {} };
  const wave = (days: number) => (atMs: number) => 8 + 3 * Math.sin(atMs / DAY / days);
  const level = { source: 'nwps', station: 'LVL' };
  const stage = series('level', NOW - 2 * DAY, 6 * HOUR, wave(40), level);
  const issuedMs = Math.floor(NOW / HOUR) * HOUR;
  for (const rows of [
    recordView({ asOf: new Date(NOW).toISOString(), pastDays: 420 }).observations,
    series('air_temp', NOW - 420 * DAY, HOUR, wave(2), { source: 'nws', station: 'K' }),
    series('wind_speed', NOW - 420 * DAY, HOUR, wave(3), { source: 'nws', station: 'K' }),
    series('water_temp', NOW - 420 * DAY, HOUR, wave(9), {}),
    series('level', NOW - 420 * DAY, HOUR / 4, wave(40), level),
    stage.map((row) => ({ ...row, kind: 'forecast' as const, atMs: row.atMs + 2 * DAY, issuedMs })),
  ])
    await record.putObservations(rows);
  const brief = () => makeBriefing(ctx, lake.id, { asOfMs: NOW, offline: true });
  const { document } = await brief();
  for (let back = ISSUES; back > 0; back -= 1) {
    const moved = movedBack(document, back);
    await storeBriefing(
      record,
      { lakeId: lake.id, localDate: moved.date, edition: 'morning' },
      { issuedMs: moved.issuedMs, documentJson: JSON.stringify(moved), renderings: [] },
    );
  }
  const view = await briefingView(record, lake, NOW);
  const { scores } = await verificationOf(record, lake, view);
  const scoringMs = await timed(() => verificationOf(record, lake, view));
  const wholeMs = await timed(brief);
  console.log(
    `${scores.map(({ item, n }) => `${item} ${n}`).join(', ')}: ${scoringMs.toFixed(0)} ms to load and score ${ISSUES} issues, ${wholeMs.toFixed(0)} ms for the whole briefing`,
  );
  await record.close();
} finally {
  rmSync(folder, { recursive: true, force: true });
}
