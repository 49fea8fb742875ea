import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { freshRecord } from '../helpers/record.ts';
import { RETENTION_DAYS, type RecordStore } from '../../src/record/index.ts';
import { DAY, HOUR, hourly, row, START } from './rows.ts';

let record: RecordStore;
beforeEach(async () => {
  record = await freshRecord();
});
afterEach(() => record.close());

const issue = (issuedMs: number) => row({ kind: 'forecast', issuedMs, atMs: issuedMs + DAY });

async function issuesLeft(): Promise<number[]> {
  const rows = await record.db.selectFrom('forecast').select('issued_ms').orderBy('issued_ms').execute();
  return rows.map(({ issued_ms }) => issued_ms);
}

describe('compacting', () => {
  /** An issue of hourly values over twelve days. */
  const longIssue = (issuedMs: number) =>
    Array.from({ length: 12 * 24 }, (_, h) =>
      row({ kind: 'forecast', issuedMs, atMs: issuedMs + (h + 1) * HOUR, value: h }),
    );
  const MORNINGS = new Map([['pine-hollow', { zone: 'America/Chicago', at: '05:15' }]]);

  it('keeps the issue that each morning used, and every issue of the last two weeks', async () => {
    // START is midnight UTC; the morning of 05:15 in Chicago is 11:15 UTC.
    const issues = [0, 6, 11, 12, 24, 30].map((h) => START + h * HOUR);
    await record.putObservations(issues.map(issue));
    await record.compact(START + RETENTION_DAYS.everyIssue * DAY, MORNINGS);
    expect(await issuesLeft()).toEqual(issues);
    const gone = await record.compact(START + (RETENTION_DAYS.everyIssue + 3) * DAY, MORNINGS);
    expect(gone.forecastRows).toBe(4);
    expect(await issuesLeft()).toEqual([11, 30].map((h) => START + h * HOUR));
  });

  it('keeps a kept issue hourly for two days and daily to the tenth, for ever', async () => {
    const issuedMs = START + 9 * HOUR;
    await record.putObservations(longIssue(issuedMs));
    const noClockChange = new Map([['pine-hollow', { zone: 'America/Phoenix', at: '05:15' }]]);
    await record.compact(START + 40 * DAY, noClockChange);
    await record.compact(START + 4000 * DAY, noClockChange);
    const rows = await record.db.selectFrom('forecast').select('at_ms').orderBy('at_ms').execute();
    const leads = rows.map(({ at_ms }) => (at_ms - issuedMs) / HOUR);
    expect(leads.filter((lead) => lead <= 48)).toEqual(Array.from({ length: 48 }, (_, h) => h + 1));
    // One a local day, at 15:00 in Phoenix, 22:00 UTC, or as near to it as the tenth day goes.
    expect(leads.filter((lead) => lead > 48)).toEqual([61, 85, 109, 133, 157, 181, 205, 229, 240]);
  });

  it('removes nothing twice and nothing new when it runs every day', async () => {
    for (let day = 0; day < 20; day += 1) {
      await record.putObservations([0, 6, 12, 18].map((h) => issue(START + day * DAY + h * HOUR)));
      await record.compact(START + day * DAY, MORNINGS);
    }
    const left = await issuesLeft();
    const old = left.filter((ms) => ms < START + 4 * DAY);
    expect(old.map((ms) => (ms - START) / HOUR)).toEqual([6, 30, 54, 78]);
    expect(left.filter((ms) => ms >= START + 6 * DAY)).toHaveLength(14 * 4);
  });

  it('never removes a measured value or a reading, however old', async () => {
    const rows = hourly([1, 2, 3]);
    const reading = {
      id: 'r',
      lake: 'pine-hollow',
      atMs: START,
      waterC: 9,
      depthM: 0.3,
      sdC: 0.5,
      where: 'ramp',
    };
    await record.putObservations(rows);
    await record.putReading(reading);
    await record.compact(START + 4000 * DAY);
    const view = await record.view('pine-hollow', START + DAY);
    expect(view.observations).toEqual(rows);
    expect(view.readings).toEqual([reading]);
  });

  it('drops the retrieval log and validators past their time, and only those', async () => {
    const attempt = {
      lake: 'pine-hollow',
      source: 'usgs',
      ok: true,
      status: 200,
      durationMs: 1,
      bytes: 1,
      problem: '',
    };
    await record.putRetrievals([
      { ...attempt, atMs: START },
      { ...attempt, atMs: START + 2 * DAY },
    ]);
    await record.validators.set('http://127.0.0.1/', { etag: '"1"' });
    const gone = await record.compact(START + (RETENTION_DAYS.retrievals + 1) * DAY);
    expect(gone).toMatchObject({ retrievals: 1 });
    expect(await record.lastRefreshMs('pine-hollow')).toBe(START + 2 * DAY);
    expect((await record.compact(Date.now())).validators).toBe(
      (await record.validators.get('http://127.0.0.1/')) === undefined ? 1 : 0,
    );
  });
});
