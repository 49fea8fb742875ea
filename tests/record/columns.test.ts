/** A view reads its series as columns and looks at rows only where a check may find something: both must say the same. */
import fc from 'fast-check';
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import type { SeriesColumns } from '../../src/record/observations/columns.ts';
import { openRecord, VARIABLES, type Observation, type RecordStore } from '../../src/record/index.ts';
import { judgeSeries } from '../../src/record/quality/index.ts';
import { mayBeDoubted } from '../../src/record/quality/screen.ts';
import { DAY, HOUR, hourly, row, START, wave } from './rows.ts';

const columnOf = (rows: readonly Observation[]): SeriesColumns => ({
  ...row(rows[0]),
  datum: rows[0]?.datum ?? '',
  atMs: Float64Array.from(rows, ({ atMs }) => atMs),
  values: Float64Array.from(rows, ({ value }) => value),
  doubts: new Map(),
});
const doubtedBy = (rows: readonly Observation[]): number =>
  (judgeSeries([rows])[0] ?? []).filter(({ doubt }) => doubt !== undefined).length;

/** Sensors as they fail: a healthy wave with stretches that stick, repeat, jump, zigzag or swing. */
const sensor = fc
  .array(
    fc.record({
      kind: fc.constantFrom('well', 'stuck', 'repeat', 'jump', 'zigzag', 'swing', 'spike', 'wild'),
      hours: fc.integer({ min: 1, max: 130 }),
      size: fc.double({ min: 0.1, max: 12, noNaN: true }),
    }),
    { minLength: 1, maxLength: 5 },
  )
  .map((parts) => {
    const values: number[] = [];
    let level = 10;
    for (const { kind, hours, size } of parts)
      for (let h = 0; h < hours; h += 1) {
        const n = values.length;
        const healthy = level + 0.4 * Math.sin((n * Math.PI) / 12) + ((n * 37) % 11) / 100;
        if (kind === 'jump' && h === 0) level += size;
        values.push(
          kind === 'stuck'
            ? level
            : kind === 'repeat'
              ? (values[n - 24] ?? healthy)
              : kind === 'zigzag'
                ? healthy + (h % 2) * size
                : kind === 'swing'
                  ? level + size * Math.sin((n * Math.PI) / 12)
                  : kind === 'spike' && h === Math.floor(hours / 2)
                    ? healthy + size
                    : kind === 'wild' && h === 0
                      ? size * 1000
                      : healthy,
        );
      }
    return values;
  });

describe('the screen before quality control', () => {
  it('never passes over a series in which a check finds something', () => {
    let found = 0;
    fc.assert(
      fc.property(fc.constantFrom(...VARIABLES), sensor, (variable, values) => {
        const rows = hourly(values, { variable });
        const doubted = doubtedBy(rows);
        if (doubted > 0) found += 1;
        if (!mayBeDoubted(columnOf(rows))) expect(doubted).toBe(0);
      }),
      { numRuns: 400 },
    );
    // Else the property above proves nothing.
    expect(found).toBeGreaterThan(50);
  });

  it('lets a healthy thermometer, a resting level and a model pass', () => {
    expect(mayBeDoubted(columnOf(hourly(wave(240, 10, 1))))).toBe(false);
    const held = hourly(new Array<number>(240).fill(188), { variable: 'level' });
    expect(doubtedBy(held)).toBe(0);
    const model = hourly(new Array<number>(240).fill(9), { kind: 'model', variable: 'air_temp' });
    expect(mayBeDoubted(columnOf(model))).toBe(false);
  });
});

describe('a view of the record', () => {
  let folder: string;
  let record: RecordStore;
  beforeEach(async () => {
    folder = mkdtempSync(join(tmpdir(), 'columns-'));
    record = await openRecord(join(folder, 'record.sqlite'));
  });
  afterEach(async () => {
    await record.close();
    rmSync(folder, { recursive: true, force: true });
  });

  it('gives every double back to the last bit, with the marks of its service', async () => {
    // Of sizes that instruments give: far below them the database writes zero.
    const size = fc.double({ min: 1e-6, max: 55, noNaN: true });
    const values = fc
      .sample(fc.tuple(size, fc.boolean()), { numRuns: 400, seed: 7 })
      .map(([value, isBelow]) => (isBelow ? -value : value));
    const rows = hourly(values, { variable: 'air_temp', kind: 'model' }).map((one, i) => ({
      ...one,
      ...(i % 3 === 0 ? { provisional: i % 2 === 0 } : {}),
      ...(i % 5 === 0 ? { qualifiers: ['ice', 'a "quoted", mark'] } : {}),
    }));
    await record.putObservations(rows);
    const { observations } = await record.view('pine-hollow', START + 400 * HOUR);
    expect(observations).toEqual(rows);
  });

  it('holds the doubts of the service and of quality control, series by series', async () => {
    const water = wave(96, 10, 1);
    water[50] = 18;
    const air = hourly(wave(96, 9, 4), { variable: 'air_temp', source: 'nws' });
    const doubted = row({
      station: 'S2',
      atMs: START + DAY,
      value: 9,
      doubt: { code: 'doubt.stated', text: 'ice' },
    });
    const rows = [...hourly(water), doubted, ...air];
    await record.putObservations(rows);
    const { observations } = await record.view('pine-hollow', START + 96 * HOUR);
    const doubts = observations.filter(({ doubt }) => doubt !== undefined);
    expect(doubts.map(({ station, atMs }) => [station, atMs])).toEqual([
      ['S1', START + 50 * HOUR],
      ['S2', START + DAY],
    ]);
    expect([...new Set(observations.map(({ variable, station }) => `${variable} ${station}`))]).toEqual([
      'air_temp S1',
      'water_temp S1',
      'water_temp S2',
    ]);
  });
});
