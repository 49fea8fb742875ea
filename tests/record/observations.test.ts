import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { freshRecord } from '../helpers/record.ts';
import type { RecordStore } from '../../src/record/index.ts';
import { DAY, HOUR, hourly, row, START } from './rows.ts';

let record: RecordStore;
beforeEach(async () => {
  record = await freshRecord();
});
afterEach(() => record.close());

const LATER = START + 10 * DAY;

describe('storing observations', () => {
  it('changes nothing when the same rows come again', async () => {
    const rows = hourly([9, 9.1, 9.2]);
    expect(await record.putObservations(rows)).toEqual({ inserted: 3, changed: 0 });
    expect(await record.putObservations(rows)).toEqual({ inserted: 0, changed: 0 });
    expect((await record.view('pine-hollow', LATER)).observations).toEqual(rows);
  });

  it('takes a corrected value over and counts it as changed', async () => {
    await record.putObservations([row({ value: 9, provisional: true })]);
    const approved = row({ value: 8.7, provisional: false, qualifiers: ['A'] });
    expect(await record.putObservations([approved])).toEqual({ inserted: 0, changed: 1 });
    expect((await record.view('pine-hollow', LATER)).observations).toEqual([approved]);
  });

  it('keeps two series of one station apart, and two datums, and two periods', async () => {
    const rows = [
      row({ station: 'S1/a' }),
      row({ station: 'S1/b' }),
      row({ variable: 'level', datum: 'NAVD88', value: 200 }),
      row({ variable: 'level', datum: 'NGVD29', value: 201 }),
      row({ variable: 'rain', periodS: 3600, value: 1 }),
      row({ variable: 'rain', periodS: 86_400, value: 12 }),
    ];
    expect((await record.putObservations(rows)).inserted).toBe(6);
    expect((await record.view('pine-hollow', LATER)).observations).toHaveLength(6);
  });

  it('stores all rows or none', async () => {
    const bad = [row(), row({ atMs: START + HOUR, value: NaN })];
    await expect(record.putObservations(bad)).rejects.toThrow(/not a finite number/);
    expect((await record.view('pine-hollow', LATER)).observations).toEqual([]);
  });

  it('refuses a forecast without its issue time', async () => {
    await expect(record.putObservations([row({ kind: 'forecast' })])).rejects.toThrow(/issue time/);
  });
});

describe('the view at an instant', () => {
  it('holds nothing that was measured later', async () => {
    await record.putObservations(hourly([1, 2, 3, 4]));
    const { observations } = await record.view('pine-hollow', START + HOUR);
    expect(observations.map(({ value }) => value)).toEqual([1, 2]);
  });

  it('reaches back as many days as asked', async () => {
    await record.putObservations(hourly([1, 2, 3, 4]));
    const { observations } = await record.view('pine-hollow', START + DAY + HOUR, { days: 1 });
    expect(observations.map(({ value }) => value)).toEqual([3, 4]);
  });

  it('gives of a forecast the newest issue that was out by then, with hours to come', async () => {
    const issue = (issuedMs: number, value: number) =>
      hourly([value, value, value], { kind: 'forecast', variable: 'air_temp', issuedMs });
    await record.putObservations([...issue(START - 6 * HOUR, 10), ...issue(START, 11)]);
    await record.putObservations(issue(START + 6 * HOUR, 12));
    const values = async (asOf: number) =>
      (await record.view('pine-hollow', asOf)).observations.map(({ value }) => value);
    expect(await values(START - HOUR)).toEqual([10, 10, 10]);
    expect(await values(START + HOUR)).toEqual([11, 11, 11]);
    expect(await values(START + 6 * HOUR)).toEqual([12, 12, 12]);
    expect(await values(START - 7 * HOUR)).toEqual([]);
  });

  it('keeps yesterday’s forecast after today’s came, so that it can be judged', async () => {
    const issued = (issuedMs: number) => row({ kind: 'forecast', issuedMs, atMs: START + DAY });
    await record.putObservations([issued(START)]);
    expect((await record.putObservations([issued(START + HOUR)])).inserted).toBe(1);
    const [old] = (await record.view('pine-hollow', START)).observations;
    expect(old?.issuedMs).toBe(START);
  });

  it('is sorted by variable, source, station, kind and time however the rows came', async () => {
    const rows = [
      row({ variable: 'water_temp', atMs: START + HOUR }),
      row({ variable: 'air_temp', source: 'nws' }),
      row({ variable: 'water_temp', station: 'S0' }),
      row({ variable: 'water_temp' }),
      row({ variable: 'air_temp', source: 'csv' }),
    ];
    await record.putObservations(rows);
    const { observations } = await record.view('pine-hollow', LATER);
    expect(observations.map((o) => [o.variable, o.source, o.station, o.atMs - START])).toEqual([
      ['air_temp', 'csv', 'S1', 0],
      ['air_temp', 'nws', 'S1', 0],
      ['water_temp', 'usgs', 'S0', 0],
      ['water_temp', 'usgs', 'S1', 0],
      ['water_temp', 'usgs', 'S1', HOUR],
    ]);
  });

  it('knows only its own lake', async () => {
    await record.putObservations([row({ lake: 'other' })]);
    expect((await record.view('pine-hollow', LATER)).observations).toEqual([]);
  });
});

describe('floods, retrievals and validators', () => {
  it('gives the newest flood status known at the instant', async () => {
    const status = (atMs: number, observed: 'none' | 'minor') => ({
      lake: 'pine-hollow',
      station: 'PHLT1',
      observed,
      forecast: 'unknown' as const,
      atMs,
      thresholdsM: { minor: 5.5 },
    });
    await record.putFloods([status(START, 'none'), status(START + HOUR, 'minor')]);
    expect((await record.view('pine-hollow', START)).floods).toEqual([status(START, 'none')]);
    expect((await record.view('pine-hollow', LATER)).floods).toEqual([status(START + HOUR, 'minor')]);
  });

  it('names the last refresh that worked', async () => {
    expect(await record.lastRefreshMs('pine-hollow')).toBeNull();
    const attempt = { lake: 'pine-hollow', source: 'usgs', status: 200, durationMs: 80.5, bytes: 900 };
    await record.putRetrievals([
      { ...attempt, atMs: START, ok: true, problem: '' },
      { ...attempt, atMs: START + HOUR, ok: false, status: null, problem: 'timed out' },
    ]);
    expect(await record.lastRefreshMs('pine-hollow')).toBe(START);
    const { retrievals } = await record.view('pine-hollow', START + HOUR);
    expect(retrievals.map(({ ok, problem }) => [ok, problem])).toEqual([
      [true, ''],
      [false, 'timed out'],
    ]);
  });

  it('remembers what to ask "has it changed?" with', async () => {
    const { validators } = record;
    expect(await validators.get('http://127.0.0.1/a')).toBeUndefined();
    await validators.set('http://127.0.0.1/a', { etag: '"1"', lastModified: 'Mon' });
    await validators.set('http://127.0.0.1/a', { etag: '"2"' });
    expect(await validators.get('http://127.0.0.1/a')).toEqual({ etag: '"2"' });
  });
});
