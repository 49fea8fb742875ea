import { createHash } from 'node:crypto';
import { DateTime } from 'luxon';
import type { LakeConfig } from '../config/index.ts';
import type { Reading } from '../record/index.ts';
import { ThawlineError } from '../units/index.ts';
import { MAIN_LAKE } from '../vocabulary/index.ts';
import { readCsv, type CsvRow } from './csvTable.ts';

/** The same reading told twice is one reading: its name comes from what it says. */
export function withId(reading: Omit<Reading, 'id'>): Reading {
  const text = JSON.stringify([
    reading.lake,
    reading.atMs,
    reading.waterC,
    reading.clarityM,
    reading.depthM,
    reading.where,
    ...(reading.pocket === undefined ? [] : [reading.pocket]),
  ]);
  return { id: createHash('sha256').update(text).digest('hex').slice(0, 10), ...reading };
}

/** Water of a lake, degC, with room for what quality control is to judge. */
const WATER_C = { low: -2, high: 45 };
const WATER_F = { low: 28, high: 113 };
/** What such a table may hold; another column would be lost in silence. */
const COLUMNS = ['date', 'time', 'water_c', 'water_f', 'depth_m', 'sd_c', 'where'] as const;
/** As `reading add` takes them where nothing is said. */
const USUAL = { depthM: 0.3, sdC: 0.5, hour: 12 };

function waterOf(row: CsvRow): number {
  const c = row.number('water_c', WATER_C);
  const f = row.number('water_f', WATER_F);
  if (c !== undefined) return c;
  if (f !== undefined) return (f - 32) / 1.8;
  throw row.complain(
    !row.has('water_c') && row.has('water_f') ? 'water_f' : 'water_c',
    'a water temperature, water_c in degrees C or water_f in degrees F',
    'fill one of the two',
  );
}

function instantOf(row: CsvRow, zone: string, nowMs: number): number {
  const date = row.date('date');
  const clock = row.text('time') ?? `${USUAL.hour}:00`;
  const time = DateTime.fromFormat(`${date} ${clock}`, 'yyyy-LL-dd H:mm', { zone });
  if (!time.isValid) throw row.complain('time', 'a local time like 07:10');
  if (time.toMillis() > nowMs) throw row.complain('date', 'a time that has passed', 'correct the field');
  return time.toMillis();
}

/**
 * Readings of a CSV file, all of them looked at before one is kept.
 *
 * @throws ThawlineError `usage` with file, line and column
 */
export function readingsIn(path: string, lake: LakeConfig, nowMs: number): Reading[] {
  const rows = readCsv(path, ['date'], COLUMNS);
  if (rows.length === 0) throw new ThawlineError('usage', `${path}: there is no reading in it.`);
  return rows.map((row) =>
    withId({
      lake: lake.id,
      atMs: instantOf(row, lake.zone, nowMs),
      waterC: waterOf(row),
      depthM: row.number('depth_m', { low: 0, high: 100 }) ?? USUAL.depthM,
      sdC: row.number('sd_c', { low: 0.01, high: 5 }) ?? USUAL.sdC,
      where: row.text('where') ?? MAIN_LAKE,
    }),
  );
}
