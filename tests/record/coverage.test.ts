import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { freshRecord } from '../helpers/record.ts';
import type { RecordStore } from '../../src/record/index.ts';
import { DAY, HOUR, hourly, row, START, wave } from './rows.ts';

let record: RecordStore;
beforeEach(async () => {
  record = await freshRecord();
});
afterEach(() => record.close());

describe('coverage', () => {
  it('gives newest value, freshness and the gaps by day', async () => {
    const rows = hourly(wave(96, 12, 1)).filter((_, h) => h < 24 || h >= 60);
    await record.putObservations(rows);
    const [series] = await record.coverage('pine-hollow', START + 95 * HOUR, 4);
    expect(series).toMatchObject({ variable: 'water_temp', freshness: 'fresh', intervalS: 3600, doubted: 0 });
    expect(series?.last?.atMs).toBe(START + 95 * HOUR);
    expect(series?.days).toEqual([1, 0, 0.5, 1]);
  });

  it('passes over a doubted newest value', async () => {
    await record.putObservations(hourly([9, 9.1, 9.2, -9999]));
    const [series] = await record.coverage('pine-hollow', START + 4 * HOUR);
    expect(series?.last?.value).toBe(9.2);
    expect(series?.doubted).toBe(1);
  });

  it('judges a forecast by its issue, not by the hours it speaks of', async () => {
    const issuedMs = START - 2 * DAY;
    await record.putObservations(hourly([1, 2, 3], { kind: 'forecast', issuedMs }));
    const [series] = await record.coverage('pine-hollow', START + HOUR);
    expect(series).toMatchObject({ freshness: 'stale', lastMs: issuedMs, last: { value: 2 } });
  });
});

describe('the export', () => {
  const lines = async (from = START - 1, to = START + DAY) => {
    const all: string[] = [];
    for await (const line of record.exportCsv('pine-hollow', from, to)) all.push(line);
    return all;
  };

  it('writes SI, UTC and the raw value, and quotes what needs it', async () => {
    await record.putObservations([
      row({ station: 'a,"b"', value: -9999, provisional: true, qualifiers: ['ICE', 'e'] }),
      row({ kind: 'forecast', variable: 'air_temp', issuedMs: START, atMs: START + HOUR, value: 4.5 }),
    ]);
    expect((await lines()).slice(1)).toEqual([
      'pine-hollow,air_temp,degC,usgs,S1,forecast,2026-03-02T01:00:00.000Z,0,2026-03-02T00:00:00.000Z,4.5,,,,,2026-03-02T00:00:00.000Z,',
      'pine-hollow,water_temp,degC,usgs,"a,""b""",observed,2026-03-02T00:00:00.000Z,0,,-9999,1,ICE e,,,2026-03-02T00:00:00.000Z,',
    ]);
  });

  it('gives every row once over page borders', async () => {
    const rows = hourly(Array.from({ length: 12_003 }, (_, i) => i % 17));
    await record.putObservations(rows);
    const all = await lines(START - 1, START + 12_003 * HOUR);
    expect(all).toHaveLength(12_004);
    expect(new Set(all).size).toBe(12_004);
  });
});

describe('the span', () => {
  it('is that of the measured series asked for, forecasts apart', async () => {
    expect(await record.span('pine-hollow')).toBeNull();
    await record.putObservations([
      ...hourly([1, 2, 3]),
      row({ variable: 'air_temp', kind: 'model', atMs: START - DAY }),
      row({ variable: 'air_temp', kind: 'forecast', issuedMs: START, atMs: START + 9 * DAY }),
      row({ lake: 'other', atMs: START + 5 * DAY }),
    ]);
    expect(await record.span('pine-hollow')).toEqual({ firstMs: START - DAY, lastMs: START + 2 * HOUR });
    expect(await record.span('pine-hollow', { kind: 'observed' })).toEqual({
      firstMs: START,
      lastMs: START + 2 * HOUR,
    });
    expect(await record.span('pine-hollow', { variable: 'level' })).toBeNull();
  });
});
