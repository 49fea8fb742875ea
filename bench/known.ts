/**
 * What does keeping time twice cost? The same hourly values of 30 series once in the table of the version before and once
 * in today's, fetched 20 minutes late and 3 % of them revised a day later: size of both files, and processor time of
 * reading 60 days of all series, alternating.
 * Run: npx tsx bench/known.ts [years, default 10]
 */
import { mkdtempSync, rmSync, statSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { DatabaseSync } from '@photostructure/sqlite';

const YEARS = Number(process.argv[2] ?? 10);
const SERIES = 30;
const HOUR = 3_600_000;
const END = Date.UTC(2026, 2, 1);
const ROUNDS = 9;
const LATE_S = 1200;
const DAY_S = 86_400;

type Rows = InstanceType<typeof DatabaseSync>;
const TABLES = {
  before: `create table observation (series_id integer not null, at_ms bigint not null, value double precision not null,
    provisional integer, qualifiers text, doubt text, primary key (series_id, at_ms)) without rowid`,
  now: `create table observation (series_id integer not null, at_ms bigint not null, known_s integer not null,
    value double precision not null, provisional integer, qualifiers text, doubt text, known_how integer,
    primary key (series_id, at_ms, known_s)) without rowid`,
};

function open(path: string, table: string): Rows {
  const db = new DatabaseSync(path);
  db.exec(`pragma journal_mode = off; pragma synchronous = off; ${table}`);
  return db;
}

const value = (atMs: number): number => 15 + Math.sin(atMs / 86_400_000) + (atMs % 977) / 9770;

function fill(before: Rows, now: Rows): void {
  const old = before.prepare('insert into observation values (?, ?, ?, 1, null, null)');
  const row = now.prepare('insert into observation values (?, ?, ?, ?, 1, null, null, null)');
  for (const db of [before, now]) db.exec('begin');
  for (let series = 1; series <= SERIES; series += 1) {
    let n = series;
    for (let atMs = END - YEARS * 365.25 * 24 * HOUR; atMs <= END; atMs += HOUR, n += 1) {
      old.run(series, atMs, value(atMs));
      row.run(series, atMs, LATE_S, value(atMs));
      if (n % 33 === 0) row.run(series, atMs, DAY_S, value(atMs) + 0.1);
    }
  }
  for (const db of [before, now]) db.exec('commit; vacuum');
}

const cpuMs = (): number => {
  const { user, system } = process.cpuUsage();
  return (user + system) / 1000;
};
function timed(db: Rows, sql: string): number {
  const from = cpuMs();
  for (let series = 1; series <= SERIES; series += 1) db.prepare(sql).all(series, END - 60 * 24 * HOUR, END);
  return cpuMs() - from;
}
const median = (values: number[]): number =>
  values.sort((a, b) => a - b)[Math.floor(values.length / 2)] ?? NaN;

const folder = mkdtempSync(join(tmpdir(), 'known-bench-'));
try {
  const paths = { before: join(folder, 'before.sqlite'), now: join(folder, 'now.sqlite') };
  const before = open(paths.before, TABLES.before);
  const now = open(paths.now, TABLES.now);
  fill(before, now);
  const times = { before: [] as number[], now: [] as number[] };
  for (let round = 0; round <= ROUNDS; round += 1) {
    const a = timed(
      before,
      'select at_ms, value, provisional, qualifiers, doubt from observation where series_id = ? and at_ms > ? and at_ms <= ? order by at_ms',
    );
    const b = timed(
      now,
      `select at_ms, value, provisional, qualifiers, doubt from observation where series_id = ? and at_ms > ? and at_ms <= ? and at_ms + known_s * 1000 <= ${END} order by at_ms, known_s`,
    );
    if (round === 0) continue;
    times.before.push(a);
    times.now.push(b);
  }
  const [sizeA, sizeB] = [statSync(paths.before).size, statSync(paths.now).size];
  const [a, b] = [median(times.before), median(times.now)];
  console.log(
    `${YEARS} years: ${(sizeA / 1e6).toFixed(0)} MB before, ${(sizeB / 1e6).toFixed(0)} MB now, ratio ${(sizeB / sizeA).toFixed(3)}`,
  );
  console.log(
    `reading 60 days of ${SERIES} series: ${a.toFixed(0)} ms before, ${b.toFixed(0)} ms now, ratio ${(b / a).toFixed(2)}`,
  );
  before.close();
  now.close();
} finally {
  rmSync(folder, { recursive: true, force: true });
}
